package org.scarpway.dem;

import java.util.Arrays;
import org.scarpway.dem.GridPlan.PixelMap;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.Workers;

/**
 * Resamples heights (m) from a source grid to a target grid of any other georeference: bilinear
 * interpolation between cell centres; a cell coarser than the source's is the mean of samplesX x
 * samplesY such heights spread evenly over it, which is the plain mean of its source cells where
 * sizes are whole multiples. A plane is reproduced either way. A cell is void (NaN) if any source
 * cell that it depends on is void. Common practice, no source.
 *
 * <p>Processes square blocks, so that a block of a rotated or curved map reads only its own part of
 * the source. Linear in the number of cells; the result does not depend on the number of threads.
 */
final class Resampler {
  private static final int BLOCK = 512;
  private static final int LEAST_BLOCK = 16;
  private static final long MOST_SOURCE_CELLS = 1L << 26;

  /**
   * Weights below this are rounding errors of a sample that lies on a cell centre, and are ignored.
   */
  private static final double ON_CENTRE = 1e-6;

  private final HeightSource source;
  private final GridPlan plan;
  private final double datumM;
  private final Workers workers;
  private final Target target;

  private Resampler(
      HeightSource source, GridPlan plan, double datumM, Workers workers, Target target) {
    this.source = source;
    this.plan = plan;
    this.datumM = datumM;
    this.workers = workers;
    this.target = target;
  }

  /** The output array and the window of the grid that it stores. */
  private static final class Target {
    private final float[] out;
    private final int at;
    private final int firstRow;
    private final int firstCol;
    private final int cols;

    Target(float[] out, int at, int firstRow, int firstCol, int cols) {
      this.out = out;
      this.at = at;
      this.firstRow = firstRow;
      this.firstCol = firstCol;
      this.cols = cols;
    }

    int of(int row, int col) {
      return at + (row - firstRow) * cols + col - firstCol;
    }
  }

  /** Resamples a window of the grid into {@code heightOutM} from index {@code at} on. */
  static void fill(
      HeightSource source,
      GridPlan plan,
      double datumM,
      Workers workers,
      int firstRow,
      int firstCol,
      int rows,
      int cols,
      float[] heightOutM,
      int at) {
    Target target = new Target(heightOutM, at, firstRow, firstCol, cols);
    Resampler r = new Resampler(source, plan, datumM, workers, target);
    int coarser = Math.max(plan.samplesX(), plan.samplesY());
    int block = Math.max(LEAST_BLOCK, Math.min(BLOCK, 4096 / coarser));
    for (int row = firstRow; row < firstRow + rows; row += block) {
      for (int col = firstCol; col < firstCol + cols; col += block) {
        r.block(
            row,
            col,
            Math.min(block, firstRow + rows - row),
            Math.min(block, firstCol + cols - col));
      }
    }
  }

  private void block(int row0, int col0, int rows, int cols) {
    int[] need = needed(row0, col0, rows, cols);
    if (need == null) {
      for (int r = row0; r < row0 + rows; r++) {
        int from = target.of(r, col0);
        Arrays.fill(target.out, from, from + cols, Float.NaN);
      }
      return;
    }
    long cells = (long) need[2] * need[3];
    if (cells > MOST_SOURCE_CELLS) {
      if (rows == 1 && cols == 1) {
        throw new StageFailure(source.name() + ": one cell needs " + cells + " source cells");
      }
      int upper = (rows + 1) / 2;
      int left = (cols + 1) / 2;
      block(row0, col0, upper, left);
      if (cols > left) {
        block(row0, col0 + left, upper, cols - left);
      }
      if (rows > upper) {
        block(row0 + upper, col0, rows - upper, left);
      }
      if (rows > upper && cols > left) {
        block(row0 + upper, col0 + left, rows - upper, cols - left);
      }
      return;
    }
    float[] part = new float[(int) cells];
    source.read(need[0], need[1], need[2], need[3], datumM, part);
    workers.overRows(rows, (from, to) -> rows(row0 + from, row0 + to, col0, cols, need, part));
  }

