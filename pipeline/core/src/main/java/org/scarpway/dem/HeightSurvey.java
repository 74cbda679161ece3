package org.scarpway.dem;

import java.util.Arrays;
import java.util.Locale;
import org.scarpway.geodata.RasterHeader;
import org.scarpway.stage.UserError;

/**
 * A bounded look at the heights before anything is allocated for them: rows spread evenly over the
 * raster. It decides the datum, and finds values that cannot be heights.
 *
 * @param whole every cell was seen
 * @param wholeMetres every height seen is a whole number of units
 */
record HeightSurvey(
    long cells, long voids, double leastM, double mostM, double datumM, boolean whole,
    boolean wholeMetres) {
  /** float32 steps by a millimetre or less below this height. */
  private static final double FINE_BELOW_M = 16_384;

  /** No known body has more relief than about 30 km; twice that is not terrain. */
  static final double MOST_RELIEF_M = 60_000;

  private static final double[] FILLERS = {-9999, -32767, -32768, -99999, -999999};
  private static final double FILLER_GAP_M = 100;

  /**
   * @param budgetCells about as many cells are read at most
   */
  static HeightSurvey of(HeightSource source, long budgetCells) {
    int cols = source.cols();
    int stripRows = (int) Math.max(1, Math.min(source.rows(), budgetCells / cols));
    int step = Math.max(1, (source.rows() + stripRows - 1) / stripRows);
    // Few cells of a very wide raster: a middle stretch of each row stands for the row.
    int width = (int) Math.min(cols, Math.max(1, budgetCells));
    int firstCol = (cols - width) / 2;
    float[] line = new float[width];
    double base = roughLevel(source, firstCol, width, step, line);
    float[] kept = new float[4096];
    int nKept = 0;
    long cells = 0;
    long voids = 0;
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    boolean whole = true;
    long[] exact = new long[FILLERS.length];
    long[] near = new long[FILLERS.length];
    long seenRows = (source.rows() + step - 1) / step;
    long stride = Math.max(1, seenRows * width / kept.length + 1);
    for (int row = step / 2; row < source.rows(); row += step) {
      source.read(row, firstCol, 1, width, base, line);
      for (float above : line) {
        cells++;
        if (Float.isNaN(above)) {
          voids++;
          continue;
        }
        double v = base + above;
        least = Math.min(least, v);
        most = Math.max(most, v);
        whole &= v == Math.rint(v);
        for (int k = 0; k < FILLERS.length; k++) {
          if (v == FILLERS[k]) {
            exact[k]++;
          } else if (Math.abs(v - FILLERS[k]) < FILLER_GAP_M) {
            near[k]++;
          }
        }
        if (cells % stride == 0 && nKept < kept.length) {
          kept[nKept++] = above;
        }
      }
    }
    for (int k = 0; k < FILLERS.length; k++) {
      if (exact[k] > 0 && near[k] == 0 && most > FILLERS[k]) {
        throw undeclared(source, String.format(Locale.ROOT, "%.0f", FILLERS[k]));
      }
    }
    if (voids < cells && most - least > MOST_RELIEF_M) {
      throw undeclared(source, String.format(Locale.ROOT, "%.6g to %.6g m", least, most));
    }
    Arrays.sort(kept, 0, nKept);
    double middle = nKept == 0 ? base : base + kept[nKept / 2];
    double datum = datum(source, Math.max(Math.abs(least), Math.abs(most)), middle);
    boolean all = step == 1 && width == cols;
    return new HeightSurvey(cells, voids, least, most, datum, all, whole && voids < cells);
  }

  /** A height of the raster to the nearest kilometre, so that the survey itself stays fine. */
  private static double roughLevel(
      HeightSource source, int firstCol, int width, int step, float[] line) {
    for (int row = step / 2; row < source.rows(); row += step) {
      source.read(row, firstCol, 1, width, 0, line);
      for (float v : line) {
        if (Float.isFinite(v) && Math.abs(v) < 1e9) {
          return Math.abs(v) < FINE_BELOW_M ? 0 : Math.rint(v / 1000) * 1000;
        }
      }
    }
    return 0;
  }

  /** 0 where heights are small; else the body's own radius if it is near, else a whole kilometre. */
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

  /** Step of float32 at the heights as stored, where the file itself lost the millimetres; or 0. */
  double lostStepM(RasterHeader header) {
    double largest = Math.max(Math.abs(leastM), Math.abs(mostM));
    boolean plain = header.scale() == 1 && header.offset() == 0;
    return "Float32".equals(header.dataType()) && plain && largest >= 2 * FINE_BELOW_M
        ? Math.ulp((float) largest)
        : 0;
  }
}
