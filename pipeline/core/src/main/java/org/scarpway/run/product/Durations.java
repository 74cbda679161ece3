package org.scarpway.run.product;

import java.util.Locale;

/** Formats durations for people. */
public final class Durations {
  public static String text(double seconds) {
    long s = Math.round(seconds);
    if (s < 60) {
      return s + " s";
    }
    if (s < 3600) {
      return String.format(Locale.ROOT, "%d min %02d s", s / 60, s % 60);
    }
    // As in the report, to the nearest minute.
    long minutes = Math.round(seconds / 60);
    return String.format(Locale.ROOT, "%d h %02d min", minutes / 60, minutes % 60);
  }

  private Durations() {}
}
