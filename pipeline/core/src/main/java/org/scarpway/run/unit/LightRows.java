package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;

/** Some rows of the rasters of a stage on product cells, by the names of the rasters. */
final class LightRows {
  /** Rows that are computed before they are written. */
  static final int STRIP_ROWS = 256;

  /** Rows that one thread computes at a time. */
  private static final int BAND_ROWS = 8;

  private final GridSpec part;
  private final Map<String, FloatGrid> amounts = new LinkedHashMap<>();
  private final Map<String, ByteGrid> codes = new LinkedHashMap<>();

  LightRows(GridSpec part, List<String> amountNames, List<String> codeNames) {
    this.part = part;
    amountNames.forEach(name -> amounts.put(name, FloatGrid.empty(part)));
    codeNames.forEach(name -> codes.put(name, new ByteGrid(part, new byte[part.cells()])));
  }

  FloatGrid amount(String name) {
    return amounts.get(name);
  }

  ByteGrid code(String name) {
    return codes.get(name);
  }

  /** Sets a cell of a raster of amounts. */
  void set(String name, int cell, float value) {
    amounts.get(name).values()[cell] = value;
  }

  /** Sets a cell of a raster of codes. */
  void code(String name, int cell, int value) {
    codes.get(name).values()[cell] = (byte) value;
  }

  /** Computes the rows of a band. */
  interface Band {
    /**
     * @param skip cells of the strip before the band
     * @param firstRow row of the whole grid
     */
    void rows(int skip, int firstRow, int rows);
  }

  /** Computes all rows, in bands, on all threads. */
  void inBands(int firstRow, Workers workers, Band band) {
    List<Runnable> tasks = new ArrayList<>();
    for (int from = 0; from < part.rows(); from += BAND_ROWS) {
      int first = from;
      int n = Math.min(BAND_ROWS, part.rows() - from);
      tasks.add(() -> band.rows(first * part.cols(), firstRow + first, n));
    }
    workers.all(tasks);
  }
}
