package org.scarpway.dem;

import java.util.Arrays;
import java.util.Locale;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.stage.UserError;

/**
 * Statistics of a sample of the heights, from rows spread evenly over the raster, computed before
 * anything is allocated for the whole. They determine the datum and detect values that cannot be
 * heights.
 *
 * @param datumM datum (m) to subtract from heights, see {@link DemReader}
 * @param quantumM rounding step (m): largest length of which every height seen is an integer
 *     multiple; 0 if it is below 0.05 m, or if heights are too few or too alike to determine it
 */
record HeightSurvey(
    long cells, long voids, double leastM, double mostM, double datumM, double quantumM) {
  /** Candidate rounding steps (m) of heights, largest first. Common practice, no source. */
  private static final double[] QUANTA_M = {10, 5, 2, 1, 0.5, 0.3048, 0.25, 0.2, 0.1, 0.05};

  /** Height (m) below which the resolution of float32 is a millimetre or better. */
  private static final double FINE_BELOW_M = 16_384;

  /** No known body has more relief than about 30 km; twice that is not terrain. */
  static final double MOST_RELIEF_M = 60_000;

  private static final double[] FILLERS = {-9999, -32767, -32768, -99999, -999999};
  private static final double FILLER_GAP_M = 100;

  /** Least number of heights to detect rounding: fewer may all be multiples by chance. */
  private static final int FEW_HEIGHTS = 400;

  private static final int MOST_LINES = 64;
  private static final int STRIP_ROWS = 64;

  /**
   * @param budgetCells a raster of up to this many cells is read whole, of a larger one a sample of
   *     rows; if these hold no height, the whole is read
   */
  static HeightSurvey of(HeightSource source, int budgetCells) {
    boolean all = (long) source.rows() * source.cols() <= budgetCells;
    HeightSurvey seen = look(source, budgetCells, all);
    return seen.isEmpty() && !all ? look(source, budgetCells, true) : seen;
  }

  private static HeightSurvey look(HeightSource source, int budgetCells, boolean all) {
    int cols = source.cols();
    // Of a very wide raster only the middle part of each row is read.
    int width = Math.min(cols, Math.max(1, budgetCells / MOST_LINES));
    int firstCol = all ? 0 : (cols - width) / 2;
    width = all ? cols : width;
    int step = all ? STRIP_ROWS : Math.max(1, (source.rows() + MOST_LINES - 1) / MOST_LINES);
    int stripRows = all ? STRIP_ROWS : 1;
    int firstRow = all ? 0 : step / 2;
    float[] strip = new float[stripRows * width];
    Tally t = new Tally();
    boolean based = false;
    for (int row = firstRow; row < source.rows(); row += step) {
      int rows = Math.min(stripRows, source.rows() - row);
      source.read(row, firstCol, rows, width, t.baseM, strip);
      if (!based && t.rebase(strip, rows * width)) {
        based = true;
        source.read(row, firstCol, rows, width, t.baseM, strip);
      }
      for (int i = 0; i < rows * width; i++) {
        t.add(strip[i]);
      }
    }
    for (int k = 0; k < FILLERS.length; k++) {
      if (t.exact[k] > 0 && t.near[k] == 0 && t.mostM > FILLERS[k]) {
        throw undeclared(source, String.format(Locale.ROOT, "%.0f", FILLERS[k]));
      }
    }
    boolean empty = t.voids == t.cells;
    if (!empty && t.mostM - t.leastM > MOST_RELIEF_M) {
      throw undeclared(source, String.format(Locale.ROOT, "%.6g to %.6g m", t.leastM, t.mostM));
    }
    double largest = empty ? 0 : Math.max(Math.abs(t.leastM), Math.abs(t.mostM));
    double datum = datum(source, largest, (t.leastM + t.mostM) / 2);
    return new HeightSurvey(t.cells, t.voids, t.leastM, t.mostM, datum, empty ? 0 : t.quantumM());
  }

  /** True if the sample holds no height. */
  boolean isEmpty() {
    return voids == cells;
  }

  /** Running statistics of the rows read so far. */
  private static final class Tally {
    private double baseM;
    private long cells;
    private long voids;
    private double leastM = Double.POSITIVE_INFINITY;
    private double mostM = Double.NEGATIVE_INFINITY;
    private final boolean[] multiples = allTrue();
    private final long[] exact = new long[FILLERS.length];
    private final long[] near = new long[FILLERS.length];

    /**
     * Sets the base to a whole kilometre near the heights, so that large heights keep their digits
     * in float32.
     */
    boolean rebase(float[] heights, int n) {
      for (int i = 0; i < n; i++) {
        if (Math.abs(heights[i]) < 1e9) {
          baseM = Math.abs(heights[i]) < FINE_BELOW_M ? 0 : Math.rint(heights[i] / 1000) * 1000;
          return true;
        }
      }
      return false;
    }

    private static boolean[] allTrue() {
      boolean[] all = new boolean[QUANTA_M.length];
      Arrays.fill(all, true);
      return all;
    }

    double quantumM() {
      if (cells - voids < FEW_HEIGHTS) {
        return 0;
      }
      for (int k = 0; k < QUANTA_M.length; k++) {
        if (multiples[k] && mostM - leastM >= 2 * QUANTA_M[k]) {
          return QUANTA_M[k];
        }
      }
      return 0;
    }

    void add(float aboveBase) {
      cells++;
      if (Float.isNaN(aboveBase)) {
        voids++;
        return;
      }
      double v = baseM + aboveBase;
      leastM = Math.min(leastM, v);
      mostM = Math.max(mostM, v);
      for (int k = 0; k < QUANTA_M.length; k++) {
        if (multiples[k]) {
          double n = Math.rint(v / QUANTA_M[k]);
          // The file stores a rounded height with the resolution of float32.
          multiples[k] = Math.abs(v - n * QUANTA_M[k]) <= 1e-6 + Math.ulp((float) v);
        }
      }
      for (int k = 0; k < FILLERS.length; k++) {
        if (v == FILLERS[k]) {
          exact[k]++;
        } else if (Math.abs(v - FILLERS[k]) < FILLER_GAP_M) {
          near[k]++;
        }
      }
    }
  }

  /**
   * 0 if heights are small; otherwise the body's radius if it is near, otherwise a whole kilometre.
   */
  private static double datum(HeightSource source, double largest, double middle) {
    if (!(largest >= FINE_BELOW_M)) {
      return 0;
    }
    double radius = source.crs().semiMajorM();
    return Math.abs(middle - radius) < 12_000 ? radius : Math.rint(middle / 1000) * 1000;
  }

  static UserError undeclared(HeightSource source, String values) {
    return UserError.of(
        source.name(),
        "values of " + values + " that look like no data but are not declared so",
        "heights, and a no-data value in the file",
        "set the file's no-data value");
  }

  /**
   * Resolution (m) of float32 at the stored heights if the file itself lost the millimetres,
   * otherwise 0.
   */
  double lostStepM(RasterHeader header) {
    if (isEmpty()) {
      return 0;
    }
    double largest = Math.max(Math.abs(leastM), Math.abs(mostM));
    boolean plain = header.scale() == 1 && header.offset() == 0;
    return "Float32".equals(header.dataType()) && plain && largest >= 2 * FINE_BELOW_M
        ? Math.ulp((float) largest)
        : 0;
  }
}
