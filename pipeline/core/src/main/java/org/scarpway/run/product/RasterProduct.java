package org.scarpway.run.product;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * A raster that a stage writes.
 *
 * @param name file name without folder and extension
 * @param cells returns the raster's cells from a result of the stage, on all rows or on a strip of
 *     them
 * @param <S> the stage's result
 * @param <A> float[] or byte[]
 */
public record RasterProduct<S, A>(
    String name, CellKind<A> kind, BandInfo info, Function<S, A> cells) {

  /** Returns the name of its file. */
  public String file() {
    return name + ".tif";
  }

  /** Returns the names of its file and of those beside it that say how to draw it. */
  public List<String> files() {
    List<String> all = new ArrayList<>(List.of(file()));
    if (RasterStyle.drawn(info)) {
      all.add(RasterStyle.style(name));
    }
    if (!info.meanings().isEmpty()) {
      all.add(RasterStyle.names(name));
    }
    return all;
  }

  public static <S> RasterProduct<S, float[]> floats(
      String name, BandInfo info, Function<S, FloatGrid> grid) {
    return new RasterProduct<>(name, CellKind.FLOAT32, info, s -> grid.apply(s).values());
  }

  public static <S> RasterProduct<S, byte[]> codes(
      String name, BandInfo info, Function<S, ByteGrid> grid) {
    return new RasterProduct<>(name, CellKind.UINT8, info, s -> grid.apply(s).values());
  }
}
