package org.scarpway.light;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;

/**
 * Elevation of the horizon by one pass over the ground for each azimuth, in time linear in cells
 * and azimuths whatever the distance (the order of Dozier, Bruno and Downey 1981, <i>A faster
 * solution to the horizon problem</i>, Computers and Geosciences 7:145-151).
 *
 * <p>Every line against the looking direction keeps the upper convex hull of the ground that it
 * passed, as points in its vertical plane, in which the sphere of the body is a circle; the horizon
 * of an eye is the tangent to that hull. Turning the local vertical turns all directions of one eye
 * alike, so curvature is exact. The first rows before the eye are looked at one by one, because
 * lines that miss the eye by part of a cell would be wrong by degrees there; behind them the two
 * lines beside the eye are weighed.
 */
public final class HorizonSweep {
  /**
   * Rows before the eye that are looked at one by one: so that the worst error stays below 3
   * degrees.
   */
  private static final int NEAR_ROWS = 32;

  /** Distance (cells) from the middle of a cell below which a line passes through it. */
  private static final double ON_CELL = 1e-9;

  private final SweepGround ground;
  private final FarGround far;
  private final double radiusM;
  private final ProductCells products;
  private final GridSpec spec;
  private final double[] eyesM;
  private final int azimuths;

  /**
   * @param far wider ground, or null
   * @param radiusM radius of the body
   * @param products cells that horizons are told of
   * @param eyesM heights of eyes above the ground (m)
   * @param azimuths number of azimuths
   */
  public HorizonSweep(
      SweepGround ground,
      FarGround far,
      double radiusM,
      ProductCells products,
      double[] eyesM,
      int azimuths) {
    this.ground = ground;
    this.far = far;
    this.radiusM = radiusM;
    this.products = products;
    this.spec = products.spec();
    this.eyesM = eyesM.clone();
    this.azimuths = azimuths;
  }

  /**
   * Computes the horizons, for each eye height.
   *
   * @param file where they go; null for the heap
   */
  public List<Horizons> horizons(ScratchFile file, Workers workers, Progress progress) {
    List<Horizons> all = new ArrayList<>();
    for (int e = 0; e < eyesM.length; e++) {
      all.add(new Horizons(spec, azimuths, file));
    }
    List<Runnable> tasks = new ArrayList<>();
    for (int a = 0; a < azimuths; a++) {
      int azimuth = a;
      tasks.add(
          () -> {
            short[][] steps = new short[eyesM.length][spec.cells()];
            boolean[][] edge = new boolean[eyesM.length][spec.cells()];
            sweep(360.0 * azimuth / azimuths, steps, edge);
            for (int e = 0; e < eyesM.length; e++) {
              all.get(e).put(azimuth, steps[e], edge[e]);
            }
            progress.advance(ground.spec().cells());
          });
    }
    workers.all(tasks);
    return all;
  }

  /** One azimuth (degrees clockwise from the map's y axis). */
  void sweep(double azimuthDeg, short[][] steps, boolean[][] edge) {
    new Pass(azimuthDeg).run(steps, edge);
  }

  /** One pass over the ground against one looking direction. */
  private final class Pass {
    /** True if the pass goes over columns, because the direction is nearer to that of rows. */
    private final boolean columns;

    /** True if it begins at the first row (or column), where the looking direction points to. */
    private final boolean fromFirst;

    /** Cells aside for each row towards the looking direction, in [-1, 1]. */
    private final double aside;

    /** Way (m) for each row. */
    private final double stepM;

    private final int rows;
    private final int width;
    private final int lowest;
    private final Hulls hulls;
    private final double[] farM;
    private final double[] farSin;
    private final double[] farCos;

    /** Rows of the ground that are still looked at: the one of sweep row k at k modulo its size. */
    private final float[][] ring = new float[NEAR_ROWS + 2][];

    private final int[] nearWhole = new int[NEAR_ROWS + 1];
    private final double[] nearPart = new double[NEAR_ROWS + 1];
    private final double[] nearSin = new double[NEAR_ROWS + 1];
    private final double[] nearCos = new double[NEAR_ROWS + 1];

    /**
     * Column that the ray crosses between row q - 1 and row q, where it does: NaN part elsewhere.
     */
    private final int[] crossedColumn = new int[NEAR_ROWS + 1];

    private final double[] crossedPart = new double[NEAR_ROWS + 1];
    private final double[] crossedSin = new double[NEAR_ROWS + 1];
    private final double[] crossedCos = new double[NEAR_ROWS + 1];

