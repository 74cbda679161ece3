package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;

/** Finished hazard without rocks, read from its rasters by rows. */
final class HazardFiles implements FinishedGround.HazardRows {
  private final Supplier<Geometry> outline;
  private RasterRows<float[]> hazard01;
  private RasterRows<byte[]> causes;
  private RasterRows<float[]> detour;
  private RasterRows<byte[]> dominant;

  /**
   * @param dir the folder of the hazard stage
   * @param outline of keep-out ground
   */
  HazardFiles(Path dir, Supplier<Geometry> outline) {
    this.outline = outline;
    boolean all = false;
    try {
      hazard01 = RasterRows.open(dir.resolve("hazard.tif"), CellKind.FLOAT32);
      causes = RasterRows.open(dir.resolve("causes.tif"), CellKind.UINT8);
      detour = RasterRows.open(dir.resolve("detour_factor.tif"), CellKind.FLOAT32);
      dominant = RasterRows.open(dir.resolve("dominant.tif"), CellKind.UINT8);
      all = true;
    } finally {
      if (!all) {
        close();
      }
    }
  }

  @Override
  public int haloRows() {
    return 0;
  }

  @Override
  public Hazard strip(Terrain terrain, int firstRow) {
    GridSpec part = terrain.slopeDeg().spec();
    return new Hazard(
        floats(hazard01, firstRow, part),
        codes(causes, firstRow, part),
        outline,
        floats(detour, firstRow, part),
        codes(dominant, firstRow, part),
        Optional.empty(),
        new BitSet(),
        List.of());
  }

  private static FloatGrid floats(RasterRows<float[]> file, int firstRow, GridSpec part) {
    FloatGrid layer = FloatGrid.empty(part);
    file.read(firstRow, part.rows(), layer.values());
    return layer;
  }

  private static ByteGrid codes(RasterRows<byte[]> file, int firstRow, GridSpec part) {
    ByteGrid layer = ByteGrid.empty(part);
    file.read(firstRow, part.rows(), layer.values());
    return layer;
  }

  @Override
  public void close() {
    for (RasterRows<?> file : new RasterRows<?>[] {hazard01, causes, detour, dominant}) {
      if (file != null) {
        file.close();
      }
    }
  }
}
