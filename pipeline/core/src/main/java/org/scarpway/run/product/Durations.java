package org.scarpway.run.product;

import java.util.Locale;

/** Formats durations for people. */
public final class Durations {
  public static String text(double seconds) {
    long s = Math.round(seconds);
    if (s < 60) {
      return s + " s";
    }
    return s < 3600
        ? String.format(Locale.ROOT, "%d min %02d s", s / 60, s % 60)
        : String.format(Locale.ROOT, "%d h %02d min", s / 3600, s % 3600 / 60);
  }

  private Durations() {}
}
