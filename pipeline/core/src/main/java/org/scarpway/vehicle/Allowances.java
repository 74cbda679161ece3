package org.scarpway.vehicle;

import org.scarpway.terrain.HeightSum;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.NormalTail;
import org.scarpway.terrain.StepError;
import org.scarpway.terrain.StepOdds;
import org.scarpway.terrain.Terrain;

/**
 * Safety allowances: the amounts by which the error of the heights tightens the limits of a vehicle
 * at the job's confidence.
 *
 * <p>The heights are the only evidence (no prior), so the true value of every linear combination of
 * heights is normally distributed about the measured value. Grade and cross grade of a heading are
 * treated jointly ({@link GradientOdds}). All steps about a cell, and all wheels off the wheels'
 * plane, are treated jointly ({@link StepError}). Belly and overhangs are each evaluated only at
 * the point measured nearest to its limit. That is sufficient: ground on which the limit is
 * exceeded anywhere passes with a probability of at most 1 - confidence, since it must pass at that
 * point too.
 */
final class Allowances {
  /** No allowances: the heights are used as measured. */
  static final Allowances NONE = new Allowances();

  /** True if the error of the heights is known. */
  final boolean known;

  /** Permitted probability that a limit is exceeded (1 - confidence). */
  final double tail;

  /** Standard normal quantile for one limit, and for each of two limits that must hold together. */
  final double z;

  final double zBoth;

  /** Standard deviation of the gradient from which heading windows and tacks are computed. */
  final double gradientSigma;

  /** Standard deviation of the gradient of a single cell, whether or not wheels stand on it. */
  final double cellGradientSigma;

  final double troughSigma;

  /**
   * Error of the step height; null if steps need no allowance. Steps extrapolated from cells wider
   * than the wheel spacing are an estimate from the roughness of the heights, which the height
   * error can only increase.
   */
  final StepError step;

  /** Error of each step separately; null if the steps about a cell cannot be separated. */
  final StepOdds stepOdds;

  /** Allowance (m) subtracted from the step limit, from the largest step alone. */
  final double stepLossM;

  /** Quantile for a wheel off the wheels' plane, for any wheel and either direction. */
  final double zWheel;

  private final int wheelSides;

  final double convexitySigmaM;

  /**
   * Standard deviation of the grade of the wheels' plane by pose; null if the cells do not resolve
   * the wheels.
   */
  final double[] alongSigma;

  final double[] acrossSigma;

  /**
   * Standard deviation (m) of the ground under belly and overhangs and of a wheel's distance from
   * the wheels' plane, by pose.
   */
  final double[] underSigmaM;

  final double[] offPlaneSigmaM;

  private Allowances() {
    known = false;
    tail = 0.5;
    z = 0;
    zBoth = 0;
    gradientSigma = 0;
    cellGradientSigma = 0;
    troughSigma = 0;
    step = null;
    stepOdds = null;
    stepLossM = 0;
    zWheel = 0;
    wheelSides = 0;
    convexitySigmaM = 0;
    alongSigma = null;
    acrossSigma = null;
    underSigmaM = null;
    offPlaneSigmaM = null;
  }

  /**
   * @param layout wheel positions; null if the cells do not resolve the wheels
   */
  static Allowances of(HeightTrust trust, Terrain terrain, WheelLayout layout) {
    return trust.errors() == null ? NONE : new Allowances(trust, terrain, layout);
  }

  private Allowances(HeightTrust trust, Terrain terrain, WheelLayout layout) {
    LayerErrors errors = trust.errors();
    known = true;
    tail = 1 - trust.confidence();
    z = NormalTail.quantile(trust.confidence());
    zBoth = NormalTail.quantile(1 - tail / 2);
    cellGradientSigma = errors.gradient();
    troughSigma = errors.slopeBreak();
    boolean measured = terrain.extrapolation() == null || terrain.extrapolation().step() == null;
    step = measured ? errors.step() : null;
    stepOdds = measured ? errors.stepOdds() : null;
    stepLossM = measured ? step.allowanceM(tail) : 0;
    wheelSides = layout == null ? 0 : 2 * layout.wheelCount;
    zWheel = layout == null ? 0 : NormalTail.quantile(1 - tail / wheelSides);
    convexitySigmaM = errors.convexityM();
    if (layout == null) {
      gradientSigma = errors.gradient();
      alongSigma = null;
      acrossSigma = null;
      underSigmaM = null;
      offPlaneSigmaM = null;
      return;
    }
    double x = terrain.gradEast().spec().cellXM();
    double y = terrain.gradEast().spec().cellYM();
    alongSigma = new double[layout.poses];
    acrossSigma = new double[layout.poses];
    underSigmaM = new double[layout.poses];
    offPlaneSigmaM = new double[layout.poses];
    double largest = errors.gradient();
    for (int k = 0; k < layout.poses; k++) {
      HeightSum[] point = new HeightSum[layout.pointCount];
      HeightSum mean = new HeightSum();
      HeightSum grade = new HeightSum();
      HeightSum cross = new HeightSum();
      for (int i = 0; i < point.length; i++) {
        point[i] = layout.ground(k, i);
        if (i < layout.wheelCount) {
          mean.add(point[i], 1.0 / layout.wheelCount);
          grade.add(point[i], layout.alongWeight[i]);
          cross.add(point[i], layout.acrossWeight[i]);
        }
      }
      alongSigma[k] = grade.sigma(errors.heights(), x, y);
      acrossSigma[k] = cross.sigma(errors.heights(), x, y);
      largest = Math.max(largest, Math.max(alongSigma[k], acrossSigma[k]));
      for (int i = 0; i < point.length; i++) {
        HeightSum off =
            new HeightSum()
                .add(point[i], 1)
                .add(mean, -1)
                .add(grade, layout.middleM - layout.xM[i])
                .add(cross, -layout.yM[i]);
        double sigma = off.sigma(errors.heights(), x, y);
        double[] most = i < layout.wheelCount ? offPlaneSigmaM : underSigmaM;
        most[k] = Math.max(most[k], sigma);
      }
    }
    // A window found on the gradient plane is driven on the wheels, so the largest error of both
    // counts.
    gradientSigma = largest;
  }

  /**
   * Upper bound on the probability that any wheel is farther off the wheels' plane than allowed.
   */
  double wheelBroken(double offM, double allowedM, int pose) {
    return Math.min(1, wheelSides * broken(offM, allowedM, offPlaneSigmaM[pose]));
  }

  /** Probability that the true value exceeds the allowed one. */
  static double broken(double got, double allowed, double sigma) {
    return sigma > 0 ? NormalTail.above((allowed - got) / sigma) : got > allowed ? 1 : 0;
  }
}
