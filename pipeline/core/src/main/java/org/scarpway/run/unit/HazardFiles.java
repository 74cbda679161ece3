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
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/** Finished hazard without rocks, read from its rasters by rows. */
final class HazardFiles implements FinishedGround.HazardRows {
  private final Supplier<Geometry> outline;
  private final Workers workers;
  private RasterRows<float[]> hazard01;
  private RasterRows<byte[]> causes;
  private RasterRows<float[]> detour;
  private RasterRows<byte[]> dominant;

  /**
   * @param dir the folder of the hazard stage
   * @param outline of keep-out ground
   */
  HazardFiles(Path dir, Supplier<Geometry> outline, Workers workers) {
    this.outline = outline;
    this.workers = workers;
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
    FloatGrid hazards = FloatGrid.empty(part);
    ByteGrid bits = ByteGrid.empty(part);
    FloatGrid factors = FloatGrid.empty(part);
    ByteGrid codes = ByteGrid.empty(part);
    workers.all(
        List.of(
            () -> hazard01.read(firstRow, part.rows(), hazards.values()),
            () -> causes.read(firstRow, part.rows(), bits.values()),
            () -> detour.read(firstRow, part.rows(), factors.values()),
            () -> dominant.read(firstRow, part.rows(), codes.values())));
    return new Hazard(
        hazards, bits, outline, factors, codes, Optional.empty(), new BitSet(), List.of());
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
