package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleBinaryOperator;
import org.scarpway.grid.Body;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;

/**
 * Speed of a walker against grade, within the range of the metabolic equation and its limits: where
 * the walking function needs more than the mean rate (or the peak rate, if no mean is given), the
 * walker slows to the speed that meets it, on every grade. So no walk exceeds the mean rate,
 * whatever its segments, and with a mean rate the peak remains in reserve for the unplanned (our
 * own rule, no source).
 *
 * <p>Without a mean rate, time walked above the sustained rate counts as time at the peak. The
 * sustained rate is the supplies divided by the endurance, at most half of the peak, as in the
 * published rates of a suit (1000 and 2000 Btu/h; half is our own choice for other walkers). A
 * walker may stay at or below it throughout ({@link #sustained()}).
 */
public final class WalkSpeeds {
  /**
   * Upper bound on the sustained rate as a share of the peak rate: 1000 of 2000 Btu/h in a suit.
   */
  private static final double SUSTAINED_SHARE = 0.5;

  private final Walker walker;
  private final WalkingFunction function;
  private final MetabolicEquation equation;
  private final double fastestMs;

  /** Highest planned metabolic rate (W); infinite if there is no limit. */
  private final double plannedW;

  /** Sustained rate (W) if walks may be planned above it; NaN if they may not. */
  private final double sustainedW;

  /**
   * @throws UserError if the walker names no known function, lacks the data for its equation or is
   *     outside its range of validity, or if any walking exceeds the limits
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
    fastestMs = equation == null ? Double.POSITIVE_INFINITY : equation.range().speedMs();
    plannedW = equation == null ? Double.POSITIVE_INFINITY : plannedW(walker);
    boolean atPeak = equation != null && walker.meanW() == null && walker.peakW() != null;
    sustainedW = atPeak ? sustainedW(walker) : Double.NaN;
    if (equation != null) {
      equation.require(walker.name(), walker.bodyKg(), loadKg(), body.gravityMs2());
      requireWalking();
    }
  }

  private static double plannedW(Walker walker) {
    if (walker.meanW() != null) {
      return walker.meanW();
    }
    return walker.peakW() == null ? Double.POSITIVE_INFINITY : walker.peakW();
  }

  private static double sustainedW(Walker walker) {
    double halfW = SUSTAINED_SHARE * walker.peakW();
    return walker.supplyMj() == null
        ? halfW
        : Math.min(halfW, walker.supplyMj() * 1e6 / (walker.enduranceH() * 3600));
  }

  private void requireWalking() {
    if (watts(0, 0) > plannedW) {
      throw UserError.of(
          "walker " + walker.name(),
          String.format(
              Locale.ROOT,
              "the slowest walking takes %.0f W, more than the %s of %.0f W",
              watts(0, 0),
              walker.meanW() == null ? "peak" : "mean",
              plannedW),
          "a limit above that",
          "raise metabolic." + (walker.meanW() == null ? "peak_w" : "mean_w") + " in its file");
    }
  }

  private double loadKg() {
    return walker.loadKg() == null ? 0 : walker.loadKg();
  }

  /**
   * Speed (m/s) of the walking function or table times the scale, limited to the range of the
   * equation.
   */
  public double wantedMs(double grade) {
    double v = function == null ? fromTable(SlopeGeometry.deg(grade)) : function.speedMs(grade);
    return Math.min(fastestMs, walker.scale() * v);
  }

  /** Speed within the metabolic limits (m/s), 0 where the slowest walking already exceeds them. */
  public double speedMs(double grade) {
    return slowedTo(plannedW, grade, wantedMs(grade));
  }

  /** Steepest walkable ground (rise over run), by the walker's limit and the equation. */
  public double steepest() {
    double tan = SlopeGeometry.tan(walker.maxSlopeDeg());
    return equation == null ? tan : Math.min(tan, equation.range().grade());
  }

  /** Metabolic rate (W) at a speed; 0 without an equation. */
  public double watts(double grade, double speedMs) {
    return equation == null
        ? 0
        : equation.watts(walker.bodyKg(), loadKg(), speedMs, grade, walker.terrainFactor());
  }

  /** Highest speed, up to the wanted one, whose rate is within a limit. */
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

  /** Table for {@link TraversalCost}: speed, and metabolic energy per surface metre. */
  public GradeTable table() {
    return table(plannedW, this::joulesPerM);
  }

  /**
   * Table for a walker who never exceeds the sustained rate; null if no walk is planned above it.
   */
  public GradeTable sustained() {
    return Double.isNaN(sustainedW) ? null : table(sustainedW, this::joulesPerM);
  }

  /**
   * Table with the speeds of {@link #table()} and, in place of the energy, the seconds above the
   * sustained rate per surface metre; null if no walk is planned above it.
   */
  public GradeTable peakSeconds() {
    return Double.isNaN(sustainedW)
        ? null
        : table(plannedW, (grade, speed) -> watts(grade, speed) > sustainedW ? 1 / speed : 0);
  }

