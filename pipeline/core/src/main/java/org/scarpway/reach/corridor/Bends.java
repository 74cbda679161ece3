package org.scarpway.reach.corridor;

import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.LegLine;
import org.scarpway.vehicle.CurveLimit;

/**
 * The curve radii and curve speeds of a drawn leg. Where the line turns no more than between two
 * chords of an arc, the radius is that of the circle through the corner and those beside it (on
 * longer stretches a cell away): exact on lines that keep to a turning circle. A sharper corner is
 * rounded by an arc within half a cell, and half of the shorter stretch, on either side of it.
 * Stretches of up to a cell are driven at the lower speed of their two corners.
 */
final class Bends {
  /** Corners closer than this are merged (m): tracks are joined by stretches of rounding length. */
  private static final double APART_M = 1e-3;

  /** A line that turns by less is straight (rad). */
  private static final double STRAIGHT = 1e-9;

  private static final double ROUNDING = 1e-9;

  private final LegLine leg;
  private final GridSpec spec;
  private final double cellM;
  private final double[] radiusM;
  private final boolean[] right;

  Bends(LegLine leg, GridSpec spec) {
    this.leg = leg;
    this.spec = spec;
    int n = leg.corners();
    cellM = 2 * TurnSearch.stepM(spec);
    radiusM = new double[n];
    right = new boolean[n];
    int before = -1;
    int at = 0;
    for (int i = 0; i < n; i++) {
      radiusM[i] = Double.POSITIVE_INFINITY;
      if (apartM(at, i) >= APART_M) {
        if (before >= 0) {
          bend(before, at, i);
        }
        before = at;
        at = i;
      }
    }
    for (int i = 1; i < n; i++) {
      if (apartM(i - 1, i) < APART_M && radiusM[i] == Double.POSITIVE_INFINITY) {
        radiusM[i] = radiusM[i - 1];
        right[i] = right[i - 1];
      }
    }
  }

  private double east(int from, int to) {
    return (leg.col(to) - leg.col(from)) * spec.cellXM();
  }

  private double north(int from, int to) {
    return (leg.row(from) - leg.row(to)) * spec.cellYM();
  }

  private double apartM(int a, int b) {
    return Math.hypot(east(a, b), north(a, b));
  }

  private void bend(int a, int b, int c) {
    double inM = apartM(a, b);
    double outM = apartM(b, c);
    double cross = east(a, b) * north(b, c) - north(a, b) * east(b, c);
    double dot = east(a, b) * east(b, c) + north(a, b) * north(b, c);
    double turn = Math.abs(Math.atan2(cross, dot));
    if (turn < STRAIGHT) {
      return;
    }
    double p = Math.min(inM, cellM);
    double q = Math.min(outM, cellM);
    right[b] = cross < 0;
    radiusM[b] =
        turn <= Track.MOST_TURN * (1 + 1e-3)
            ? Math.sqrt(p * p + q * q + 2 * p * q * Math.cos(turn)) / (2 * Math.sin(turn))
            : Math.min(p, q) / 2 / Math.tan(turn / 2);
  }

  private boolean isShort(int corner) {
    return apartM(corner - 1, corner) <= cellM * (1 + ROUNDING);
  }

  /**
   * Length (m) from its start over which the stretch to a corner is part of the curve at its start.
   */
  double bentUntilM(int corner) {
    return isShort(corner) ? apartM(corner - 1, corner) : cellM / 2;
  }

  /**
   * Length (m) before its end over which the stretch to a corner is part of the curve at that
   * corner.
   */
  double bentFromEndM(int corner) {
    return isShort(corner) ? 0 : cellM / 2;
  }

  /**
   * Speed limit (m/s) at the start of the stretch to a corner, infinite where the line is straight.
   */
  double firstMs(int corner, CurveLimit limit, double grade, double cross) {
    double first = speedMs(corner - 1, limit, grade, cross);
    return isShort(corner) ? Math.min(first, lastMs(corner, limit, grade, cross)) : first;
  }

  /**
   * Speed limit (m/s) at the end of the stretch to a corner, infinite where the line is straight.
   */
  double lastMs(int corner, CurveLimit limit, double grade, double cross) {
    return speedMs(corner, limit, grade, cross);
  }

  private double speedMs(int corner, CurveLimit limit, double grade, double cross) {
    return radiusM[corner] < Double.POSITIVE_INFINITY
        ? limit.speedMs(grade, cross, radiusM[corner], right[corner])
        : Double.POSITIVE_INFINITY;
  }
}
