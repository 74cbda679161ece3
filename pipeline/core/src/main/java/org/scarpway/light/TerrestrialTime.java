package org.scarpway.light;

import java.time.Instant;

/**
 * Terrestrial time, in which the series run, from UTC: TT = UTC + 32.184 s + (TAI - UTC), the last
 * from the leap seconds that the IERS announced (file UTC-TAI.history). A leap second announced
 * after the last one listed here shifts a time by 1 s: sun and stars by 0.0001 degrees on the Moon
 * and by 0.004 degrees on Earth and Mars.
 */
public final class TerrestrialTime {
  /** First time for which UTC has leap seconds of whole seconds. */
  public static final Instant FIRST = Instant.parse("1972-01-01T00:00:00Z");

  /** End of the time for which the series are trusted. */
  public static final Instant END = Instant.parse("2100-01-01T00:00:00Z");

  /** Days on which TAI - UTC grew by 1 s; it was 10 s from 1972-01-01. */
  private static final String[] LEAPS = {
    "1972-07-01", "1973-01-01", "1974-01-01", "1975-01-01", "1976-01-01", "1977-01-01",
    "1978-01-01", "1979-01-01", "1980-01-01", "1981-07-01", "1982-07-01", "1983-07-01",
    "1985-07-01", "1988-01-01", "1990-01-01", "1991-01-01", "1992-07-01", "1993-07-01",
    "1994-07-01", "1996-01-01", "1997-07-01", "1999-01-01", "2006-01-01", "2009-01-01",
    "2012-07-01", "2015-07-01", "2017-01-01"
  };

  private static final long[] LEAP_SECOND = new long[LEAPS.length];

  static {
    for (int i = 0; i < LEAPS.length; i++) {
      LEAP_SECOND[i] = Instant.parse(LEAPS[i] + "T00:00:00Z").getEpochSecond();
    }
  }

  /** 2000-01-01 12:00, the epoch of the series, as seconds of the civil count. */
  private static final long J2000_SECOND = Instant.parse("2000-01-01T12:00:00Z").getEpochSecond();

  private TerrestrialTime() {}

  /**
   * TT - UTC (s).
   *
   * @throws IllegalArgumentException outside [{@link #FIRST}, {@link #END})
   */
  public static double aheadOfUtcS(Instant utc) {
    if (utc.isBefore(FIRST) || !utc.isBefore(END)) {
      throw new IllegalArgumentException("time must be in [" + FIRST + ", " + END + "): " + utc);
    }
    int leaps = 10;
    for (long from : LEAP_SECOND) {
      leaps += utc.getEpochSecond() >= from ? 1 : 0;
    }
    return 32.184 + leaps;
  }

  /**
   * Days of terrestrial time since J2000.0.
   *
   * @throws IllegalArgumentException outside [{@link #FIRST}, {@link #END})
   */
  public static double daysSinceJ2000(Instant utc) {
    return universalDays(utc) + aheadOfUtcS(utc) / 86_400;
  }

  /** Days since 2000-01-01 12:00 UTC, each of 86 400 s. */
  static double universalDays(Instant utc) {
    return (double) (utc.getEpochSecond() - J2000_SECOND) / 86_400 + utc.getNano() / 86_400e9;
  }
}