  /**
   * Energy per metre. If the supplies are in joules, a walker slowed by a limit is assumed to spend
   * no less per metre than without the limit; otherwise a tighter limit would extend the range of
   * the supplies.
   */
  private double joulesPerM(double grade, double speedMs) {
    double slowed = watts(grade, speedMs) / speedMs;
    double wanted = wantedMs(grade);
    return walker.supplyMj() == null || !(speedMs < wanted)
        ? slowed
        : Math.max(slowed, watts(grade, wanted) / wanted);
  }

  private GradeTable table(double limitW, DoubleBinaryOperator perM) {
    int steps = steps();
    double[] speed = new double[2 * steps + 1];
    double[] cost = new double[2 * steps + 1];
    for (int i = 0; i < speed.length; i++) {
      double grade = (i - steps) * GradeTable.GRADE_STEP;
      speed[i] = slowedTo(limitW, grade, wantedMs(grade));
      cost[i] = speed[i] > 0 ? perM.applyAsDouble(grade, speed[i]) : 0;
    }
    double end = steps * GradeTable.GRADE_STEP;
    return new GradeTable(-end, end, speed, cost, 0, 0);
  }

  private int steps() {
    double most = Math.min(SlopeGeometry.tan(75), steepest());
    double steepest = Math.min(GradeTable.MAX_GRADE, most);
    return Math.max(10, (int) Math.ceil(steepest / GradeTable.GRADE_STEP - 1e-9));
  }

  /**
   * Notes for the reader, without the name of the walker: the equation's range of validity, and
   * where its limits slow the walker or close ground.
   */
  public List<String> notes() {
    List<String> notes = new ArrayList<>();
    if (equation == null) {
      return notes;
    }
    notes.add(
        String.format(
            Locale.ROOT,
            "Metabolic equation %s is made for %s%s.",
            equation.key(),
            equation.range().text(),
            equation == MetabolicEquation.SUITED_LUNAR
                ? String.format(
                    Locale.ROOT,
                    " (a secondary source); it counts no less than %.0f W",
                    MetabolicEquation.SLOWEST_SUITED_W)
                : ""));
    if (equation == MetabolicEquation.PANDOLF) {
      notes.add(
          Digits.text(
              "Counts a terrain factor of %s everywhere, the largest of all soils of the job; soils"
                  + " without walking_factor count as a firm even way (1).",
              walker.terrainFactor()));
    } else if (walker.terrainFactor() > 1) {
      notes.add(
          Digits.text(
              "Soils of the job have a walking_factor of up to %s, which %s does not know: on such"
                  + " ground walking takes more than is counted.",
              walker.terrainFactor(), equation.key()));
    }
    if (SlopeGeometry.tan(walker.maxSlopeDeg()) > equation.range().grade() * (1 + 1e-9)) {
      notes.add(
          String.format(
              Locale.ROOT,
              "Ground steeper than %.1f deg is shut, though max_slope_deg is %.1f: the metabolic"
                  + " equation is not made for it.",
              SlopeGeometry.deg(equation.range().grade()),
              walker.maxSlopeDeg()));
    }
    if (walker.usableJ() == Double.POSITIVE_INFINITY) {
      notes.add("States neither mean_w nor supply_mj: the energy of walks is not limited.");
    }
    if (!Double.isNaN(sustainedW)) {
      notes.add(
          Digits.text(
              "Without mean_w, %s W are taken to be kept up (%s): what is walked above that counts"
                  + " against the %s min of peak_min, or is walked no faster than that allows.",
              sustainedW,
              sustainedW < SUSTAINED_SHARE * walker.peakW()
                  ? "supply_mj over endurance_h"
                  : "half of peak_w",
              walker.peakMin()));
    }
    int steps = steps();
    double low = Double.NaN;
    double high = Double.NaN;
    boolean halted = false;
    for (int i = -steps; i <= steps; i++) {
      double grade = i * GradeTable.GRADE_STEP;
      double v = speedMs(grade);
      if (v < wantedMs(grade)) {
        low = Double.isNaN(low) ? grade : low;
        high = grade;
        halted |= v == 0;
      }
    }
    if (!Double.isNaN(low)) {
      notes.add(
          String.format(
              Locale.ROOT,
              "%s by the %s metabolic limit of %.0f W on grades from %.1f to %.1f deg: level"
                  + " walking takes %.0f W at %.2f m/s.",
              halted ? "Slowed or halted" : "Slowed",
              walker.meanW() == null ? "peak" : "mean",
              plannedW,
              SlopeGeometry.deg(low),
              SlopeGeometry.deg(high),
              watts(0, speedMs(0)),
              speedMs(0)));
    }
    return notes;
  }
}
