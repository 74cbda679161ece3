package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * A vehicle set on the ground at a cell centre on each of the 32 headings: wheels on bilinear
 * ground, body on the least-squares plane over all wheels (equal springs). Gives grade and cross
 * grade of that plane, the largest distance of a wheel's ground from it, and the lowest clearance
 * of belly and overhangs. On a regular grid the sample points of a heading are the same offsets and
 * weights at every cell, so they are computed once. The plan of the vehicle is not shortened by its
 * tilt (1 - cos of the slope, below 6 % under 20 degrees).
 *
 * <p>Holds the last pose; one per thread.
 */
final class WheelPose {
  private static final int MAX_ALONG = 7;

  private final float[] heightM;
  private final int rows;
  private final int cols;
  private final int wheelCount;
  private final int bellyCount;
  private final int pointCount;
  private final double[] xM;
  private final double[] yM;
  private final int[] offset;
  private final double[] weight;
  private final double[] alongWeight;
  private final double[] acrossWeight;
  private final double middleM;
  private final double clearanceM;
  private int reachRows;
  private int reachCols;
  private final double[] z;

  private double meanM;

  double grade;
  double cross;
  double gapM;
  double bellyClearanceM;
  double endClearanceM;

  /** Whether the cells are small enough to tell the wheels apart: at most half the track. */
  static boolean resolves(Vehicle v, GridSpec spec) {
    return v.wheels() != null
        && v.body() != null
        && Math.max(spec.cellXM(), spec.cellYM()) <= v.wheels().trackM() / 2;
  }

  /**
   * @param clearanceM belly and overhangs above the wheels' plane, sinkage taken off
   */
  WheelPose(Vehicle v, double clearanceM, GridSpec spec, float[] heightM) {
    this.heightM = heightM;
    this.rows = spec.rows();
    this.cols = spec.cols();
    this.clearanceM = clearanceM;
    List<double[]> points = new ArrayList<>();
    addWheels(v.wheels(), points);
    wheelCount = points.size();
    addBelly(v.wheels(), Math.min(spec.cellXM(), spec.cellYM()), points);
    bellyCount = points.size() - wheelCount;
    addEnds(v, points);
    pointCount = points.size();
    xM = points.stream().mapToDouble(p -> p[0]).toArray();
    yM = points.stream().mapToDouble(p -> p[1]).toArray();
    z = new double[wheelCount];

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

    offset = new int[Headings.COUNT * pointCount];
    weight = new double[Headings.COUNT * pointCount * 4];
    Headings headings = Headings.of(spec);
    for (int k = 0; k < Headings.COUNT; k++) {
      for (int i = 0; i < pointCount; i++) {
        double east = xM[i] * headings.east(k) + yM[i] * headings.north(k);
        double north = xM[i] * headings.north(k) - yM[i] * headings.east(k);
        place(k * pointCount + i, east / spec.cellXM(), -north / spec.cellYM());
      }
    }
  }

  private static void addWheels(Vehicle.Wheels w, List<double[]> points) {
    for (double axle : w.axlesM()) {
      points.add(new double[] {axle, -w.trackM() / 2});
      points.add(new double[] {axle, w.trackM() / 2});
    }
  }

  /** Points under the belly, no further apart than a cell along, in three rows between wheels. */
  private static void addBelly(Vehicle.Wheels w, double cellM, List<double[]> points) {
    double front = w.axlesM().get(0);
    int along = Math.min(MAX_ALONG, Math.max(3, (int) Math.ceil(w.wheelbaseM() / cellM) + 1));
    double half = Math.max(0, (w.trackM() - w.widthM()) / 2) * 0.75;
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

  private void place(int slot, double colOffset, double rowOffset) {
    int c = (int) Math.floor(colOffset);
    int r = (int) Math.floor(rowOffset);
    double fc = colOffset - c;
    double fr = rowOffset - r;
    offset[slot] = r * cols + c;
    weight[4 * slot] = (1 - fr) * (1 - fc);
    weight[4 * slot + 1] = (1 - fr) * fc;
    weight[4 * slot + 2] = fr * (1 - fc);
    weight[4 * slot + 3] = fr * fc;
    reachCols = Math.max(reachCols, Math.max(-c, c + 1));
    reachRows = Math.max(reachRows, Math.max(-r, r + 1));
  }

  /** True where every sample point of every heading lies on the grid. */
  boolean fits(int row, int col) {
    return row >= reachRows && col >= reachCols && row + reachRows < rows && col + reachCols < cols;
  }

  /** Sets the vehicle down; false where a sample point touches a void. */
  boolean set(int cell, int heading) {
    return setWheels(cell, heading) && setBody(cell, heading);
  }

  /** Sets the wheels down: grade, cross grade and gap. False where one touches a void. */
  boolean setWheels(int cell, int heading) {
    int slot = heading * pointCount;
    double mean = 0;
    double along = 0;
    double across = 0;
    for (int i = 0; i < wheelCount; i++) {
      double height = height(cell, slot + i);
      z[i] = height;
      mean += height;
      along += alongWeight[i] * height;
      across += acrossWeight[i] * height;
    }
    meanM = mean / wheelCount;
    grade = along;
    cross = across;
    double gap = 0;
    for (int i = 0; i < wheelCount; i++) {
      gap = Math.max(gap, Math.abs(z[i] - planeM(i)));
    }
    gapM = gap;
    return !Double.isNaN(gap);
  }

  /** Clearances over the plane of the last wheels set. False where a point touches a void. */
  boolean setBody(int cell, int heading) {
    int slot = heading * pointCount;
    double belly = Double.NEGATIVE_INFINITY;
    double ends = Double.NEGATIVE_INFINITY;
    int i = wheelCount;
    for (; i < wheelCount + bellyCount; i++) {
      belly = Math.max(belly, height(cell, slot + i) - planeM(i));
    }
    for (; i < pointCount; i++) {
      ends = Math.max(ends, height(cell, slot + i) - planeM(i));
    }
    bellyClearanceM = clearanceM - belly;
    endClearanceM = clearanceM - ends;
    return !Double.isNaN(belly) && !Double.isNaN(ends);
  }

  private double height(int cell, int slot) {
    int a = cell + offset[slot];
    int w = 4 * slot;
    return heightM[a] * weight[w]
        + heightM[a + 1] * weight[w + 1]
        + heightM[a + cols] * weight[w + 2]
        + heightM[a + cols + 1] * weight[w + 3];
  }

  private double planeM(int i) {
    return meanM + grade * (xM[i] - middleM) + cross * yM[i];
  }
}
