package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.product.StoredResult;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/** Finished terrain, read from its rasters by rows, all layers at once. */
final class TerrainFiles implements FinishedGround.TerrainRows {
  private final GridSpec spec;
  private final Workers workers;
  private final TerrainTask.Rest rest;
  private final List<RasterRows<float[]>> open = new ArrayList<>();

  /**
   * @param dir the folder of the terrain stage
   */
  TerrainFiles(Path dir, GridSpec spec, Workers workers) {
    this.spec = spec;
    this.workers = workers;
    this.rest = StoredResult.read(dir, TerrainTask.Rest.class);
    boolean all = false;
    try {
      for (String layer : TerrainTask.LAYERS) {
        open.add(RasterRows.open(dir.resolve(layer + ".tif"), CellKind.FLOAT32));
      }
      all = true;
    } finally {
      if (!all) {
        close();
      }
    }
  }

  @Override
  public Terrain rows(int firstRow, int rows) {
    GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
    List<FloatGrid> layers = new ArrayList<>();
    List<Runnable> reading = new ArrayList<>();
    for (RasterRows<float[]> file : open) {
      FloatGrid layer = FloatGrid.empty(part);
      layers.add(layer);
      reading.add(() -> file.read(firstRow, rows, layer.values()));
    }
    workers.all(reading);
    return new Terrain(
        layers.get(0),
        layers.get(1),
        layers.get(2),
        layers.get(3),
        layers.get(4),
        layers.get(5),
        layers.get(6),
        rest.extrapolation(),
        rest.lengths());
  }

  @Override
  public void close() {
    open.forEach(RasterRows::close);
  }
}
