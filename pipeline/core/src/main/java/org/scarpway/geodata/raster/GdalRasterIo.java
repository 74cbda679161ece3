package org.scarpway.geodata.raster;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.scarpway.geodata.tiff.GeoKeyCrs;
import org.scarpway.geodata.tiff.GeoKeys;

/** Raster files in every format that GDAL is allowed to read, with every CRS that it knows. */
final class GdalRasterIo extends FileRasterIo {
  private final Map<String, GeoKeys.Tags> provenCrs = new ConcurrentHashMap<>();

  @Override
  public String name() {
    return "GDAL " + GdalRuntime.version();
  }

  @Override
  public List<String> reduced() {
    return List.of();
  }

  @Override
  OpenRaster open(Path file) {
    return GdalFile.open(file);
  }

  @Override
  GeoKeys.Tags keys(String crsWkt) {
    return crsWkt.isEmpty()
        ? GeoKeyCrs.keys("").tags()
        : provenCrs.computeIfAbsent(crsWkt, GdalGeoKeys::of);
  }
}
