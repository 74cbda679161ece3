package org.scarpway.terrain;

import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;

/**
 * Realisations of the heights under their error ({@link ErrorField}), drawn two at a time: one is
 * valid until one of another pair is drawn. What is kept of all ground may be in a scratch file.
 */
public final class DrawnHeights {
  private static final int STRIP_CELLS = 1 << 20;

  private final HeightRows measured;
  private final GridSpec spec;
  private final ErrorField errors;
  private final Workers workers;
  private final Floats[] drawn;
  private final double[] lowestM = new double[2];
  private final double[] highestM = new double[2];
  private int pair = -1;

  /**
   * @param asked job setting that requests realisations, for the error message
   * @param measured heights without error
   * @param lengthM correlation length, null for independent errors
   * @param file for what is kept of all ground, {@link #bytes}; null for the heap
   * @throws org.scarpway.stage.UserError if the correlation is too long
   */
  public DrawnHeights(
      String asked,
      HeightRows measured,
      double sigmaM,
      Double lengthM,
      long seed,
      ScratchFile file,
      Workers workers) {
    this.measured = measured;
    this.spec = measured.spec();
    this.errors = new ErrorField(asked, spec, sigmaM, lengthM, seed, file, workers);
    this.workers = workers;
    this.drawn = new Floats[] {Floats.of(spec.cells(), file), Floats.of(spec.cells(), file)};
  }

  /** Returns the bytes that are kept of all ground. */
  public static double bytes(GridSpec spec, Double lengthM) {
    return 2.0 * Float.BYTES * spec.cells() + ErrorField.bytes(spec, lengthM);
  }

  /**
   * Returns a realisation.
   *
   * @param number 0 for the first; the two of a pair are those after an even number
   */
  public HeightRows realisation(int number) {
    if (number / 2 != pair) {
      pair = number / 2;
      draw();
    }
    int k = number % 2;
    return new Drawn(spec, drawn[k], lowestM[k], highestM[k]);
  }

  private void draw() {
    errors.draw(pair, workers);
    for (int k = 0; k < 2; k++) {
      lowestM[k] = Double.POSITIVE_INFINITY;
      highestM[k] = Double.NEGATIVE_INFINITY;
    }
    int most = Math.min(spec.rows(), Math.max(1, STRIP_CELLS / spec.cols()));
    float[][] strip = new float[3][most * spec.cols()];
    for (int row = 0; row < spec.rows(); row += most) {
      int rows = Math.min(most, spec.rows() - row);
      int cells = rows * spec.cols();
      measured.read(row, rows, strip[2]);
      errors.add(row, rows, strip[2], strip[0], strip[1], workers);
      for (int k = 0; k < 2; k++) {
        for (int i = 0; i < cells; i++) {
          float z = strip[k][i];
          // Both comparisons are false for a void.
          lowestM[k] = z < lowestM[k] ? z : lowestM[k];
          highestM[k] = z > highestM[k] ? z : highestM[k];
        }
        drawn[k].write(row * spec.cols(), strip[k], 0, cells);
      }
    }
  }

  private record Drawn(GridSpec spec, Floats heightM, double lowestM, double highestM)
      implements HeightRows {
    @Override
    public void read(int firstRow, int rows, float[] out) {
      heightM.read(firstRow * spec.cols(), out, 0, rows * spec.cols());
    }
  }
}
