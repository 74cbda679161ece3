package org.scarpway.geodata.raster;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.file.RasterFiles;
import org.scarpway.geodata.tiff.GeoKeyCrs;
import org.scarpway.geodata.tiff.GeoKeys;
import org.scarpway.geodata.tiff.TiffDirectory;
import org.scarpway.stage.UserError;

/** Raster files without native code: reads GeoTIFF and ASCII grids. */
final class JavaRasterIo extends FileRasterIo {

  @Override
  public String name() {
    return "pure Java";
  }

  @Override
  public List<String> reduced() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "only GeoTIFF and text grids are read; ISIS2, ISIS3, PDS, PDS4, VICAR, USGSDEM, DTED, SRTMHGT,"
            + " EHdr, ENVI, HFA and JPEG 2000 files, and GeoTIFF with mask bands, need GDAL");
    GdalRuntime.problem().ifPresent(why -> lines.add("GDAL is not used: " + why));
    lines.add("to install GDAL: " + GdalRuntime.INSTALL);
    return List.copyOf(lines);
  }

  @Override
  OpenRaster open(Path file) {
    RasterFiles.requireSelfContained(file);
    if (TiffDirectory.isTiff(file)) {
      return GeoTiffFile.open(file);
    }
    if (AsciiGridFile.isAsciiGrid(file)) {
      return AsciiGridFile.open(file);
    }
    throw UserError.of(
        file.toString(),
        "is no raster that the pure Java path reads",
        "a GeoTIFF or a text grid",
        "convert it, or install GDAL: " + GdalRuntime.INSTALL);
  }

  @Override
  GeoKeys.Tags keys(String crsWkt) {
    try {
      return GeoKeyCrs.keys(crsWkt).tags();
    } catch (IllegalArgumentException e) {
      throw UserError.of(
          "coordinate reference system",
          "the pure Java path cannot write it (" + e.getMessage() + ")",
          "a projected system in metres that GeoTIFF keys can hold",
          "install GDAL: " + GdalRuntime.INSTALL);
    }
  }
}
