package org.scarpway.bench;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.vehicle.Vehicle;

/**
 * A vehicle set on the ground cell by cell as one would write it first: every wheel and belly point
 * is rotated and interpolated afresh. Wheels, rows of belly points and least-squares plane are
 * those of the product; overhangs are left out.
 */
final class PlainPose {
  private final GridSpec spec;
  private final float[] heightM;
  private final Headings headings;
  private final List<double[]> wheels = new ArrayList<>();
  private final List<double[]> belly = new ArrayList<>();
  private final double wheelbaseM;

  PlainPose(Vehicle v, GridSpec spec, float[] heightM) {
    this.spec = spec;
    this.heightM = heightM;
    headings = Headings.of(spec);
    Vehicle.Wheels w = v.wheels();
    wheelbaseM = w.wheelbaseM();
    for (double axle : w.axlesM()) {
      wheels.add(new double[] {axle, -w.trackM() / 2});
      wheels.add(new double[] {axle, w.trackM() / 2});
    }
    int along = Math.min(7, Math.max(3, (int) Math.ceil(wheelbaseM / spec.cellM()) + 1));
    double half = (w.trackM() - w.widthM()) / 2 * 0.75;
    for (int i = 0; i < along; i++) {
      for (int side = -1; side <= 1; side++) {
        double x = w.axlesM().get(0) - wheelbaseM * i / (along - 1);
        belly.add(new double[] {x, side * half});
      }
    }
  }

  /** Sum over cells and headings of the highest ground under the belly. */
  double rows(int from, int to) {
    double sum = 0;
    double[] z = new double[wheels.size()];
    int edge = (int) Math.ceil((wheelbaseM + 2) / spec.cellM()) + 2;
    for (int row = Math.max(edge, from); row < Math.min(spec.rows() - edge, to); row++) {
      for (int col = edge; col < spec.cols() - edge; col++) {
        for (int k = 0; k < Headings.COUNT; k++) {
          sum += pose(row, col, k, z);
        }
      }
    }
    return sum;
  }

  private double pose(int row, int col, int k, double[] z) {
    double mean = 0;
    double along = 0;
    double across = 0;
    double sumXx = 0;
    double sumYy = 0;
    for (int i = 0; i < z.length; i++) {
      double[] p = wheels.get(i);
      z[i] = height(row, col, k, p);
      mean += z[i] / z.length;
      along += p[0] * z[i];
      across += p[1] * z[i];
      sumXx += p[0] * p[0];
      sumYy += p[1] * p[1];
    }
    double highest = Double.NEGATIVE_INFINITY;
    for (double[] p : belly) {
      double plane = mean + along / sumXx * p[0] + across / sumYy * p[1];
      highest = Math.max(highest, height(row, col, k, p) - plane);
    }
    return highest;
  }

  private double height(int row, int col, int k, double[] p) {
    double east = p[0] * headings.east(k) + p[1] * headings.north(k);
    double north = p[0] * headings.north(k) - p[1] * headings.east(k);
    double c = col + east / spec.cellXM();
    double r = row - north / spec.cellYM();
    int c0 = (int) Math.floor(c);
    int r0 = (int) Math.floor(r);
    double fc = c - c0;
    double fr = r - r0;
    int i = r0 * spec.cols() + c0;
    return (1 - fr) * ((1 - fc) * heightM[i] + fc * heightM[i + 1])
        + fr * ((1 - fc) * heightM[i + spec.cols()] + fc * heightM[i + spec.cols() + 1]);
  }
}
