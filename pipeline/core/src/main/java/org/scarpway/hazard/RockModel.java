package org.scarpway.hazard;

/**
 * Size-frequency distribution of rocks by diameter D (m), derived from the fraction of the ground
 * that they cover.
 *
 * <p>Source: Golombek M. and Rapp D. 1997, <i>Size-frequency distributions of rocks on Mars and
 * Earth analog sites: implications for future landed missions</i>, JGR 102(E2):4117-4129: the
 * fraction covered by rocks of at least D is F(D) = k exp(-q D), q = 1.79 + 0.152 / k, fitted for k
 * of 0.05 to 0.40. The curves of two k do not cross, so a coverage by rocks of at least some
 * diameter belongs to one curve. Below 0.05 the law as printed gives almost no large rocks (of a
 * metre: 5e-10 per m2 at 0.01, where the trend of counts on the Moon has 1e-4 and more); there the
 * shape at 0.05 is used, the fitted one with the fewest large rocks (own choice, on the safe side
 * of the law). The numbers of rocks follow for rocks of circular plan (area pi D2 / 4) and are not
 * those of the separate number law in the same paper.
 *
 * <p>The alternative is a power law of the diameter, as fitted to counts at landing sites on the
 * Moon: Shoemaker E.M. and Morris E.C. 1970, <i>Surveyor: physics of fragmental debris</i>, Icarus
 * 12:188-212, exponent 2.56 at Surveyor III. The trends of the other sites overestimate large
 * blocks (Cintala M.J. and McBride K.M. 1995, NASA TM 104804).
 *
 * <p>Rocks are buried to half their diameter: height = D / 2. Their positions are independent
 * (Poisson process).
 */
public final class RockModel {
  /**
   * Percolation threshold: density of fully overlapping discs (number times area) above which they
   * form an infinite barrier: 4 x 1.12809 = 4.51235 (percolation of discs: arXiv 2010.02895;
   * Quintanilla J.A. and Ziff R.M. 2007, <i>Asymmetry of percolation thresholds of fully penetrable
   * disks with two different radii</i>, Phys. Rev. E 76:051115).
   */
  public static final double BARRIER_DENSITY = 4.51235 / 4;

  /**
   * Density from which ground is treated as closed. It is below the percolation threshold since
   * fields are finite: of fields thirty bodies long, one in fifteen is closed at this density and
   * one in five at 0.9 (own Monte Carlo, {@code BoulderFields} in the tests).
   */
  public static final double CLOSED_DENSITY = 0.8;

  private static final RockModel NONE = new RockModel(0, 1, Double.NaN);

  /** Coverage by all rocks; for the power law the number of rocks of 1 m or more per m2. */
  private final double coverage;

  private final double q;

  /** Exponent of the power law; NaN for the exponential law. */
  private final double exponent;

  private RockModel(double coverage, double q, double exponent) {
    this.coverage = coverage;
    this.q = q;
    this.exponent = exponent;
  }

  /**
   * @param coverage fraction of the ground under the rocks of {@code count}, at most {@link
   *     RockCount#most}
   */
  public static RockModel of(RockCount count, double coverage) {
    if (!(coverage >= 0 && coverage <= count.most() * (1 + 1e-6))) {
      throw new IllegalArgumentException(
          "rock coverage must be in [0, " + count.most() + "], got " + coverage);
    }
    if (coverage == 0) {
      return NONE;
    }
    if (count.exponent() != null) {
      double e = count.exponent();
      double perM2 = coverage * 4 / Math.PI * (e - 2) / e * Math.pow(count.aboveM(), e - 2);
      return new RockModel(perM2, 0, e);
    }
    double q = RockLaw.q(Math.max(RockLaw.LEAST_FITTED, curveThrough(count.aboveM(), coverage)));
    return new RockModel(coverage * Math.exp(q * count.aboveM()), q, Double.NaN);
  }

