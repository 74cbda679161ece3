package org.scarpway.light;

import java.time.Instant;

/**
 * Sun and Earth over the Moon, apparent: light time and aberration included. The Earth's direction
 * needs neither, because the Moon moves with it: what the light time of 1.3 s displaces, aberration
 * restores to below 0.0001 degrees.
 */
public final class MoonSky implements Sky {
  /** Step (days) over which the velocity is taken. */
  private static final double STEP_DAYS = 60.0 / 86_400;

  @Override
  public SkyPosition at(Instant utc) {
    return at(TerrestrialTime.daysSinceJ2000(utc));
  }

  /** At days of terrestrial time since J2000.0. */
  static SkyPosition at(double days) {
    BodyAxes axes = BodyAxes.moon(days);
    double[] moon = MoonSeries.fromEarthKm(days / 36_525);
    double[] sun = sunKm(days);
    double[] later = sunKm(days + STEP_DAYS);
    // The observer moves against the change of the sun's vector and sees the sun ahead by the way
    // that it makes in the light time.
    double lightS = Vectors.length(sun) / SunSeries.LIGHT_KMS;
    double[] apparent =
        Vectors.plus(sun, -lightS / (STEP_DAYS * 86_400), Vectors.minus(later, sun));
    return SkyPosition.of(
        axes.turned(apparent), axes.turned(new double[] {-moon[0], -moon[1], -moon[2]}));
  }

  private static double[] sunKm(double days) {
    double t = days / 36_525;
    return Vectors.minus(SunSeries.fromEarthKm(t), MoonSeries.fromEarthKm(t));
  }
}