    Pass(double azimuthDeg) {
      GridSpec g = ground.spec();
      double east = StrictMath.sin(StrictMath.toRadians(azimuthDeg)) / g.cellXM();
      double south = -StrictMath.cos(StrictMath.toRadians(azimuthDeg)) / g.cellYM();
      columns = Math.abs(east) > Math.abs(south);
      double ahead = columns ? east : south;
      fromFirst = ahead < 0;
      aside = (columns ? south : east) / Math.abs(ahead);
      stepM = 1 / Math.abs(ahead);
      rows = columns ? g.cols() : g.rows();
      width = columns ? g.rows() : g.cols();
      lowest = (int) Math.floor(Math.min(0, aside * (rows - 1))) - 1;
      int highest = width + (int) Math.ceil(Math.max(0, aside * (rows - 1))) + 1;
      hulls = new Hulls(highest - lowest + 1);
      for (int i = 0; i < ring.length; i++) {
        ring[i] = new float[width];
      }
      for (int q = 1; q <= NEAR_ROWS; q++) {
        nearSin[q] = StrictMath.sin(q * stepM / radiusM);
        nearCos[q] = StrictMath.cos(q * stepM / radiusM);
        nearWhole[q] = (int) Math.floor(aside * q + ON_CELL);
        nearPart[q] = Math.max(0, aside * q - nearWhole[q]);
        nearPart[q] = nearPart[q] < 2 * ON_CELL ? 0 : nearPart[q];
        cross(q);
      }
      farM = far == null ? new double[0] : far.distancesM(g);
      farSin = new double[farM.length];
      farCos = new double[farM.length];
      for (int i = 0; i < farM.length; i++) {
        farSin[i] = StrictMath.sin(farM[i] / radiusM);
        farCos[i] = StrictMath.cos(farM[i] / radiusM);
      }
    }

    /** Finds the column between row q - 1 and row q that the ray crosses, if there is one. */
    private void cross(int q) {
      double from = aside * (q - 1);
      double to = aside * q;
      double column = aside > 0 ? Math.floor(to - ON_CELL) : Math.ceil(to + ON_CELL);
      double part = (column - from) / (to - from);
      crossedPart[q] = part > ON_CELL && part < 1 - ON_CELL ? part : Double.NaN;
      crossedColumn[q] = (int) column;
      crossedSin[q] = StrictMath.sin((q - 1 + part) * stepM / radiusM);
      crossedCos[q] = StrictMath.cos((q - 1 + part) * stepM / radiusM);
    }

    void run(short[][] steps, boolean[][] edge) {
      for (int k = 0; k < rows; k++) {
        ground.read(columns, index(k), ring[k % ring.length]);
        if (far != null) {
          enter(k);
        }
        if (k > NEAR_ROWS) {
          push(k - NEAR_ROWS - 1);
        }
        int product = product(index(k), rows);
        if (product >= 0) {
          for (int e = 0; e < eyesM.length; e++) {
            look(k, product, eyesM[e], steps[e], edge[e]);
          }
        }
      }
    }

    private int index(int k) {
      return fromFirst ? k : rows - 1 - k;
    }

    /** The product row whose eyes are in this row of the ground, or -1. */
    private int product(int index, int n) {
      int product = index / products.block();
      return products.eye(product, n) == index ? product : -1;
    }

    /** First line that lies on the ground in row k. */
    private int firstLine(int k) {
      return (int) Math.ceil(aside * k - ON_CELL);
    }

    /** Last line that lies on the ground in row k. */
    private int lastLine(int k) {
      return (int) Math.floor(aside * k + width - 1 + ON_CELL);
    }

    /** Puts the far ground before those lines that come onto the near ground in row k. */
    private void enter(int k) {
      int first = firstLine(k);
      int last = lastLine(k);
      int knownFirst = k == 0 ? last + 1 : firstLine(k - 1);
      int knownLast = k == 0 ? last : lastLine(k - 1);
      for (int line = first; line <= last; line++) {
        if (line < knownFirst || line > knownLast) {
          pushFar(line, k);
        }
      }
    }

    private void pushFar(int line, int k) {
      GridSpec g = ground.spec();
      double angle = k * stepM / radiusM;
      double sin = StrictMath.sin(angle);
      double cos = StrictMath.cos(angle);
      for (int i = farM.length - 1; i >= 0; i--) {
        double at = k - farM[i] / stepM;
        double main = fromFirst ? at : rows - 1 - at;
        double cross = line - aside * at;
        double x = g.westM() + ((columns ? main : cross) + 0.5) * g.cellXM();
        double y = g.northM() - ((columns ? cross : main) + 0.5) * g.cellYM();
        double height = far.heightM(x, y);
        if (!Double.isNaN(height)) {
          double r = radiusM + height;
          hulls.push(
              line - lowest,
              r * (sin * farCos[i] - cos * farSin[i]),
              r * (cos * farCos[i] + sin * farSin[i]) - radiusM);
        } else {
          hulls.miss(line - lowest);
        }
      }
    }

