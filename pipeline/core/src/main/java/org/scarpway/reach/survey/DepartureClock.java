package org.scarpway.reach.survey;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Locale;

/**
 * Tells moments of a trip as a crew's clock shows them, to the minute: deadlines are rounded down,
 * arrivals up.
 *
 * @param date of departure, null if only the time of day is known
 * @param time of departure; null if nothing is known, and moments count from departure
 */
public record DepartureClock(LocalDate date, LocalTime time) {
  /** Counts from departure. */
  public static final DepartureClock ELAPSED = new DepartureClock(null, null);

  private static final int MINUTE_S = 60;
  private static final int DAY_MIN = 24 * 60;

  /** Rounding of sums, which moves no moment to another minute (s). */
  private static final double CLOSE_S = 1e-6;

  /**
   * Reads a departure.
   *
   * @param text such as 2031-04-12T06:30 or 06:30
   * @return null if it is neither
   */
  public static DepartureClock parse(String text) {
    try {
      int t = text.indexOf('T');
      return new DepartureClock(
          t < 0 ? null : LocalDate.parse(text.substring(0, t)),
          LocalTime.parse(text.substring(t + 1)));
    } catch (DateTimeException e) {
      return null;
    }
  }

  /** The clock not later than a moment, in seconds since departure. */
  public String notLater(double s) {
    return text(Math.floor((s + second() + CLOSE_S) / MINUTE_S));
  }

  /** The clock not earlier than a moment, in seconds since departure. */
  public String notEarlier(double s) {
    return text(Math.ceil((s + second() - CLOSE_S) / MINUTE_S));
  }

  /** Words on what the clock counts. */
  public String about() {
    if (time == null) {
      return "hours and minutes since departure";
    }
    String at = String.format(Locale.ROOT, "%02d:%02d", time.getHour(), time.getMinute());
    return "clock, departure at " + at + (date == null ? "" : " on " + date);
  }

  private double second() {
    return time == null ? 0 : time.toSecondOfDay() % MINUTE_S;
  }

  private String text(double minutes) {
    if (!Double.isFinite(minutes)) {
      return "";
    }
    long m = (long) minutes;
    if (time == null) {
      return String.format(Locale.ROOT, "%d:%02d", m / 60, m % 60);
    }
    long since = m + time.toSecondOfDay() / MINUTE_S;
    long day = Math.floorDiv(since, (long) DAY_MIN);
    long ofDay = Math.floorMod(since, (long) DAY_MIN);
    String clock = String.format(Locale.ROOT, "%02d:%02d", ofDay / 60, ofDay % 60);
    if (day == 0) {
      return clock;
    }
    return date == null ? clock + " +" + day + " d" : date.plusDays(day) + " " + clock;
  }
}
