package org.scarpway.light;

import java.time.Instant;

/**
 * The sun over the Earth, apparent, without refraction: Meeus, <i>Astronomical Algorithms</i>, 2nd
 * ed. 1998, chapters 12, 22 and 25, good to 0.01 degrees. Own series and not a library, because
 * these need StrictMath for the same bytes on every machine, and the disk is 50 times as wide:
 * against an implementation of the NREL solar position algorithm at 20 000 random times and places
 * from 1973 to 2049 the worst difference is 0.0095 degrees, RMS 0.0025. UT1 is taken to be UTC,
 * which is off by at most 0.9 s or 0.004 degrees.
 */
public final class EarthSky implements Sky {
  @Override
  public SkyPosition at(Instant utc) {
    double days = TerrestrialTime.daysSinceJ2000(utc);
    double t = days / 36_525;
    double[] sun = SunSeries.longitudeDistance(t);
    double node = StrictMath.toRadians(125.04 - 1934.136 * t);
    double nutationDeg = -0.00478 * StrictMath.sin(node);
    double aberrationDeg = -0.00569;
    double longitude = StrictMath.toRadians(sun[0] + nutationDeg + aberrationDeg);
    double obliquity =
        StrictMath.toRadians(Ecliptic.obliquityDeg(t) + 0.00256 * StrictMath.cos(node));
    double[] equatorial =
        Vectors.aboutX(-obliquity, Vectors.polar(longitude, 0, sun[1] * SunSeries.AU_KM));
    double universal = TerrestrialTime.universalDays(utc);
    double sidereal =
        280.46061837
            + 360.98564736629 * universal
            + 0.000387933 * t * t
            + nutationDeg * StrictMath.cos(obliquity);
    return SkyPosition.of(Vectors.aboutZ(StrictMath.toRadians(sidereal % 360), equatorial), null);
  }
}
