package org.scarpway.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.TilePack.Halving;

/**
 * Builds layers from grids. Class maps get the full number of pixels, so that thin barriers show;
 * continuous quantities get half of it, which is what a printed or displayed map resolves.
 */
final class LayerFactory {
  private static final int RAMP_ALPHA = 190;
  private static final int SAMPLES = 40_007;

  final PixelGrid pixels;
  final PixelGrid rampPixels;
  private final double cellAreaM2;
  private final FloatGrid heightM;
  private final Whole ground;

  /**
   * The ground that is 100 % of a legend's percentages.
   *
   * @param m2 area (m²) of that ground
   * @param name of that ground, stated beside the figures
   * @param outside codes of ground outside it, stated by area alone
   */
  record Whole(double m2, String name, Set<Byte> outside) {}

  /**
   * @param maxPixels longest side of the class maps
   * @param groundM2 plan area (m²) with elevation, the whole of percentages unless another is given
   */
  LayerFactory(FloatGrid heightM, int maxPixels, double groundM2) {
    GridSpec spec = heightM.spec();
    this.heightM = heightM;
    this.pixels = new PixelGrid(spec, maxPixels);
    this.rampPixels = new PixelGrid(spec, maxPixels / 2);
    this.cellAreaM2 = spec.cellAreaM2();
    this.ground = new Whole(groundM2, "ground with elevation", Set.of());
  }

  /** Returns all ground with elevation as the whole of percentages. */
  Whole whole() {
    return ground;
  }

  /**
   * Builds a layer of a signed quantity on a scale that is symmetric about 0 and contains about 99
   * % of the values.
   */
  Layer both(String id, String title, String unit, FloatGrid grid, String note) {
    float[] size = rampPixels.mean(grid);
    for (int i = 0; i < size.length; i++) {
      size[i] = Math.abs(size[i]);
    }
    double top = roundTop(size, 0);
    return ramp(id, title, unit, grid, -top, top, note);
  }

  /**
   * Builds a layer of a continuous quantity from {@code low} to {@code high}; a NaN {@code high} is
   * replaced by a round value that exceeds about 99 % of the ground.
   */
  Layer ramp(
      String id, String title, String unit, FloatGrid grid, double low, double high, String note) {
    float[] values = rampPixels.mean(grid);
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
        Layer.Image.of(rampPixels, Paint.ramp(rampPixels, values, low, top, RAMP_ALPHA)),
        new Layer.Legend(List.of(), new Layer.Ramp(Paint.rampBar(RAMP_ALPHA), unit, marks), note));
  }

  /** Builds a layer of the classes of a grid; only classes that occur enter the legend. */
  Layer classes(
      String id,
      String title,
      ByteGrid grid,
      List<ClassStyle> styles,
      Halving halving,
      String note) {
    return classes(id, title, grid, styles, halving, count(grid), ground, note);
  }

  /**
   * @param stated number of shown cells per code as stated in the legend; the grid may hold a
   *     sample of the ground only
   */
  Layer classes(
      String id,
      String title,
      ByteGrid grid,
      List<ClassStyle> styles,
      Halving halving,
      long[] stated,
      Whole whole,
      String note) {
    byte[] codes = pixels.merged(bareWithoutElevation(grid), halving);
    return classes(id, title, codes, null, styles, count(grid), stated, whole, note);
  }

  /** Removes classes without elevation: the page states that such ground is white on every map. */
  private ByteGrid bareWithoutElevation(ByteGrid grid) {
    byte[] shown = grid.values().clone();
    for (int i = 0; i < shown.length; i++) {
      shown[i] = Float.isNaN(heightM.values()[i]) ? 0 : shown[i];
    }
    return new ByteGrid(grid.spec(), shown);
  }

  /**
   * @param cells number of cells per code; a class without cells is left out of the legend
   * @param stated number of cells per code as stated in the legend, such as cumulative ones
   */
  Layer classes(
      String id,
      String title,
      byte[] codes,
      boolean[] edges,
      List<ClassStyle> styles,
      long[] cells,
      long[] stated,
      Whole whole,
      String note) {
    List<Layer.Entry> entries = new ArrayList<>();
    StringBuilder alt = new StringBuilder(title).append(" over shaded relief: ");
    for (ClassStyle style : styles) {
      if (cells[style.code()] > 0) {
        String amount = amount(style.code(), stated[style.code()], whole);
        entries.add(new Layer.Entry(Paint.swatch(style), style.label(), amount));
        alt.append(entries.size() > 1 ? "; " : "").append(style.label()).append(" ").append(amount);
      }
    }
    return new Layer(
        id,
        title,
        entries.isEmpty() ? title + ": no ground is in any class." : alt.append('.').toString(),
        Layer.Image.of(pixels, Paint.classes(pixels, codes, styles, edges)),
        new Layer.Legend(
            entries,
            null,
            entries.isEmpty() ? note : note + " Shares are of the " + whole.name() + "."));
  }

  /** Describes the size of one pixel; empty if it is at most one cell. */
  String pixelNote() {
    int ramp = rampPixels.shrink;
    int cls = pixels.shrink;
    return ramp == 1
        ? ""
        : "One pixel of a continuous map is the mean of "
            + ramp
            + " x "
            + ramp
            + " cells"
            + (cls == 1
                ? "."
                : ", one of a class map the worst class of " + cls + " x " + cls + ".");
  }

  private String amount(int code, long cells, Whole whole) {
    double m2 = cells * cellAreaM2;
    return whole.outside().contains((byte) code)
        ? Figures.area(m2)
        : Figures.area(m2) + " (" + Figures.percent(m2, whole.m2()) + " %)";
  }

  /** Counts the cells of each code. */
  static long[] count(ByteGrid grid) {
    long[] cells = new long[256];
    for (byte code : grid.values()) {
      cells[code & 0xFF]++;
    }
    return cells;
  }

  private static double roundTop(float[] values, double low) {
    // A sample of the pixels suffices, because the value is rounded anyway.
    int stride = Math.max(1, values.length / SAMPLES);
    float[] finite = new float[values.length / stride + 1];
    int n = 0;
    for (int i = 0; i < values.length; i += stride) {
      if (Float.isFinite(values[i])) {
        finite[n++] = values[i];
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
