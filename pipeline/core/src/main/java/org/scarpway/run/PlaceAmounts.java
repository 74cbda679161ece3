package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.run.product.Durations;
import org.scarpway.stage.Digits;

/** What a reach question found in one cell, in the units of a planner. */
final class PlaceAmounts {
  private static final double J_PER_KWH = 3.6e6;

  private final Path folder;
  private final int row;
  private final int col;
  private final List<String> lines = new ArrayList<>();

  private PlaceAmounts(Path folder, int row, int col) {
    this.folder = folder;
    this.row = row;
    this.col = col;
  }

  /**
   * Returns one line for each amount that is known there.
   *
   * @param folder products of the question
   */
  static List<String> of(Path folder, HomeRule home, int row, int col) {
    PlaceAmounts all = new PlaceAmounts(folder, row, col);
    all.add("time_s", v -> Durations.text(v) + " out by the quickest way");
    String how =
        switch (home) {
          case WALK_BACK -> " home on foot";
          case PAIR -> " home by the quickest way, everybody in one vehicle";
          default -> " home by the quickest way";
        };
    all.add("home_time_s", v -> Durations.text(v) + how);
    all.add("energy_j", v -> Digits.of(v / J_PER_KWH) + " kWh out by the way of least energy");
    all.add(
        "gap_width_m",
        v -> Digits.of(v) + " m: the narrowest passage of the widest way home from there");
    return all.lines;
  }

  private void add(String name, DoubleFunction<String> words) {
    try (RasterRows<float[]> rows =
        RasterRows.open(folder.resolve(name + ".tif"), CellKind.FLOAT32)) {
      float[] cells = CellKind.FLOAT32.array(rows.cols());
      rows.read(row, 1, cells);
      if (!Float.isNaN(cells[col])) {
        lines.add(words.apply(cells[col]));
      }
    }
  }
}
