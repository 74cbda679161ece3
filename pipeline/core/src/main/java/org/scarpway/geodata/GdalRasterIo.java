package org.scarpway.geodata;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;

/** Raster files by GDAL; writes cloud-optimised GeoTIFF. */
final class GdalRasterIo extends FileRasterIo {
  private final Set<String> provenCrs = ConcurrentHashMap.newKeySet();

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
  public void write(Path file, FloatGrid grid, BandInfo info) {
    write(file, grid.spec(), GdalCog.Cells.of(grid), info);
  }

  @Override
  public void write(Path file, ByteGrid grid, BandInfo info) {
    write(file, grid.spec(), GdalCog.Cells.of(grid), info);
  }

  @Override
  public void write(Path file, IntGrid grid, BandInfo info) {
    write(file, grid.spec(), GdalCog.Cells.of(grid), info);
  }

  private void write(Path file, GridSpec spec, GdalCog.Cells cells, BandInfo info) {
    requireWritable(spec);
    files.forget(file);
    RasterFiles.writeWhole(
        file,
        part -> {
          GdalCog.write(part, spec, cells, info);
          TiffDirectory.requireWritten(part, spec);
        });
  }

  @Override
  public void requireWritable(GridSpec spec) {
    if (!spec.crsWkt().isEmpty() && !provenCrs.contains(spec.crsWkt())) {
      GdalCog.requireCrsSurvives(spec.crsWkt());
      provenCrs.add(spec.crsWkt());
    }
  }
}
