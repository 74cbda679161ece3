package org.scarpway.vehicle;

import org.scarpway.terrain.HeightSum;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.NormalTail;
import org.scarpway.terrain.StepError;
import org.scarpway.terrain.StepOdds;
import org.scarpway.terrain.Terrain;

/**
 * What the error of the heights takes from the limits of a vehicle at the job's confidence.
 *
 * <p>With the heights as all that is known, the true value of whatever is a sum of heights is
 * normal about the measured one. Grade and cross grade of a heading count together ({@link
 * GradientOdds}). All steps about a cell, and all wheels off the wheels' plane, count together
 * ({@link StepError}). Belly and overhangs count each by itself at the place that is measured
 * nearest to its limit: ground on which the limit is broken anywhere then passes with a probability
 * of at most 1 - confidence, since it must pass there too.
 */
final class Allowances {
  /** Heights taken as measured. */
  static final Allowances NONE = new Allowances();

  /** Whether the error of the heights is known. */
  final boolean known;

  /** Probability with which a limit may be broken. */
  final double tail;

  /** Sigmas for one limit, and for each of two that must hold together. */
  final double z;

  final double zBoth;

  /** One sigma of the gradient that windows and tacks are told from. */
  final double gradientSigma;

  final double troughSigma;

  /**
   * Null where no allowance is made on steps: where they are carried down from cells wider than the
   * wheel spacing they are an estimate from the roughness of the heights, which their error only
   * adds to.
   */
  final StepError step;

  /** The same of each step by itself, null where there is none to tell them apart by. */
  final StepOdds stepOdds;

  /** What the error may take from the step limit, by the largest step alone. */
  final double stepLossM;

  /** Sigmas for a wheel off the wheels' plane: any of them may be, up or down. */
  final double zWheel;

  private final int wheelSides;

  final double convexitySigmaM;

  /** Of the wheels' plane by pose; null where the cells do not resolve the wheels. */
  final double[] alongSigma;

  final double[] acrossSigma;

  /** Of what belly and overhangs meet, and of a wheel off the wheels' plane, by pose. */
  final double[] underSigmaM;

  final double[] offPlaneSigmaM;

  private Allowances() {
    known = false;
    tail = 0.5;
    z = 0;
    zBoth = 0;
    gradientSigma = 0;
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
   * @param layout null where the cells do not resolve the wheels
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
    // A window that the plane of the gradient shows is driven on the wheels.
    gradientSigma = largest;
  }

  /** Probability, from above, that any wheel is farther off the wheels' plane than allowed. */
  double wheelBroken(double offM, double allowedM, int pose) {
    return Math.min(1, wheelSides * broken(offM, allowedM, offPlaneSigmaM[pose]));
  }

  /** Probability that a value lies above what is allowed. */
  static double broken(double got, double allowed, double sigma) {
    return sigma > 0 ? NormalTail.above((allowed - got) / sigma) : got > allowed ? 1 : 0;
  }
}
