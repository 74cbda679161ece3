package org.scarpway.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/** Builds layers from grids, all on the same pixels. */
final class LayerFactory {
  private static final int RAMP_ALPHA = 190;

  final PixelGrid pixels;
  private final double cellAreaM2;
  private final double groundM2;

  /**
   * @param groundM2 plan area with elevation, the whole of all percentages
   */
  LayerFactory(PixelGrid pixels, double groundM2) {
    this.pixels = pixels;
    this.cellAreaM2 = pixels.spec().cellAreaM2();
    this.groundM2 = groundM2;
  }

  /**
   * A continuous quantity from {@code low} to {@code high}; a NaN {@code high} is replaced by a
   * round value that 99 % of the ground stays below.
   */
  Layer ramp(
      String id, String title, String unit, FloatGrid grid, double low, double high, String note) {
    float[] values = pixels.mean(grid);
    double top = Double.isNaN(high) ? roundTop(values, low) : high;
    Ticks ticks = Ticks.between(low, top, 6);
    List<Layer.Mark> marks = new ArrayList<>();
    for (double v : ticks.values()) {
      marks.add(new Layer.Mark(Figures.fixed(100 * (v - low) / (top - low), 2), ticks.text(v)));
    }
    return new Layer(
        id,
        title,
        title + " in " + unit + " over shaded relief, dark is low and bright is high.",
        Paint.ramp(pixels, values, low, top, RAMP_ALPHA),
        new Layer.Legend(List.of(), new Layer.Ramp(Paint.rampBar(RAMP_ALPHA), unit, marks), note));
  }

  /** Classes of a grid; only those that occur enter the legend. */
  Layer classes(String id, String title, ByteGrid grid, List<ClassStyle> styles, String note) {
    long[] cells = count(grid);
    return classes(id, title, pixels.mode(grid), null, styles, cells, cells, note);
  }

  /**
   * @param cells per code; a class without cells is left out of the legend
   * @param stated cells per code as the legend states them, such as cumulative
   */
  Layer classes(
      String id,
      String title,
      byte[] codes,
      boolean[] edges,
      List<ClassStyle> styles,
      long[] cells,
      long[] stated,
      String note) {
    List<Layer.Entry> entries = new ArrayList<>();
    StringBuilder alt = new StringBuilder(title).append(" over shaded relief: ");
    for (ClassStyle style : styles) {
      if (cells[style.code()] > 0) {
        String amount = amount(stated[style.code()]);
        entries.add(new Layer.Entry(Paint.swatch(style), style.label(), amount));
        alt.append(entries.size() > 1 ? "; " : "").append(style.label()).append(" ").append(amount);
      }
    }
    return new Layer(
        id,
        title,
        entries.isEmpty() ? title + ": no ground is in any class." : alt.append('.').toString(),
        Paint.classes(pixels, codes, styles, edges),
        new Layer.Legend(entries, null, note));
  }

  String amount(long cells) {
    double m2 = cells * cellAreaM2;
    return Figures.area(m2) + " (" + Figures.percent(m2, groundM2) + " %)";
  }

  /** Cells per code. */
  static long[] count(ByteGrid grid) {
    long[] cells = new long[256];
    for (byte code : grid.values()) {
      cells[code & 0xFF]++;
    }
    return cells;
  }

  private static double roundTop(float[] values, double low) {
    float[] finite = new float[values.length];
    int n = 0;
    for (float v : values) {
      if (Float.isFinite(v)) {
        finite[n++] = v;
      }
    }
    if (n == 0) {
      return low + 1;
    }
    Arrays.sort(finite, 0, n);
    double p99 = finite[(int) (0.99 * (n - 1))];
    if (!(p99 > low)) {
      return low + 1;
    }
    double step = Ticks.step(p99 - low, 10);
    return low + step * Math.ceil((p99 - low) / step);
  }
}