    /** Adds the ground of row k to the hulls. */
    private void push(int k) {
      float[] z = ring[k % ring.length];
      double angle = k * stepM / radiusM;
      double sin = StrictMath.sin(angle);
      double cos = StrictMath.cos(angle);
      double shift = aside * k;
      int last = lastLine(k);
      for (int line = firstLine(k); line <= last; line++) {
        double at = line - shift;
        int cell = (int) Math.floor(at + ON_CELL);
        double part = at - cell;
        double height = part < 2 * ON_CELL ? z[cell] : z[cell] * (1 - part) + z[cell + 1] * part;
        if (!Double.isNaN(height)) {
          double r = radiusM + height;
          hulls.push(line - lowest, r * sin, r * cos - radiusM);
        } else {
          hulls.miss(line - lowest);
        }
      }
    }

    private void look(int k, int product, double eyeM, short[] steps, boolean[] edge) {
      float[] here = ring[k % ring.length];
      double angle = k * stepM / radiusM;
      double sin = StrictMath.sin(angle);
      double cos = StrictMath.cos(angle);
      int near = Math.min(NEAR_ROWS, k);
      int eyes = columns ? spec.rows() : spec.cols();
      for (int p = 0; p < eyes; p++) {
        int at = products.eye(p, width);
        int cell = columns ? p * spec.cols() + product : product * spec.cols() + p;
        double groundM = here[at];
        if (Double.isNaN(groundM)) {
          steps[cell] = Horizons.step(0);
          edge[cell] = true;
          continue;
        }
        double r = radiusM + groundM + eyeM;
        double best = Double.NEGATIVE_INFINITY;
        int bestRow = 0;
        int lastKnown = 0;
        boolean unknown = false;
        boolean gap = false;
        int q = 1;
        for (; q <= near; q++) {
          int c = at + nearWhole[q];
          if (c < 0 || c >= width || (c == width - 1 && nearPart[q] > 0)) {
            break;
          }
          float[] z = ring[(k - q) % ring.length];
          double over = crossedPart[q];
          if (!Double.isNaN(over)) {
            int column = at + crossedColumn[q];
            double height = ring[(k - q + 1) % ring.length][column] * (1 - over) + z[column] * over;
            double there = radiusM + height;
            double tan = (there * crossedCos[q] - r) / (there * crossedSin[q]);
            if (Double.isNaN(tan)) {
              unknown = true;
            } else {
              gap |= unknown;
              lastKnown = q;
            }
            if (tan > best) {
              best = tan;
              bestRow = q;
            }
          }
          double f = nearPart[q];
          double height = f == 0 ? z[c] : z[c] * (1 - f) + z[c + 1] * f;
          double there = radiusM + height;
          double tan = (there * nearCos[q] - r) / (there * nearSin[q]);
          if (Double.isNaN(tan)) {
            unknown = true;
          } else {
            gap |= unknown;
            lastKnown = q;
          }
          if (tan > best) {
            best = tan;
            bestRow = q;
          }
        }
        double lineAt = at + aside * k;
        int line = (int) Math.floor(lineAt + ON_CELL);
        double part = lineAt - line;
        double x = r * sin;
        double y = r * cos - radiusM;
        double a = hulls.tangent(line - lowest, x, y, sin, cos);
        boolean outermost = hulls.atEnd;
        boolean broken = hulls.gap;
        boolean beyond = a != Double.NEGATIVE_INFINITY;
        if (part > ON_CELL) {
          double b = hulls.tangent(line + 1 - lowest, x, y, sin, cos);
          boolean known = a != Double.NEGATIVE_INFINITY && b != Double.NEGATIVE_INFINITY;
          outermost |= hulls.atEnd;
          broken |= hulls.gap;
          beyond |= b != Double.NEGATIVE_INFINITY;
          a = known ? a * (1 - part) + b * part : Math.max(a, b);
        }
        boolean left = q <= near && far == null;
        boolean atEdge = bestRow >= lastKnown && (left || !beyond);
        gap |= broken || (unknown && beyond);
        if (a > best) {
          best = a;
          atEdge = outermost;
        }
        if (best == Double.NEGATIVE_INFINITY) {
          // No ground at all that way: level ground is assumed, and said to be.
          best = -StrictMath.sqrt(2 * eyeM / radiusM);
          atEdge = true;
        } else if (best < 0) {
          double floor = ground.lowestTangent(radiusM, r);
          // The middles of cells miss the point that is touched by half of one.
          atEdge |= floor - best > stepM / radiusM;
          best = Math.max(best, floor);
        }
        steps[cell] = Horizons.step(StrictMath.toDegrees(StrictMath.atan(best)));
        edge[cell] = atEdge || gap;
      }
    }
  }
}
