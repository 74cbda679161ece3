package org.scarpway.grid;

/**
 * The body that carries the ground: an ellipsoid of revolution (m) and the gravity at its surface
 * (m/s2).
 *
 * <p>Radii: Archinal et al. 2018, <i>Report of the IAU Working Group on Cartographic Coordinates
 * and Rotational Elements: 2015</i>, Celest. Mech. Dyn. Astr. 130:22 (Moon, Mars); WGS 84 (Earth).
 * Gravity: GM/R2 with GM 4902.800 and 42828.375 km3/s2; standard gravity for Earth.
 *
 * @param name name in lower case, such as moon
 * @param semiMajorM equatorial radius (m), positive
 * @param semiMinorM polar radius (m), positive, at most the equatorial radius
 * @param gravityMs2 gravity at the surface (m/s2), in (0, 1000]
 */
public record Body(String name, double semiMajorM, double semiMinorM, double gravityMs2) {
  /** The Moon, a sphere. */
  public static final Body MOON = new Body("moon", 1_737_400.0, 1_737_400.0, 1.62422);

  /** Mars, an ellipsoid. */
  public static final Body MARS = new Body("mars", 3_396_190.0, 3_376_200.0, 3.71319);

  /** The Earth, the WGS 84 ellipsoid. */
  public static final Body EARTH = new Body("earth", 6_378_137.0, 6_356_752.314245179, 9.80665);

  /**
   * Checks the values.
   *
   * @throws IllegalArgumentException if a radius is not positive, if the semi-minor axis exceeds
   *     the semi-major axis, or if the gravity is outside (0, 1000] m/s2
   */
  public Body {
    if (!(semiMajorM > 0) || !(semiMinorM > 0) || semiMinorM > semiMajorM) {
      throw new IllegalArgumentException(
          "body "
              + name
              + ": radii must be positive, semi-minor not above semi-major; got "
              + semiMajorM
              + " and "
              + semiMinorM
              + " m");
    }
    if (!(gravityMs2 > 0) || gravityMs2 > 1000) {
      throw new IllegalArgumentException(
          "body " + name + ": gravity must be in (0, 1000] m/s2, got " + gravityMs2);
    }
  }

  /**
   * True if both radii agree to within 0.1 % (relative); gravity is not compared.
   *
   * @param otherSemiMajorM semi-major axis of the other ellipsoid (m)
   * @param otherSemiMinorM semi-minor axis of the other ellipsoid (m)
   */
  public boolean sameFigureAs(double otherSemiMajorM, double otherSemiMinorM) {
    return Math.abs(semiMajorM - otherSemiMajorM) <= 1e-3 * semiMajorM
        && Math.abs(semiMinorM - otherSemiMinorM) <= 1e-3 * semiMinorM;
  }
}
