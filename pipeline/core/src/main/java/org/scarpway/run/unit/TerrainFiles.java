package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.product.StoredResult;
import org.scarpway.terrain.Terrain;

/** Finished terrain, read from its rasters by rows. */
final class TerrainFiles implements AutoCloseable {
  /** Rasters that later stages use. */
  enum Layer {
    ELEVATION("elevation"),
    SLOPE("slope_deg"),
    EAST("gradient_east"),
    NORTH("gradient_north"),
    ROUGHNESS("roughness_m"),
    STEP("step_m"),
    CONVEXITY("convexity_m");

    private final String file;

    Layer(String file) {
      this.file = file;
    }
  }

  private final GridSpec spec;
  private final TerrainTask.Rest rest;
  private final Map<Layer, RasterRows<float[]>> open = new EnumMap<>(Layer.class);

  /**
   * @param dir the folder of the terrain stage
   */
  TerrainFiles(Path dir, GridSpec spec, List<Layer> layers) {
    this.spec = spec;
    this.rest = StoredResult.read(dir, TerrainTask.Rest.class);
    boolean all = false;
    try {
      for (Layer layer : layers) {
        open.put(layer, RasterRows.open(dir.resolve(layer.file + ".tif"), CellKind.FLOAT32));
      }
      all = true;
    } finally {
      if (!all) {
        close();
      }
    }
  }

  /** Returns some rows; layers that were not requested are null. */
  Terrain rows(int firstRow, int rows) {
    GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
    return new Terrain(
        layer(Layer.ELEVATION, part, firstRow),
        layer(Layer.SLOPE, part, firstRow),
        null,
        layer(Layer.EAST, part, firstRow),
        layer(Layer.NORTH, part, firstRow),
        layer(Layer.ROUGHNESS, part, firstRow),
        layer(Layer.STEP, part, firstRow),
        null,
        layer(Layer.CONVEXITY, part, firstRow),
        null,
        null,
        null,
        rest.extrapolation(),
        rest.lengths(),
        List.of());
  }

  private FloatGrid layer(Layer layer, GridSpec part, int firstRow) {
    RasterRows<float[]> file = open.get(layer);
    if (file == null) {
      return null;
    }
    FloatGrid grid = FloatGrid.empty(part);
    file.read(firstRow, part.rows(), grid.values());
    return grid;
  }

  @Override
  public void close() {
    open.values().forEach(RasterRows::close);
  }
}
