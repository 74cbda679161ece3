package org.scarpway.hazard;

/**
 * Rocks on a surface of which a fraction k is covered by rocks, by diameter D (m).
 *
 * <p>Source: Golombek M. and Rapp D. 1997, <i>Size-frequency distributions of rocks on Mars and
 * Earth analog sites: implications for future landed missions</i>, JGR 102(E2):4117-4129: the
 * fraction covered by rocks of at least D is F(D) = k exp(-q D), q = 1.79 + 0.152 / k, fitted for k
 * of 0.05 to 0.40. The numbers follow from it for rocks of circular plan (area pi D2 / 4) and are
 * not those of the separate number law in the same paper. Rocks stand in the ground to half their
 * diameter: height = D / 2. They lie independently of each other (Poisson).
 */
public final class RockModel {
  /**
   * Density of fully overlapping discs, number times area, above which they join to an endless
   * barrier. Source: Quintanilla J.A. and Ziff R.M. 2007, <i>Asymmetry of percolation thresholds of
   * fully penetrable disks with two different radii</i>, Phys. Rev. E 76:051115 (from memory).
   */
  public static final double BARRIER_DENSITY = 1.128;

  private final double coverage;
  private final double q;

  private RockModel(double coverage) {
    this.coverage = coverage;
    this.q = 1.79 + 0.152 / coverage;
  }

  /**
   * @param coverage fraction of the ground under rocks, [0, 1)
   */
  public static RockModel of(double coverage) {
    if (!(coverage >= 0 && coverage < 1)) {
      throw new IllegalArgumentException("rock coverage must be in [0, 1), got " + coverage);
    }
    return new RockModel(coverage);
  }

  /** Whether the coverage lies in the range that the source fitted. */
  public boolean withinFit() {
    return coverage >= 0.05 && coverage <= 0.40;
  }

  /** Fraction of the ground covered by rocks of at least this diameter (m). */
  public double coveredBy(double diameterM) {
    return coverage == 0 ? 0 : coverage * Math.exp(-q * diameterM);
  }

  /** Rocks per m2 of at least this diameter (m), which must be above 0. */
  public double perM2(double diameterM) {
    if (coverage == 0) {
      return 0;
    }
    double x = q * diameterM;
    return Math.max(0, 4 * q / Math.PI * (coveredBy(diameterM) / diameterM - q * coverageE1(x)));
  }

  /** Sum of the diameters of rocks of at least this diameter, m per m2. */
  private double diametersPerM(double diameterM) {
    return coverage == 0 ? 0 : 4 * q / Math.PI * coverageE1(q * diameterM);
  }

  private double coverageE1(double x) {
    return coverage * ExponentialIntegral.e1(x);
  }

  /** Smallest diameter (m) that stands taller than what the vehicle clears. */
  public static double blockingDiameterM(double clearanceM) {
    return 2 * clearanceM;
  }

  /** Rocks of at least this diameter that a swath of this width meets, per metre driven. */
  public double hitsPerM(double swathM, double diameterM) {
    return swathM * perM2(diameterM) + diametersPerM(diameterM);
  }

  /** Mean distance (m) to the next rock in the way; infinite without rocks. */
  public double meanFreePathM(double swathM, double diameterM) {
    return 1 / hitsPerM(swathM, diameterM);
  }

  /** Probability of at least one rock of at least this diameter in an area. */
  public double probabilityIn(double areaM2, double diameterM) {
    return -Math.expm1(-perM2(diameterM) * areaM2);
  }

  /**
   * Expected number of rocks of at least this diameter that touch a disc as wide as the swath, at a
   * place picked at random: sum over rocks of pi ((swath + D) / 2)2.
   */
  public double blockingDensity(double swathM, double diameterM) {
    return Math.PI / 4 * swathM * swathM * perM2(diameterM)
        + Math.PI / 2 * swathM * diametersPerM(diameterM)
        + coveredBy(diameterM);
  }

  /** Probability that a vehicle put down at random stands on or against a blocking rock. */
  public double blockedProbability(double swathM, double diameterM) {
    return -Math.expm1(-blockingDensity(swathM, diameterM));
  }

  /**
   * Path length over straight length that rocks force; infinite where they leave no way through.
   *
   * <p>Own derivation, first order. A rock in the way has its centre anywhere within half of swath
   * + D of the path, so passing it on the near side needs a sidestep of a quarter of swath + D on
   * average. With one sidestep s per mean free path l, the way is sqrt(l2 + s2) long: factor sqrt(1
   * + (s/l)2), where s/l = (swath + mean D) / 4 * hits per metre. Rocks grown by half the swath are
   * fully overlapping discs; from {@link #BARRIER_DENSITY} on they join and no way is left.
   */
  public double detourFactor(double swathM, double diameterM) {
    if (blockingDensity(swathM, diameterM) >= BARRIER_DENSITY) {
      return Double.POSITIVE_INFINITY;
    }
    double perM2 = perM2(diameterM);
    double meanDiameterM = perM2 > 0 ? diametersPerM(diameterM) / perM2 : diameterM;
    double sidestepPerM = (swathM + meanDiameterM) / 4 * hitsPerM(swathM, diameterM);
    return Math.sqrt(1 + sidestepPerM * sidestepPerM);
  }
}
