package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.HeightSum;

/**
 * Positions of the wheels, the belly and the ends of a vehicle around a cell centre on each
 * heading. On a regular grid the offsets and bilinear weights are the same at every cell, so they
 * are computed once. The plan of the vehicle is not shortened by its tilt (1 - cos of the slope,
 * below 6 % under 20 degrees). Points: wheels first, then belly, then ends.
 */
final class WheelLayout {
  private static final int MAX_ALONG = 7;

  final int wheelCount;
  final int bellyEnd;
  final int pointCount;

  /** Positions of the points (m), ahead of the centre of gravity and to the right of it. */
  final double[] xM;

  final double[] yM;

  /** Weights of the wheels' heights in grade and cross grade of their least-squares plane. */
  final double[] alongWeight;

  final double[] acrossWeight;

  /** Middle of the axles, ahead of the centre of gravity (m). */
  final double middleM;

  /** Rows and columns from the cell to the farthest elevation that any point needs. */
  final int reachRows;

  final int reachCols;

  /**
   * Number of headings with a separate pose: half of all headings if the vehicle is symmetric front
   * to rear, so that the pose of the reverse heading only changes the signs of grade and cross
   * grade.
   */
  final int poses;

  private final int[] rowOf;
  private final int[] colOf;
  private final double[] weight;

  /** True if the cells are small enough to resolve the wheels: at most half a track. */
  static boolean resolves(Vehicle v, GridSpec spec) {
    return v.wheels() != null
        && v.body() != null
        && Math.max(spec.cellXM(), spec.cellYM()) <= v.wheels().narrowestTrackM() / 2;
  }

  WheelLayout(Vehicle v, GridSpec spec) {
    List<double[]> points = new ArrayList<>();
    addWheels(v.wheels(), points);
    wheelCount = points.size();
    addBelly(v.wheels(), Math.min(spec.cellXM(), spec.cellYM()), points);
    bellyEnd = points.size();
    addEnds(v, points);
    pointCount = points.size();
    xM = points.stream().mapToDouble(p -> p[0]).toArray();
    yM = points.stream().mapToDouble(p -> p[1]).toArray();

    double sum = 0;
    for (int i = 0; i < wheelCount; i++) {
      sum += xM[i] / wheelCount;
    }
    middleM = sum;
    double sumXx = 0;
    double sumYy = 0;
    for (int i = 0; i < wheelCount; i++) {
      sumXx += (xM[i] - middleM) * (xM[i] - middleM);
      sumYy += yM[i] * yM[i];
    }
    alongWeight = new double[wheelCount];
    acrossWeight = new double[wheelCount];
    for (int i = 0; i < wheelCount; i++) {
      alongWeight[i] = (xM[i] - middleM) / sumXx;
      acrossWeight[i] = yM[i] / sumYy;
    }

    poses = sameTurnedAbout() ? Headings.COUNT / 2 : Headings.COUNT;
    rowOf = new int[poses * pointCount];
    colOf = new int[poses * pointCount];
    weight = new double[poses * pointCount * 4];
    Headings headings = Headings.of(spec);
    int rows = 0;
    int cols = 0;
    for (int k = 0; k < poses; k++) {
      for (int i = 0; i < pointCount; i++) {
        double east = xM[i] * headings.east(k) + yM[i] * headings.north(k);
        double north = xM[i] * headings.north(k) - yM[i] * headings.east(k);
        int slot = k * pointCount + i;
        place(slot, east / spec.cellXM(), -north / spec.cellYM());
        rows = Math.max(rows, Math.max(-rowOf[slot], rowOf[slot] + 1));
        cols = Math.max(cols, Math.max(-colOf[slot], colOf[slot] + 1));
      }
    }
    reachRows = rows;
    reachCols = cols;
  }

  private static void addWheels(Vehicle.Wheels w, List<double[]> points) {
    for (int i = 0; i < w.axlesM().size(); i++) {
      double half = w.tracksM().get(i) / 2;
      points.add(new double[] {w.axlesM().get(i), -half});
      points.add(new double[] {w.axlesM().get(i), half});
    }
  }