  /**
   * Returns the coverage by all rocks that belongs to a given coverage by rocks of at least a
   * diameter.
   */
  private static double curveThrough(double aboveM, double coverage) {
    if (aboveM == 0 || coverage <= RockLaw.fitted(RockLaw.LEAST_FITTED, aboveM)) {
      return coverage;
    }
    double low = RockLaw.LEAST_FITTED;
    double high = RockLaw.MOST_FITTED;
    for (int i = 0; i < 45; i++) {
      double mid = 0.5 * (low + high);
      if (RockLaw.fitted(mid, aboveM) < coverage) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return high;
  }

  /** Fraction of the ground covered by rocks of at least this diameter (m). */
  public double coveredBy(double diameterM) {
    if (byPower()) {
      return Math.PI / 4 * exponent / (exponent - 2) * coverage * Math.pow(diameterM, 2 - exponent);
    }
    return coverage == 0 ? 0 : coverage * Math.exp(-q * diameterM);
  }

  private boolean byPower() {
    return !Double.isNaN(exponent);
  }

  /** Number of rocks per m2 of at least this diameter (m), which must be above 0. */
  public double perM2(double diameterM) {
    if (byPower()) {
      return coverage * Math.pow(diameterM, -exponent);
    }
    if (coverage == 0) {
      return 0;
    }
    double x = q * diameterM;
    return Math.max(0, 4 * q / Math.PI * (coveredBy(diameterM) / diameterM - q * coverageE1(x)));
  }

  /** Sum of the diameters of rocks of at least this diameter, m per m2. */
  public double diametersPerM(double diameterM) {
    if (byPower()) {
      return exponent / (exponent - 1) * coverage * Math.pow(diameterM, 1 - exponent);
    }
    return coverage == 0 ? 0 : 4 * q / Math.PI * coverageE1(q * diameterM);
  }

  private double coverageE1(double x) {
    return coverage * ExponentialIntegral.e1(x);
  }

  /**
   * Expected number of rocks of at least this diameter that hit a swath of this width, per metre
   * driven.
   */
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
   * random place: sum over rocks of pi ((swath + D) / 2)2.
   */
  public double blockingDensity(double swathM, double diameterM) {
    return Math.PI / 4 * swathM * swathM * perM2(diameterM)
        + Math.PI / 2 * swathM * diametersPerM(diameterM)
        + coveredBy(diameterM);
  }

  /** Probability that a vehicle at a random place touches a blocking rock. */
  public double blockedProbability(double swathM, double diameterM) {
    return -Math.expm1(-blockingDensity(swathM, diameterM));
  }

  /** Expected number of rocks in the way of a vehicle, per metre driven straight. */
  public double hitsPerM(RockBody body) {
    double d = body.bellyDiameterM();
    double wheelD = body.wheelDiameterM();
    double whole = hitsPerM(body.swathM(), d);
    if (wheelD >= d || coverage == 0) {
      return whole;
    }
    double perM2 = perM2(wheelD) - perM2(d);
    double widths = diametersPerM(wheelD) - diametersPerM(d);
    double byWheels = body.wheelPaths() * (body.wheelWidthM() * perM2 + widths);
    return whole + Math.max(0, Math.min(byWheels, body.swathM() * perM2 + widths));
  }

  /** Expected number of rocks that touch a vehicle at a random place. */
  public double density(RockBody body) {
    double d = body.bellyDiameterM();
    double wheelD = body.wheelDiameterM();
    double whole = blockingDensity(body.swathM(), d);
    if (wheelD >= d || coverage == 0) {
      return whole;
    }
    double byWheels =
        body.wheelPaths()
            * (blockingDensity(body.wheelWidthM(), wheelD)
                - blockingDensity(body.wheelWidthM(), d));
    double byAll = blockingDensity(body.swathM(), wheelD) - whole;
    return whole + Math.max(0, Math.min(byWheels, byAll));
  }

  /**
   * Detour factor: ratio of path length to straight length caused by rocks; infinite where the
   * ground is treated as closed.
   *
   * <p>Own fit to the shortest paths of a body among random discs (Monte Carlo of {@code
   * BoulderFields} in the tests: 1.019 at a density of 0.3, 1.05 at 0.5, 1.15 at 0.7), at most 0.3
   * % below them, which is the amount by which paths on its lattice are too long. The length of
   * such paths diverges at {@link #BARRIER_DENSITY}.
   *
   * @param density expected number of touching rocks, as from {@link #density}
   */
  public static double detourFactor(double density) {
    if (density >= CLOSED_DENSITY) {
      return Double.POSITIVE_INFINITY;
    }
    return 1 + 0.045 * density * Math.pow(1 - density / BARRIER_DENSITY, -1.8);
  }
}
