package org.scarpway.vehicle;

/**
 * Static tip-over of a rigid vehicle on a plane. The vehicle stands while the vertical through its
 * centre of gravity meets the ground inside the support polygon of the wheels. Every axle has the
 * same track, so the polygon is the rectangle from the first to the last axle; axles between them
 * do not widen it.
 *
 * <p>On a slope whose fall line makes angle psi with the heading the vertical moves h tan S cos psi
 * along and h tan S sin psi across (h height of the centre of gravity): plane statics. Side limit
 * atan(T / 2h) for psi = 90 deg, with T / 2h the static stability factor.
 */
public final class TipOver {
  private TipOver() {}

  /**
   * Slope (deg) at which the vehicle tips.
   *
   * @param towardsM distance from the centre of gravity to the outer axle on the downhill side
   * @param trackM track
   * @param cgHeightM height of the centre of gravity above the ground, above 0
   * @param psiDeg angle between heading and fall line
   */
  public static double slopeDeg(double towardsM, double trackM, double cgHeightM, double psiDeg) {
    double along = Math.abs(Math.cos(Math.toRadians(psiDeg)));
    double across = Math.abs(Math.sin(Math.toRadians(psiDeg)));
    double tan = Math.min(towardsM / (cgHeightM * along), trackM / (2 * cgHeightM * across));
    return SlopeGeometry.deg(tan);
  }

  /**
   * Share of the tipping grade that may be used on a slope when the slope must stay a margin below
   * the tipping slope: tan S / tan(S + margin). The same for every heading, so the margin turns the
   * tip-over limit of a cell into plain bounds on grade and cross grade.
   *
   * @param tanSlope rise over run of the slope, 0 or more
   * @param tanMargin tangent of the margin angle, 0 or more
   * @return 0 to 1; 0 where slope plus margin reach a right angle
   */
  public static double usableShare(double tanSlope, double tanMargin) {
    if (tanMargin == 0) {
      return 1;
    }
    return Math.max(0, tanSlope * (1 - tanSlope * tanMargin) / (tanSlope + tanMargin));
  }
}
