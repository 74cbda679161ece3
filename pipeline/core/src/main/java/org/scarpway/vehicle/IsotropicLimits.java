package org.scarpway.vehicle;

import static org.scarpway.vehicle.LimitUse.FULL;
import static org.scarpway.vehicle.LimitUse.ratio;

import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Lengths;
import org.scarpway.terrain.Terrain;

/**
 * Evaluates the limits that do not depend on the heading. Stores the last verdict; use one instance
 * per thread.
 */
final class IsotropicLimits {
  /**
   * True if the step was extrapolated over so many times its own length that it is a measure of
   * roughness but no evidence of a step that stops a vehicle.
   */
  static boolean stepExtrapolatedTooFar(Terrain terrain) {
    if (terrain.extrapolation() == null || terrain.extrapolation().step() == null) {
      return false;
    }
    var scale = terrain.extrapolation().step();
    return !Lengths.within(scale.fromM(), scale.toM());
  }

  /** The search for a smaller probability stops below this value. Own choice. */
  private static final double NEGLIGIBLE = 1e-6;

  private static final int NO_ROOM = Hazard.Cause.NARROW.bit() | Hazard.Cause.POCKET.bit();

  private final MoveLimits limits;
  private final float[] gradEast;
  private final float[] gradNorth;
  private final GridSpec spec;
  private final float[] heightM;
  private final float[] stepM;
  private final boolean stepsMeasured;
  private final float[] roughnessM;
  private final boolean byRoughness;
  private final float[] convexityM;
  private final byte[] causes;
  private final float[] detour;
  private final Allowances allowances;
  private final float[] hitsPerKm;
  private final float[] sidestepM;
  private final double rockSlowM;
  private final double rockNoGoM;

  /** Step limit and belly clearance above the ruts of the last cell. */
  private double climbedM;

  private double bellyM;

  /** Largest use of these limits, and the limit with that use; null if no limit is used. */
  double use;

  Limit limit;

  /**
   * @param byConvexity true if the belly is checked against the rise of the ground between the
   *     axles
   * @param byRoughness true if roughness is given over the baseline that the limit is meant for
   */
  IsotropicLimits(
      MoveLimits limits,
      Terrain terrain,
      Hazard hazard,
      boolean byConvexity,
      boolean byRoughness,
      Allowances allowances) {
    this.allowances = allowances;
    this.limits = limits;
    this.byRoughness = byRoughness;
    gradEast = terrain.gradEast().values();
    gradNorth = terrain.gradNorth().values();
    spec = terrain.gradEast().spec();
    heightM = terrain.heightM().values();
    stepM = limits.needsStep() ? terrain.stepM().values() : null;
    stepsMeasured = !stepExtrapolatedTooFar(terrain);
    roughnessM = limits.needsRoughness() ? terrain.roughnessM().values() : null;
    convexityM = limits.needsConvexity() && byConvexity ? terrain.convexityM().values() : null;
    causes = hazard.causes().values();
    detour = hazard.detourFactor().values();
    Hazard.Boulders rocks = hazard.boulders().orElse(null);
    hitsPerKm = rocks == null ? null : rocks.hitsPerKm().values();
    sidestepM = rocks == null ? null : rocks.sidestepM().values();
    rockSlowM = rocks == null ? 0 : rocks.slowM();
    rockNoGoM = rocks == null ? 0 : rocks.noGoM();
  }

  boolean unknown(int cell) {
    return Float.isNaN(gradEast[cell])
        || Float.isNaN(gradNorth[cell])
        || (stepM != null && Float.isNaN(stepM[cell]))
        || (roughnessM != null && Float.isNaN(roughnessM[cell]))
        || (convexityM != null && Float.isNaN(convexityM[cell]));
  }

  boolean keptOut(int cell) {
    return (causes[cell] & Hazard.Cause.KEEP_OUT.bit()) != 0;
  }

  /** True in a gap that is too narrow, or where the vehicle cannot turn. */
  boolean withoutRoom(int cell) {
    return (causes[cell] & NO_ROOM) != 0;
  }

  /** True if the job has rock data but none in this cell. */
  boolean rocksUnknown(int cell) {
    return Float.isNaN(detour[cell]);
  }

  boolean fullOfRocks(int cell) {
    return detour[cell] == Float.POSITIVE_INFINITY || (limits.noRocks && anyRocks(cell));
  }

  private boolean anyRocks(int cell) {
    return detour[cell] > 1 || (hitsPerKm != null && hitsPerKm[cell] > 0);
  }

  /** Expected number of rocks in the way on a straight line of the given length. */
  private double rocksPer(double lengthM, int cell) {
    return hitsPerKm == null ? 0 : hitsPerKm[cell] / 1000 * lengthM;
  }