  /**
   * Adds points under the belly, at most one cell apart lengthwise, in three rows between the
   * wheels.
   */
  private static void addBelly(Vehicle.Wheels w, double cellM, List<double[]> points) {
    double front = w.axlesM().get(0);
    int along = Math.min(MAX_ALONG, Math.max(3, (int) Math.ceil(w.wheelbaseM() / cellM) + 1));
    double half = Math.max(0, (w.narrowestTrackM() - w.widthM()) / 2) * 0.75;
    for (int i = 0; i < along; i++) {
      double x = front - w.wheelbaseM() * i / (along - 1);
      for (int side = -1; side <= 1; side++) {
        points.add(new double[] {x, side * half});
      }
    }
  }

  private static void addEnds(Vehicle v, List<double[]> points) {
    Vehicle.Wheels w = v.wheels();
    Double front = v.body().frontOverhangM();
    Double rear = v.body().rearOverhangM();
    for (int side = -1; side <= 1; side++) {
      double y = side * v.body().widthM() / 2;
      if (front != null && front > w.radiusM()) {
        points.add(new double[] {w.axlesM().get(0) + front, y});
      }
      if (rear != null && rear > w.radiusM()) {
        points.add(new double[] {w.axlesM().get(w.axlesM().size() - 1) - rear, y});
      }
    }
  }

  private boolean sameTurnedAbout() {
    return sameTurnedAbout(0, wheelCount)
        && sameTurnedAbout(wheelCount, bellyEnd)
        && sameTurnedAbout(bellyEnd, pointCount);
  }

  private boolean sameTurnedAbout(int from, int to) {
    for (int i = from; i < to; i++) {
      boolean found = false;
      for (int j = from; j < to && !found; j++) {
        found = Math.abs(xM[i] + xM[j]) < 1e-12 && Math.abs(yM[i] + yM[j]) < 1e-12;
      }
      if (!found) {
        return false;
      }
    }
    return true;
  }

  private void place(int slot, double colOffset, double rowOffset) {
    int c = (int) Math.floor(colOffset);
    int r = (int) Math.floor(rowOffset);
    double fc = colOffset - c;
    double fr = rowOffset - r;
    rowOf[slot] = r;
    colOf[slot] = c;
    weight[4 * slot] = (1 - fr) * (1 - fc);
    weight[4 * slot + 1] = (1 - fr) * fc;
    weight[4 * slot + 2] = fr * (1 - fc);
    weight[4 * slot + 3] = fr * fc;
  }

  /** Row, from the cell's, of the upper left of the four elevations around a point. */
  int row(int pose, int point) {
    return rowOf[pose * pointCount + point];
  }

  int col(int pose, int point) {
    return colOf[pose * pointCount + point];
  }

  /** Bilinear weight of elevation 0 (upper left), 1 (right of it), 2 and 3 (below these). */
  double weight(int pose, int point, int corner) {
    return weight[4 * (pose * pointCount + point) + corner];
  }

  /** The ground under a point as a sum of heights about the cell. */
  HeightSum ground(int pose, int point) {
    HeightSum sum = new HeightSum();
    for (int corner = 0; corner < 4; corner++) {
      int rows = row(pose, point) + corner / 2;
      sum.add(rows, col(pose, point) + corner % 2, weight(pose, point, corner));
    }
    return sum;
  }

  /** Mask (rows by columns of the reach) of the elevations that any point on any heading needs. */
  boolean[][] needed() {
    boolean[][] needed = new boolean[2 * reachRows + 1][2 * reachCols + 1];
    for (int slot = 0; slot < rowOf.length; slot++) {
      for (int corner = 0; corner < 4; corner++) {
        needed[rowOf[slot] + corner / 2 + reachRows][colOf[slot] + corner % 2 + reachCols] = true;
      }
    }
    return needed;
  }

  /**
   * Upper bound on the distance of the ground from the wheels' plane at the points [from, to), if
   * the elevations within reach are within 1 m of some plane: 1 plus the sum of the magnitudes of
   * the wheels' weights in the plane's height there.
   */
  double mostOffPlane(int from, int to) {
    double most = 0;
    for (int i = from; i < to; i++) {
      double sum = 1;
      for (int j = 0; j < wheelCount; j++) {
        sum +=
            Math.abs(
                1.0 / wheelCount + (xM[i] - middleM) * alongWeight[j] + yM[i] * acrossWeight[j]);
      }
      most = Math.max(most, sum);
    }
    return most;
  }
}
