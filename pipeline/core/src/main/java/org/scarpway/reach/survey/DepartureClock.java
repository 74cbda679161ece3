package org.scarpway.reach.survey;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/**
 * Tells moments of a trip as a crew's clock shows them, to the minute, or to the second if the
 * departure has seconds: deadlines are rounded down, arrivals up.
 *
 * @param date of departure, null if only the time of day is known
 * @param time of departure; null if nothing is known, and moments count from departure
 */
public record DepartureClock(LocalDate date, LocalTime time) {
  /** Counts from departure. */
  public static final DepartureClock ELAPSED = new DepartureClock(null, null);

  private static final int MINUTE_S = 60;
  private static final int DAY_S = 24 * 60 * 60;

  /** Rounding of sums, which moves no moment to another minute or second (s). */
  private static final double CLOSE_S = 1e-6;

  /**
   * Reads a departure.
   *
   * @param text such as 2031-04-12T06:30 or 06:30
   * @return null if it is neither, or has parts of a second
   */
  public static DepartureClock parse(String text) {
    try {
      int t = text.indexOf('T');
      LocalTime time = LocalTime.parse(text.substring(t + 1));
      return !time.equals(time.truncatedTo(ChronoUnit.SECONDS))
          ? null
          : new DepartureClock(t < 0 ? null : LocalDate.parse(text.substring(0, t)), time);
    } catch (DateTimeException e) {
      return null;
    }
  }

  /** The clock not later than a moment, in seconds since departure. */
  public String notLater(double s) {
    return text(Math.floor((s + CLOSE_S) / unitS()));
  }

  /** The clock not earlier than a moment, in seconds since departure. */
  public String notEarlier(double s) {
    return text(Math.ceil((s - CLOSE_S) / unitS()));
  }

  /** Words on what the clock counts. */
  public String about() {
    if (time == null) {
      return "hours and minutes since departure";
    }
    return "clock, departure at " + clock(units(time)) + (date == null ? "" : " on " + date);
  }

  private boolean toTheSecond() {
    return time != null && time.getSecond() > 0;
  }

  private int unitS() {
    return toTheSecond() ? 1 : MINUTE_S;
  }

  private long units(LocalTime t) {
    return t.toSecondOfDay() / unitS();
  }

  private String text(double units) {
    if (!Double.isFinite(units)) {
      return "";
    }
    long n = (long) units;
    if (time == null) {
      return String.format(Locale.ROOT, "%d:%02d", n / 60, n % 60);
    }
    long since = n + units(time);
    long inDay = DAY_S / unitS();
    long day = Math.floorDiv(since, inDay);
    String clock = clock(Math.floorMod(since, inDay));
    if (day == 0) {
      return clock;
    }
    return date == null ? clock + " +" + day + " d" : date.plusDays(day) + " " + clock;
  }

  private String clock(long units) {
    long s = units * unitS();
    String minutes = String.format(Locale.ROOT, "%02d:%02d", s / 3600, s / 60 % 60);
    return toTheSecond() ? minutes + String.format(Locale.ROOT, ":%02d", s % 60) : minutes;
  }
}