  /** True if rocks lie so densely that the ground is slow. */
  boolean slowedByRocks(int cell) {
    return rocksPer(rockSlowM, cell) > 1;
  }

  /**
   * Speed (m/s) among rocks; the speed without rocks where there are none.
   *
   * @param slowestMs lowest speed of all open headings, so that no heading is overestimated
   */
  double amongRocksMs(int cell, double slowestMs, double capMs) {
    return hitsPerKm == null || !(hitsPerKm[cell] > 0)
        ? capMs
        : Math.min(
            capMs, limits.amongRocks.speedMs(slowestMs, hitsPerKm[cell] / 1000.0, sidestepM[cell]));
  }

  /** Step height (m), 0 if the vehicle has no limit that uses it. */
  double stepM(int cell) {
    return stepM == null ? 0 : stepM[cell];
  }

  /**
   * Roughness (m), 0 if the vehicle has no limit that uses it or if roughness is not given at the
   * vehicle's scale.
   */
  double roughnessM(int cell) {
    return roughnessM == null || !byRoughness ? 0 : roughnessM[cell];
  }

  /**
   * @param t slope of the cell, rise over run
   */
  void judge(int cell, double t) {
    use = 0;
    limit = null;
    climbedM = limits.stepM(t);
    bellyM = limits.bellyM(t);
    SoftGround soft = limits.soft;
    note(Limit.SINKAGE, ratio(soft.sinkageM(t), limits.deepestM()));
    boolean buried = limits.buries(t);
    note(Limit.TRACTION, soft.slipUse(t));
    note(soft.taking(t), soft.lossUse(t));
    if (stepM != null && !buried) {
      // On cells that cannot separate steps from slopes, steps slow to the crawl speed like
      // roughness.
      double leftM = stepsMeasured ? climbedM - allowances.stepLossM : climbedM;
      double step = ratio(stepM[cell], leftM);
      if (step > FULL && stepsHold(cell)) {
        step = 1;
      }
      note(Limit.STEP, stepsMeasured ? step : Math.min(1, step));
    }
    if (convexityM != null && !buried) {
      double leftM = bellyM - allowances.z * allowances.convexitySigmaM;
      note(Limit.CLEARANCE, ratio(Math.max(0, convexityM[cell]), leftM));
    }
    if (roughnessM != null && byRoughness) {
      // Roughness limits the speed to the crawl speed but does not close ground.
      note(Limit.ROUGHNESS, Math.min(1, roughnessM[cell] / limits.crawlRoughnessM));
    }
    note(Limit.ROCKS, Math.min(1, Math.max(1 - 1 / detour[cell], rocksPer(rockNoGoM, cell))));
    if (limits.bearing != null) {
      note(Limit.TRACTION, limits.bearing.needed() / limits.bearing.rating());
    }
  }

  /**
   * True if all steps together satisfy the confidence although the test on the largest step alone
   * fails.
   */
  private boolean stepsHold(int cell) {
    return allowances.stepOdds != null && stepBroken(cell, climbedM) <= allowances.tail;
  }

  /** Upper bound on the probability that a step about a cell exceeds a limit. */
  double stepBroken(int cell, double limitM) {
    double byLargest = allowances.step.broken(limitM - stepM[cell]);
    boolean largestDecides =
        allowances.stepOdds == null || stepM[cell] > limitM || byLargest < NEGLIGIBLE;
    return largestDecides
        ? byLargest
        : Math.min(
            byLargest,
            allowances.stepOdds.broken(
                heightM, spec.rows(), spec.cols(), cell / spec.cols(), cell % spec.cols(), limitM));
  }

  /**
   * Probability that a limit of the whole cell is exceeded; an upper bound except for the belly.
   * Limits subject to the height error (step and belly) are added; the result is 1 if a limit is
   * exceeded whatever the error.
   */
  double broken(int cell) {
    double step = 0;
    double belly = 0;
    if (stepM != null && limits.stepM < Double.POSITIVE_INFINITY && allowances.step != null) {
      step = stepBroken(cell, climbedM);
    }
    if (convexityM != null) {
      double risesM = Math.max(0, convexityM[cell]);
      belly = Allowances.broken(risesM, bellyM, allowances.convexitySigmaM);
    }
    boolean uncertain =
        limit == Limit.CLEARANCE || (limit == Limit.STEP && allowances.step != null);
    return use > LimitUse.FULL && !uncertain ? 1 : Math.min(1, step + belly);
  }

  private void note(Limit which, double taken) {
    if (taken > use) {
      use = taken;
      limit = which;
    }
  }
}
