package org.scarpway.vehicle;

/**
 * Maximum speed in a curve before a vehicle tips over its outer wheels or slides outwards, on
 * ground of any gradient.
 *
 * <p>On the level v2 = g R min(T / 2h, tan phi), with T the track, h the height of the centre of
 * gravity and phi the friction angle of the soil (rigid vehicle, steady turn: rollover and sliding
 * as in any text on road vehicles; common practice). On a slope, own derivation: per unit weight
 * the ground bears N = 1 / sqrt(1 + t2) of the weight (t the slope, g the grade along the heading,
 * c the cross grade), the weight pulls g / sqrt(1 + g2) along the heading, which grip must hold
 * first, and c N / sqrt(1 + g2) across it, which helps where the outside of the curve is the higher
 * side and is lost where it is the lower. The radius of a curve drawn in plan becomes R (1 +
 * g2)^(3/2) / sqrt(1 + t2) on the ground (curvature of a plane curve on the inclined plane).
 */
public final class CurveLimit {
  /** No limit, for a vehicle without the data that a curve limit needs. */
  public static final CurveLimit NONE =
      new CurveLimit(1, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

  private final double gravityMs2;
  private final double tip;
  private final double friction;

  /**
   * @param tip half the track over the height of the centre of gravity, infinite if unknown
   * @param friction tangent of the friction angle, infinite if unknown
   */
  public CurveLimit(double gravityMs2, double tip, double friction) {
    this.gravityMs2 = gravityMs2;
    this.tip = tip;
    this.friction = friction;
  }

  /**
   * Creates the limit from a vehicle file: the narrowest track, reduced by the tip-over margin, and
   * the friction of its soil.
   */
  static CurveLimit of(Vehicle vehicle, double gravityMs2) {
    double tip = Double.POSITIVE_INFINITY;
    Double heightM = vehicle.body() == null ? null : vehicle.body().cgHeightM();
    if (heightM != null && vehicle.wheels() != null) {
      Double deg = vehicle.limits() == null ? null : vehicle.limits().tipMarginDeg();
      double marginRad = deg == null ? 0 : Math.toRadians(deg);
      double tipRad = Math.atan(vehicle.wheels().narrowestTrackM() / (2 * heightM));
      tip = Math.tan(Math.max(0, tipRad - marginRad));
    }
    return new CurveLimit(gravityMs2, tip, friction(vehicle.soil()));
  }

  /** Tangent of the friction angle, infinite if the soil states none. */
  static double friction(Soil soil) {
    return soil == null || soil.shear() == null
        ? Double.POSITIVE_INFINITY
        : SlopeGeometry.tan(soil.shear().frictionDeg());
  }

  /** True if some curve limits the speed. */
  public boolean known() {
    return Math.min(tip, friction) < Double.POSITIVE_INFINITY;
  }

  /**
   * Maximum speed along the surface (m/s), 0 where the slope alone uses all of the grip or
   * stability.
   *
   * @param grade rise over run along the heading
   * @param cross rise over run towards the right of the heading
   * @param radiusM radius of the curve in plan
   * @param right true for a right-hand curve
   */
  public double speedMs(double grade, double cross, double radiusM, boolean right) {
    double along2 = 1 + grade * grade;
    double slope2 = along2 + cross * cross;
    double normal = 1 / Math.sqrt(slope2);
    double held = grade / Math.sqrt(along2);
    double grip2 = friction * normal * (friction * normal) - held * held;
    if (grip2 < 0) {
      return 0;
    }
    double least = Math.min(tip * normal, Math.sqrt(grip2));
    double inward = cross * normal / Math.sqrt(along2);
    double left = least + (right ? -inward : inward);
    double groundRadiusM = radiusM * along2 * Math.sqrt(along2) * normal;
    return left > 0 ? Math.sqrt(gravityMs2 * groundRadiusM * left) : 0;
  }
}
