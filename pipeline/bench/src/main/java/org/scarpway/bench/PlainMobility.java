package org.scarpway.bench;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.Vehicle;

/**
 * Mobility as one would write it first: cell by cell, heading by heading, the vehicle is set on
 * bilinear ground and every limit is compared. The same points, limits, classes, margin, speed and
 * energy as the product, by code of its own; for vehicles with every block but a soil and one
 * track, on ground without hazards whose cells resolve the wheels. Points are turned to each
 * heading once, not at every cell. Windows between headings are left out.
 */
final class PlainMobility {
  private static final double FULL = 1 + 1e-6;

  private final Vehicle v;
  private final GridSpec spec;
  private final Terrain terrain;
  private final List<double[]> points = new ArrayList<>();
  private final double[][] east = new double[Headings.COUNT][];
  private final double[][] south = new double[Headings.COUNT][];
  private final Headings headings;
  private final GradeTable table;
  private final int wheels;
  private final double climb;
  private final double descend;
  private final double side;
  private final double power;

  final int[] bits;
  final byte[] cls;
  final float[] headingsPct;
  final float[] margin01;
  final float[] speedMs;
  final float[] energyJm;

  PlainMobility(Vehicle v, Terrain terrain, Body body) {
    this.v = v;
    this.terrain = terrain;
    spec = terrain.gradEast().spec();
    headings = Headings.of(spec);
    Vehicle.Wheels w = v.wheels();
    double trackM = w.tracksM().get(0);
    for (double axle : w.axlesM()) {
      points.add(new double[] {axle, -trackM / 2});
      points.add(new double[] {axle, trackM / 2});
    }
    wheels = points.size();
    double cellM = Math.min(spec.cellXM(), spec.cellYM());
    int along = Math.min(7, Math.max(3, (int) Math.ceil(w.wheelbaseM() / cellM) + 1));
    double half = (trackM - w.widthM()) / 2 * 0.75;
    for (int i = 0; i < along; i++) {
      for (int s = -1; s <= 1; s++) {
        points.add(new double[] {w.axlesM().get(0) - w.wheelbaseM() * i / (along - 1), s * half});
      }
    }
    for (int s = -1; s <= 1; s++) {
      double y = s * v.body().widthM() / 2;
      points.add(new double[] {w.axlesM().get(0) + v.body().frontOverhangM(), y});
      int last = w.axlesM().size() - 1;
      points.add(new double[] {w.axlesM().get(last) - v.body().rearOverhangM(), y});
    }
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = new double[points.size()];
      south[k] = new double[points.size()];
      for (int i = 0; i < points.size(); i++) {
        double[] p = points.get(i);
        east[k][i] = (p[0] * headings.east(k) + p[1] * headings.north(k)) / spec.cellXM();
        south[k][i] = -(p[0] * headings.north(k) - p[1] * headings.east(k)) / spec.cellYM();
      }
    }
    DriveModel model = new DriveModel(v, body.gravityMs2());
    climb = tan(v.limits().climbDeg());
    descend = tan(v.limits().descendDeg());
    side = tan(v.limits().sideDeg());
    power = model.steepestPoweredGrade();
    table = model.table(1, 1);
    bits = new int[spec.cells()];
    cls = new byte[spec.cells()];
    headingsPct = new float[spec.cells()];
    margin01 = new float[spec.cells()];
    speedMs = new float[spec.cells()];
    energyJm = new float[spec.cells()];
  }

  void rows(int from, int to) {
    double[] z = new double[points.size()];
    for (int row = from; row < to; row++) {
      for (int col = 0; col < spec.cols(); col++) {
        cell(row, col, z);
      }
    }
  }

  private void cell(int row, int col, double[] z) {
    int cell = row * spec.cols() + col;
    Vehicle.Wheels w = v.wheels();
    double h = v.body().cgHeightM();
    double margin = tan(v.limits().tipMarginDeg());
    double clearance = v.body().clearanceM();
    double worst = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int k = 0; k < Headings.COUNT; k++) {
      for (int i = 0; i < z.length; i++) {
        z[i] = height(col + east[k][i], row + south[k][i]);
        if (Double.isNaN(z[i])) {
          unknown(cell);
          return;
        }
      }
      double mean = 0;
      double middle = 0;
      for (int i = 0; i < wheels; i++) {
        mean += z[i] / wheels;
        middle += points.get(i)[0] / wheels;
      }
      double xz = 0;
      double xx = 0;
      double yz = 0;
      double yy = 0;
      for (int i = 0; i < wheels; i++) {
        double x = points.get(i)[0] - middle;
        double y = points.get(i)[1];
        xz += x * z[i];
        xx += x * x;
        yz += y * z[i];
        yy += y * y;
      }
      double grade = xz / xx;
      double cross = yz / yy;
      double t = Math.hypot(grade, cross);
      double use = grade >= 0 ? Math.max(grade / climb, grade / power) : -grade / descend;
      use = Math.max(use, Math.abs(cross) / side);
      int last = w.axlesM().size() - 1;
      double tips =
          Math.max(
              grade >= 0 ? grade * h / -w.axlesM().get(last) : -grade * h / w.axlesM().get(0),
              Math.abs(cross) * 2 * h / w.tracksM().get(0));
      if (tips > 0) {
        // The slope must stay the margin below the slope that tips on this heading.
        double tipsAt = t / tips;
        double allowed = (tipsAt - margin) / (1 + tipsAt * margin);
        // Compared as grades: t over what the margin leaves of the tipping slope at t + margin.
        double withMargin = (t + margin) / (1 - t * margin);
        use = Math.max(use, allowed > 0 ? withMargin / tipsAt : 1e6);
      }
      if (use <= FULL) {
        double off = 0;
        double under = 0;
        for (int i = 0; i < z.length; i++) {
          double above =
              z[i] - (mean + grade * (points.get(i)[0] - middle) + cross * points.get(i)[1]);
          if (i < wheels) {
            off = Math.max(off, Math.abs(above));
          } else {
            under = Math.max(under, above);
          }
        }
        use = Math.max(use, Math.max(under / clearance, off / v.limits().stepM()));
      }
      worst = Math.max(worst, use);
      least = Math.min(least, use);
      if (use <= FULL) {
        bits[cell] |= 1 << k;
      }
    }
    conclude(cell, worst, least);
  }

  private void conclude(int cell, double worst, double least) {
    double ge = terrain.gradEast().values()[cell];
    double gn = terrain.gradNorth().values()[cell];
    double t = Math.hypot(ge, gn);
    double step = terrain.stepM().values()[cell];
    double rough = terrain.roughnessM().values()[cell];
    Vehicle.Drive d = v.drive();
    Vehicle.SlowFrom slow = v.slowFrom();
    double crawlRoughness = slow.roughnessM() * d.speedMs() / d.crawlMs();
    double cellUse = Math.max(step / v.limits().stepM(), Math.min(1, rough / crawlRoughness));
    if (cellUse > FULL || bits[cell] == 0) {
      boolean byHeading = bits[cell] == 0 && (cellUse <= FULL || least > cellUse);
      bits[cell] = 0;
      cls[cell] = Mobility.NO_GO;
      headingsPct[cell] = 0;
      margin01[cell] = (float) (1 - (byHeading ? least : cellUse));
      speedMs[cell] = Float.NaN;
      energyJm[cell] = Float.NaN;
      return;
    }
    boolean every = bits[cell] == -1;
    boolean eased =
        t > tan(slow.slopeDeg()) * FULL
            || step > slow.stepM() * FULL
            || rough > slow.roughnessM() * FULL;
    cls[cell] = every && !eased ? Mobility.GO : Mobility.SLOW;
    margin01[cell] = every ? (float) Math.max(0, 1 - Math.max(worst, cellUse)) : 0;
    double cap = Double.POSITIVE_INFINITY;
    double steepest =
        Math.max(v.limits().climbDeg(), Math.max(v.limits().descendDeg(), v.limits().sideDeg()));
    double slopeDeg = Math.toDegrees(Math.atan(t));
    if (slopeDeg > slow.slopeDeg()) {
      cap = Math.min(cap, eased((slopeDeg - slow.slopeDeg()) / (steepest - slow.slopeDeg())));
    }
    if (step > slow.stepM()) {
      cap = Math.min(cap, eased((step - slow.stepM()) / (v.limits().stepM() - slow.stepM())));
    }
    if (rough > slow.roughnessM()) {
      cap = Math.min(cap, d.speedMs() * slow.roughnessM() / rough);
    }
    cap = Math.max(d.crawlMs(), cap);
    double speeds = 0;
    double energies = 0;
    int open = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      if ((bits[cell] >>> k & 1) != 0) {
        double grade = ge * headings.east(k) + gn * headings.north(k);
        double speed = Math.min(cap, table.speedMs(grade));
        speeds += speed;
        energies += table.tractionJPerM(grade) + table.hotelW() / speed;
        open++;
      }
    }
    headingsPct[cell] = (float) (100.0 * open / Headings.COUNT);
    speedMs[cell] = (float) (speeds / open);
    energyJm[cell] = (float) (energies / open);
  }

  private double eased(double over) {
    Vehicle.Drive d = v.drive();
    return d.speedMs() + (d.crawlMs() - d.speedMs()) * Math.min(1, over);
  }

  private void unknown(int cell) {
    bits[cell] = 0;
    cls[cell] = 0;
    headingsPct[cell] = Float.NaN;
    margin01[cell] = Float.NaN;
    speedMs[cell] = Float.NaN;
    energyJm[cell] = Float.NaN;
  }

  private double height(double c, double r) {
    int c0 = (int) Math.floor(c);
    int r0 = (int) Math.floor(r);
    if (c0 < 0 || r0 < 0 || c0 + 1 >= spec.cols() || r0 + 1 >= spec.rows()) {
      return Double.NaN;
    }
    double fc = c - c0;
    double fr = r - r0;
    float[] z = terrain.heightM().values();
    int i = r0 * spec.cols() + c0;
    return (1 - fr) * ((1 - fc) * z[i] + fc * z[i + 1])
        + fr * ((1 - fc) * z[i + spec.cols()] + fc * z[i + spec.cols() + 1]);
  }

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }
}
