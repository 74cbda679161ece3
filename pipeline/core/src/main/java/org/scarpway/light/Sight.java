package org.scarpway.light;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;

/**
 * What one place sees along single rays, which are looked at on every row and every column of cells
 * that they cross. Slower than {@link HorizonSweep} and without its sampling error.
 */
public final class Sight {
  /** Part of a cell, or of a way, that is taken for none. */
  private static final double ON_LINE = 1e-9;

  private final SweepGround ground;
  private final FarGround far;
  private final double radiusM;
  private final double[] farM;

  /**
   * @param far wider ground, or null
   * @param radiusM radius of the body, or that of rays that bend
   */
  public Sight(SweepGround ground, FarGround far, double radiusM) {
    this.ground = ground;
    this.far = far;
    this.radiusM = radiusM;
    this.farM = far == null ? new double[0] : far.distancesM(ground.spec());
  }

  /**
   * The horizon of a place.
   *
   * @param elevationDeg elevation of the horizon (degrees) by azimuth, evenly spaced clockwise from
   *     the map's y axis
   * @param atEdge true where it lies at the edge of the data or ground without height lies on the
   *     way, so that ground not known may stand higher
   */
  public record Around(List<Float> elevationDeg, List<Boolean> atEdge) {
    /** Copies the lists. */
    public Around {
      elevationDeg = List.copyOf(elevationDeg);
      atEdge = List.copyOf(atEdge);
    }
  }

  /**
   * The horizon around the middle of a cell.
   *
   * @param eyeM height of the eye above the ground (m)
   * @param azimuths number of azimuths
   */
  public Around horizon(int row, int col, double eyeM, int azimuths) {
    List<Float> elevations = new ArrayList<>();
    List<Boolean> edge = new ArrayList<>();
    double r = radiusM + ground.heightM(row, col) + eyeM;
    for (int a = 0; a < azimuths; a++) {
      double azimuth = StrictMath.toRadians(360.0 * a / azimuths);
      Ray ray = new Ray(row, col, StrictMath.sin(azimuth), StrictMath.cos(azimuth));
      double best = Double.NEGATIVE_INFINITY;
      double bestM = 0;
      double lastM = 0;
      boolean unknown = false;
      boolean gap = false;
      while (ray.next()) {
        double m = ray.m;
        double height = ray.heightM();
        if (Double.isNaN(height)) {
          unknown = true;
        } else {
          gap |= unknown;
          lastM = m;
          double tan = tangent(r, height, m);
          if (tan > best) {
            best = tan;
            bestM = m;
          }
        }
      }
      double endM = ray.endM();
      for (double beyond : farM) {
        double m = endM + beyond;
        double height = far.heightM(ray.xM(m), ray.yM(m));
        if (Double.isNaN(height)) {
          unknown = true;
        } else {
          gap |= unknown;
          lastM = m;
          double tan = tangent(r, height, m);
          if (tan > best) {
            best = tan;
            bestM = m;
          }
        }
      }
      boolean atEdge = bestM == lastM || gap;
      if (best == Double.NEGATIVE_INFINITY) {
        best = -StrictMath.sqrt(2 * eyeM / radiusM);
      } else if (best < 0) {
        double floor = ground.lowestTangent(radiusM, r);
        // The middles of cells miss the point that is touched by half of one.
        atEdge |= floor - best > Math.min(ray.perRowM, ray.perColM) / radiusM;
        best = Math.max(best, floor);
      }
      edge.add(atEdge);
      elevations.add((float) StrictMath.toDegrees(StrictMath.atan(best)));
    }
    return new Around(elevations, edge);
  }

  /**
   * Height (m) above the ground that an antenna in the middle of a cell needs to see a mast; NaN
   * where its ground, that of the mast or any between is unknown.
   *
   * @param mast row and column of the mast's foot, and its height (m)
   * @param clear share of the first Fresnel zone that the line shall keep clear, and its frequency;
   *     null for grazing sight
   */
  public double neededM(Mast mast, Clear clear, int row, int col) {
    double z = ground.heightM(row, col);
    if (!ground.knows(mast.row, mast.col) || !ground.knows(row, col)) {
      return Double.NaN;
    }
    if (row == mast.row && col == mast.col) {
      return 0;
    }
    GridSpec g = ground.spec();
    double east = (col - mast.col) * g.cellXM();
    double north = (mast.row - row) * g.cellYM();
    double length = StrictMath.sqrt(east * east + north * north);
    Ray ray = new Ray(mast.row, mast.col, east / length, north / length);
    double r = radiusM + ground.heightM(mast.row, mast.col) + mast.heightM;
    double steepest = Double.NEGATIVE_INFINITY;
    while (ray.next() && ray.m < length * (1 - ON_LINE)) {
      double m = ray.m;
      double height = ray.heightM();
      if (Double.isNaN(height)) {
        return Double.NaN;
      }
      steepest = Math.max(steepest, tangent(r, height + roomM(clear, m, length - m), m));
    }
    if (steepest == Double.NEGATIVE_INFINITY) {
      return 0;
    }
    double angle = length / radiusM;
    double lineM = r / (StrictMath.cos(angle) - steepest * StrictMath.sin(angle)) - radiusM;
    return Math.max(0, lineM - z);
  }