  /**
   * Computes the source window of a block: first row, first column, rows, columns; null if it is
   * empty.
   */
  private int[] needed(int row0, int col0, int rows, int cols) {
    double[] box = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    double[] p = new double[2];
    GridSpec t = plan.target();
    // A continuous mapping of a block attains its bounds on the block's outline; the inside is
    // sampled too because a mapping about a pole is not continuous there.
    for (int r = 0; r <= rows; r++) {
      boolean edge = r == 0 || r == rows;
      int step = edge ? 1 : r % 8 == 0 ? 8 : cols;
      for (int c = 0; c <= cols; c += Math.min(step, Math.max(1, cols - c))) {
        plan.toPixel()
            .at(t.westM() + (col0 + c) * t.cellXM(), t.northM() - (row0 + r) * t.cellYM(), p);
        if (Double.isFinite(p[0]) && Double.isFinite(p[1])) {
          box[0] = Math.min(box[0], p[0]);
          box[1] = Math.min(box[1], p[1]);
          box[2] = Math.max(box[2], p[0]);
          box[3] = Math.max(box[3], p[1]);
        }
        if (c == cols) {
          break;
        }
      }
    }
    boolean round = source.goesRound();
    double pad = 3 + 0.02 * Math.min(box[2] - box[0], box[3] - box[1]);
    double west = round ? box[0] - pad : Math.max(0, box[0] - pad);
    double east = round ? box[2] + pad : Math.min(source.cols(), box[2] + pad);
    double north = Math.max(0, box[1] - pad);
    double south = Math.min(source.rows(), box[3] + pad);
    if (round && box[2] - box[0] > source.cols() / 4.0) {
      // A pole is in or near the block: any column may be needed, and the rows up to the pole.
      west = box[2] - source.cols() - pad;
      east = box[0] + source.cols() + pad;
      boolean northPole = box[1] < source.rows() - box[3];
      north = northPole ? 0 : north;
      south = northPole ? south : source.rows();
    }
    if (!(west < east) || !(north < south)) {
      return null;
    }
    int firstCol = (int) Math.floor(west);
    int firstRow = (int) Math.floor(north);
    return new int[] {
      firstRow, firstCol, (int) Math.ceil(south) - firstRow, (int) Math.ceil(east) - firstCol
    };
  }

  private void rows(int fromRow, int toRow, int col0, int cols, int[] need, float[] part) {
    GridSpec t = plan.target();
    PixelMap map = plan.toPixel();
    int nx = plan.samplesX();
    int ny = plan.samplesY();
    double[] p = new double[2];
    boolean round = source.goesRound();
    for (int r = fromRow; r < toRow; r++) {
      for (int c = col0; c < col0 + cols; c++) {
        double sum = 0;
        for (int j = 0; j < ny; j++) {
          double y = t.northM() - (r + (j + 0.5) / ny) * t.cellYM();
          for (int i = 0; i < nx; i++) {
            double x = t.westM() + (c + (i + 0.5) / nx) * t.cellXM();
            map.at(x, y, p);
            sum += sample(p[0], p[1], round, need, part);
          }
        }
        target.out[target.of(r, c)] = (float) (sum / (nx * ny));
      }
    }
  }

  /**
   * Bilinear height at a column and row of the source; NaN outside it. Within half a cell of the
   * outer edge the height of the edge cells is used: those points lie inside these cells, so
   * nothing is extrapolated.
   */
  private double sample(double col, double row, boolean round, int[] need, float[] part) {
    double edge = 1e-9 * (source.cols() + source.rows());
    if (!(row >= -edge && row <= source.rows() + edge)
        || !(round || (col >= -edge && col <= source.cols() + edge))) {
      return Double.NaN;
    }
    double v = Math.max(0, Math.min(source.rows() - 1, row - 0.5));
    double u = round ? col - 0.5 : Math.max(0, Math.min(source.cols() - 1, col - 0.5));
    double baseRow = Math.floor(v);
    double baseCol = Math.floor(u);
    double fv = v - baseRow;
    double fu = u - baseCol;
    if (fv > 1 - ON_CENTRE) {
      baseRow++;
      fv = 0;
    }
    if (fu > 1 - ON_CENTRE) {
      baseCol++;
      fu = 0;
    }
    int pr = (int) baseRow - need[0];
    int pc = (int) baseCol - need[1];
    boolean right = fu > ON_CENTRE;
    boolean below = fv > ON_CENTRE;
    if (pr < 0 || pc < 0 || pr + (below ? 1 : 0) >= need[2] || pc + (right ? 1 : 0) >= need[3]) {
      return Double.NaN;
    }
    int at = pr * need[3] + pc;
    double upper = right ? part[at] * (1 - fu) + part[at + 1] * fu : part[at];
    if (!below) {
      return upper;
    }
    int under = at + need[3];
    double lower = right ? part[under] * (1 - fu) + part[under + 1] * fu : part[under];
    return upper * (1 - fv) + lower * fv;
  }
}
