package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.grid.Body;
import org.scarpway.stage.UserError;

/**
 * Speed of a walker against grade, held within the metabolic limits: where the walking function
 * asks for more than the peak rate the walker slows to the speed that meets it, and all speeds are
 * scaled down so that level walking meets the mean rate (our own rule, no source).
 */
public final class WalkSpeeds {
  private static final double STANDARD_GRAVITY = Body.EARTH.gravityMs2();

  private final Walker walker;
  private final WalkingFunction function;
  private final MetabolicEquation equation;
  private final double gravityShare;
  private final double meanShare;

  /**
   * @throws UserError where the walker names no known function or lacks what its equation needs
   */
  public WalkSpeeds(Walker walker, Body body) {
    this.walker = walker;
    if (walker.speedFunction() == null && walker.table().isEmpty()) {
      throw UserError.of(
          "walker " + walker.name(),
          "no speed",
          "speed_function or speed_table",
          "add one to the walker file");
    }
    function =
        walker.speedFunction() == null
            ? null
            : WalkingFunction.ofKey(walker.name(), walker.speedFunction());
    equation =
        walker.metabolic() == null
            ? null
            : MetabolicEquation.ofKey(walker.name(), walker.metabolic());
    if (equation != null && walker.bodyKg() == null) {
      throw UserError.of(
          "walker " + walker.name(),
          "metabolic equation without body_kg",
          "metabolic: {body_kg: above 0}",
          "add it to the walker file");
    }
    gravityShare = body.gravityMs2() / STANDARD_GRAVITY;
    meanShare = meanShare();
  }

  /** Speed asked for by the walking function or table times the scale (m/s). */
  public double wantedMs(double grade) {
    double v = function == null ? fromTable(SlopeGeometry.deg(grade)) : function.speedMs(grade);
    return walker.scale() * v;
  }

  /** Speed within the metabolic limits (m/s), 0 where standing already exceeds them. */
  public double speedMs(double grade) {
    double wanted = meanShare * wantedMs(grade);
    return walker.peakW() == null ? wanted : slowedTo(walker.peakW(), grade, wanted);
  }

  /** Metabolic rate (W) of standing; 0 without an equation. */
  public static double standingW(Walker walker, Body body) {
    if (walker.metabolic() == null || walker.bodyKg() == null) {
      return 0;
    }
    double load = walker.loadKg() == null ? 0 : walker.loadKg();
    return MetabolicEquation.ofKey(walker.name(), walker.metabolic())
        .watts(walker.bodyKg(), load, 0, 0, body.gravityMs2() / STANDARD_GRAVITY);
  }

  /** Metabolic rate (W) at a speed; 0 without an equation. */
  public double watts(double grade, double speedMs) {
    double load = walker.loadKg() == null ? 0 : walker.loadKg();
    return equation == null
        ? 0
        : equation.watts(walker.bodyKg(), load, speedMs, grade, gravityShare);
  }

  private double meanShare() {
    if (equation == null || walker.meanW() == null) {
      return 1;
    }
    double wanted = wantedMs(0);
    if (wanted == 0) {
      return 1; // a table may be of steep ground only: no level walking, no rate to hold
    }
    double kept = slowedTo(walker.meanW(), 0, wanted);
    if (!(kept > 0)) {
      throw UserError.of(
          "walker " + walker.name(),
          String.format(
              Locale.ROOT,
              "standing takes %.0f W, more than the mean of %.0f W",
              watts(0, 0),
              walker.meanW()),
          "a mean above that",
          "raise metabolic.mean_w");
    }
    return kept / wanted;
  }

  /** Highest speed up to the one wanted whose rate is within a limit. */
  private double slowedTo(double limitW, double grade, double wantedMs) {
    if (equation == null || watts(grade, wantedMs) <= limitW) {
      return wantedMs;
    }
    if (watts(grade, 0) > limitW) {
      return 0;
    }
    double low = 0;
    double high = wantedMs;
    for (int i = 0; i < 60; i++) {
      double mid = 0.5 * (low + high);
      if (watts(grade, mid) <= limitW) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return low;
  }

  private double fromTable(double slopeDeg) {
    List<Walker.SpeedAt> table = walker.table();
    Walker.SpeedAt before = table.get(0);
    if (slopeDeg <= before.slopeDeg()) {
      return before.speedMs();
    }
    for (Walker.SpeedAt at : table) {
      if (slopeDeg <= at.slopeDeg()) {
        double f = (slopeDeg - before.slopeDeg()) / (at.slopeDeg() - before.slopeDeg());
        return before.speedMs() + f * (at.speedMs() - before.speedMs());
      }
      before = at;
    }
    return before.speedMs();
  }

  /** Table for {@link MoveField}: speed, and metabolic energy per surface metre. */
  public GradeTable table() {
    int steps = steps();
    double[] speed = new double[2 * steps + 1];
    double[] joules = new double[2 * steps + 1];
    for (int i = 0; i < speed.length; i++) {
      double grade = (i - steps) * DriveModel.GRADE_STEP;
      speed[i] = speedMs(grade);
      joules[i] = speed[i] > 0 ? watts(grade, speed[i]) / speed[i] : 0;
    }
    double end = steps * DriveModel.GRADE_STEP;
    return new GradeTable(-end, end, speed, joules, 0, 0);
  }

  private int steps() {
    double steepest =
        Math.min(DriveModel.MAX_GRADE, SlopeGeometry.tan(Math.min(75, walker.maxSlopeDeg())));
    return Math.max(10, (int) Math.ceil(steepest / DriveModel.GRADE_STEP - 1e-9));
  }

  /** What a reader must know: where the metabolic limits slow the walker. */
  public List<String> notes() {
    List<String> notes = new ArrayList<>();
    if (meanShare < 1) {
      notes.add(
          String.format(
              Locale.ROOT,
              "Walker %s is slowed to %.0f %% of the speed asked for: level walking would take"
                  + " %.0f W, the mean limit is %.0f W.",
              walker.name(),
              100 * meanShare,
              watts(0, wantedMs(0)),
              walker.meanW()));
    }
    int steps = steps();
    double low = Double.NaN;
    double high = Double.NaN;
    boolean halted = false;
    for (int i = -steps; i <= steps; i++) {
      double grade = i * DriveModel.GRADE_STEP;
      double v = speedMs(grade);
      if (v < meanShare * wantedMs(grade)) {
        low = Double.isNaN(low) ? grade : low;
        high = grade;
        halted |= v == 0;
      }
    }
    if (!Double.isNaN(low)) {
      notes.add(
          String.format(
              Locale.ROOT,
              "Walker %s is %s by the peak metabolic limit of %.0f W on grades from %.1f to %.1f"
                  + " deg.",
              walker.name(),
              halted ? "slowed or halted" : "slowed",
              walker.peakW(),
              SlopeGeometry.deg(low),
              SlopeGeometry.deg(high)));
    }
    if (equation == MetabolicEquation.MINETTI && SlopeGeometry.tan(walker.maxSlopeDeg()) > 0.45) {
      notes.add(
          "Walker "
              + walker.name()
              + ": the metabolic equation is fitted to 24.2 deg; steeper ground takes its end"
              + " value, which is too low uphill.");
    }
    return notes;
  }
}
