package org.scarpway.reach.corridor;

import java.util.Arrays;

/**
 * A track of arcs of one radius and straight stretches, each tangent to the one before, stored as
 * the corners of an inscribed line. Lengths in m; x points east and y south from the centre of the
 * first cell; headings in radians from x towards y; a left turn is the opposite sense.
 */
public final class Track {
  /** Largest turn between two chords of an arc (rad). */
  public static final double MOST_TURN = Math.PI / 24;

  private final double radiusM;
  private final double stepM;
  private double[] x = new double[16];
  private double[] y = new double[16];
  private int n;
  private double heading;

  /**
   * @param stepM largest length of a chord (m)
   */
  Track(double radiusM, double stepM, double startX, double startY, double heading) {
    this.radiusM = radiusM;
    this.stepM = stepM;
    this.heading = heading;
    add(startX, startY);
  }

  private void add(double px, double py) {
    if (n == x.length) {
      x = Arrays.copyOf(x, 2 * n);
      y = Arrays.copyOf(y, 2 * n);
    }
    x[n] = px;
    y[n++] = py;
  }

  public int size() {
    return n;
  }

  public double x(int i) {
    return x[i];
  }

  public double y(int i) {
    return y[i];
  }

  public double heading() {
    return heading;
  }

  /**
   * @param side 1 for a turn from x towards y, -1 for the opposite turn
   * @param angle angle of the turn (rad), 0 or more
   */
  Track turn(int side, double angle) {
    if (angle > 0) {
      int chords =
          (int) Math.ceil(Math.max(angle / MOST_TURN, angle * radiusM / stepM) * (1 - 1e-12));
      double centreX = x[n - 1] - side * radiusM * Math.sin(heading);
      double centreY = y[n - 1] + side * radiusM * Math.cos(heading);
      double start = heading;
      for (int i = 1; i <= chords; i++) {
        heading = start + side * angle * i / chords;
        add(
            centreX + side * radiusM * Math.sin(heading),
            centreY - side * radiusM * Math.cos(heading));
      }
    }
    return this;
  }

  Track straight(double lengthM) {
    if (lengthM > 0) {
      add(x[n - 1] + lengthM * Math.cos(heading), y[n - 1] + lengthM * Math.sin(heading));
    }
    return this;
  }

  /**
   * A turn towards a point followed by a straight stretch to it; null if it lies inside the turning
   * circle.
   */
  public static Track to(
      double radiusM,
      double stepM,
      double fromX,
      double fromY,
      double heading,
      double toX,
      double toY) {
    double best = Double.POSITIVE_INFINITY;
    int bestSide = 0;
    double bestAngle = 0;
    double bestM = 0;
    for (int side = -1; side <= 1; side += 2) {
      double dx = toX - (fromX - side * radiusM * Math.sin(heading));
      double dy = toY - (fromY + side * radiusM * Math.cos(heading));
      double square = dx * dx + dy * dy - radiusM * radiusM;
      if (square < 0) {
        continue;
      }
      double lengthM = Math.sqrt(square);
      double leaving = Math.atan2(dy, dx) + side * Math.atan2(radiusM, lengthM);
      double angle = round(side * (leaving - heading));
      if (angle * radiusM + lengthM < best) {
        best = angle * radiusM + lengthM;
        bestSide = side;
        bestAngle = angle;
        bestM = lengthM;
      }
    }
    return bestSide == 0
        ? null
        : new Track(radiusM, stepM, fromX, fromY, heading)
            .turn(bestSide, bestAngle)
            .straight(bestM);
  }

  /**
   * The shortest track of a turn, a straight stretch and a turn between two places with given
   * headings (Dubins 1957, <i>On curves of minimal length with a constraint on average
   * curvature</i>, Amer. J. Math. 79(3):497-516).
   */
  public static Track between(
      double radiusM,
      double stepM,
      double fromX,
      double fromY,
      double fromHeading,
      double toX,
      double toY,
      double toHeading) {
    double best = Double.POSITIVE_INFINITY;
    Track found = null;
    for (int first = -1; first <= 1; first += 2) {
      for (int last = -1; last <= 1; last += 2) {
        double dx =
            toX
                - last * radiusM * Math.sin(toHeading)
                - (fromX - first * radiusM * Math.sin(fromHeading));
        double dy =
            toY
                + last * radiusM * Math.cos(toHeading)
                - (fromY + first * radiusM * Math.cos(fromHeading));
        double apart = Math.hypot(dx, dy);
        double across = first == last ? 0 : 2 * radiusM;
        if (apart < across) {
          continue;
        }
        double straight = Math.sqrt(apart * apart - across * across);
        double along = Math.atan2(dy, dx) + first * Math.atan2(across, straight);
        double turn1 = round(first * (along - fromHeading));
        double turn2 = round(last * (toHeading - along));
        double lengthM = radiusM * (turn1 + turn2) + straight;
        if (lengthM < best) {
          best = lengthM;
          found =
              new Track(radiusM, stepM, fromX, fromY, fromHeading)
                  .turn(first, turn1)
                  .straight(straight)
                  .turn(last, turn2);
        }
      }
    }
    return found;
  }

  /** The angle normalised to [0, 2 pi); within rounding of a full turn it is 0. */
  private static double round(double angle) {
    double a = angle - 2 * Math.PI * Math.floor(angle / (2 * Math.PI));
    return a > 2 * Math.PI - 1e-9 ? 0 : a;
  }
}