  /**
   * A mast.
   *
   * @param row row of its foot
   * @param col column of its foot
   * @param heightM height of its antenna above the ground (m)
   */
  public record Mast(int row, int col, double heightM) {}

  /**
   * Room that a link asks for around its straight line.
   *
   * @param frequencyMhz frequency (MHz)
   * @param share share of the radius of the first Fresnel zone
   */
  public record Clear(double frequencyMhz, double share) {}

  /**
   * How much an antenna's link to a mast is above the ground between, at the place that stands
   * highest against the straight line.
   *
   * @param clearM straight line less ground there (m), positive where it is free; NaN where ground
   *     on the way is unknown, infinite where none lies between
   * @param atM way from the mast to that place (m)
   * @param distanceM way from the mast to the antenna (m)
   */
  public record Link(double clearM, double atM, double distanceM) {}

  /** The link of an antenna of a height above the middle of a cell; null on the mast's own cell. */
  public Link link(Mast mast, int row, int col, double antennaM) {
    if (row == mast.row && col == mast.col) {
      return null;
    }
    GridSpec g = ground.spec();
    double east = (col - mast.col) * g.cellXM();
    double north = (mast.row - row) * g.cellYM();
    double length = StrictMath.sqrt(east * east + north * north);
    Ray ray = new Ray(mast.row, mast.col, east / length, north / length);
    double from = radiusM + ground.heightM(mast.row, mast.col) + mast.heightM;
    double to = radiusM + ground.heightM(row, col) + antennaM;
    double whole = length / radiusM;
    if (!ground.knows(mast.row, mast.col) || !ground.knows(row, col)) {
      return new Link(Double.NaN, Double.NaN, length);
    }
    double least = Double.POSITIVE_INFINITY;
    double at = Double.NaN;
    while (ray.next() && ray.m < length * (1 - ON_LINE)) {
      double m = ray.m;
      double height = ray.heightM();
      if (Double.isNaN(height)) {
        return new Link(Double.NaN, Double.NaN, length);
      }
      // The radius at which the straight line between both ends passes this angle.
      double t = m / radiusM;
      double line =
          from
              * to
              * StrictMath.sin(whole)
              / (to * StrictMath.sin(whole - t) + from * StrictMath.sin(t));
      double clear = line - radiusM - height;
      if (clear < least) {
        least = clear;
        at = m;
      }
    }
    return new Link(least, at, length);
  }

  private static double roomM(Clear clear, double fromM, double toM) {
    return clear == null ? 0 : clear.share * RadioPath.fresnelM(clear.frequencyMhz, fromM, toM);
  }

  private double tangent(double eyeRadiusM, double heightM, double arcM) {
    double angle = arcM / radiusM;
    double there = radiusM + heightM;
    return (there * StrictMath.cos(angle) - eyeRadiusM) / (there * StrictMath.sin(angle));
  }

  /**
   * A ray over the ground from the middle of a cell, looked at where it crosses lines through the
   * middles of cells, of both directions: a crest beside it rises to its full height on one of them
   * alone.
   */
  private final class Ray {
    private final GridSpec g = ground.spec();
    private final int row;
    private final int col;
    private final double east;
    private final double north;
    private final double perRowM;
    private final double perColM;
    private int rowsPassed;
    private int colsPassed;
    private boolean onColumn;
    private double atRow;
    private double atCol;

    /** Way (m) from the start. */
    private double m;

    Ray(int row, int col, double east, double north) {
      this.row = row;
      this.col = col;
      this.east = east;
      this.north = north;
      perRowM = g.cellYM() / Math.abs(north);
      perColM = g.cellXM() / Math.abs(east);
    }

    /** Moves to the next line of cells; false off the ground. */
    boolean next() {
      double rowM = (rowsPassed + 1) * perRowM;
      double colM = (colsPassed + 1) * perColM;
      onColumn = colM < rowM;
      m = Math.min(rowM, colM);
      double reached = m * (1 + ON_LINE);
      rowsPassed += rowM <= reached ? 1 : 0;
      colsPassed += colM <= reached ? 1 : 0;
      atRow = snapped(row - north * m / g.cellYM(), !onColumn);
      atCol = snapped(col + east * m / g.cellXM(), onColumn);
      return atRow >= 0 && atCol >= 0 && atRow <= g.rows() - 1 && atCol <= g.cols() - 1;
    }

    private static double snapped(double at, boolean whole) {
      double near = Math.rint(at);
      return whole || Math.abs(at - near) < ON_LINE ? near : at;
    }

    double heightM() {
      return onColumn
          ? ground.onLine(true, (int) atCol, atRow)
          : ground.onLine(false, (int) atRow, atCol);
    }

    /** Way (m) to the edge of the ground. */
    double endM() {
      double toCols =
          east == 0 ? 1e300 : ((east > 0 ? g.cols() - 1 - col : col) * g.cellXM()) / Math.abs(east);
      double toRows =
          north == 0
              ? 1e300
              : ((north > 0 ? row : g.rows() - 1 - row) * g.cellYM()) / Math.abs(north);
      return Math.min(toCols, toRows);
    }

    double xM(double m) {
      return g.xM(col) + east * m;
    }

    double yM(double m) {
      return g.yM(row) + north * m;
    }
  }
}
