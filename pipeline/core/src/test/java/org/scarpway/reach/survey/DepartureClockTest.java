package org.scarpway.reach.survey;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Random;
import org.junit.jupiter.api.Test;

class DepartureClockTest {
  @Test
  void readsATimeOfDayWithAndWithoutDate() {
    assertEquals("06:31", DepartureClock.parse("06:30").notEarlier(1));
    assertEquals("06:30", DepartureClock.parse("06:30").notLater(59));
    assertEquals("00:10 +1 d", DepartureClock.parse("23:50").notLater(1200));
    assertEquals("2031-03-01 00:10", DepartureClock.parse("2031-02-28T23:50").notLater(1200));
    assertEquals("23:59:59", DepartureClock.parse("23:59:59").notEarlier(0));
    assertEquals("00:00:00 +1 d", DepartureClock.parse("23:59:59").notEarlier(0.5));
    assertEquals("clock, departure at 23:59:59", DepartureClock.parse("23:59:59").about());
    assertEquals("1:01", DepartureClock.ELAPSED.notEarlier(3601));
    assertEquals("", DepartureClock.ELAPSED.notLater(Double.POSITIVE_INFINITY));
    for (String wrong :
        new String[] {"25:00", "2031-02-30T06:00", "6:30", "noon", "06:30:00.5", ""}) {
      assertNull(DepartureClock.parse(wrong), wrong);
    }
  }

  /** Deadlines are never late and arrivals never early, each by less than a minute. */
  @Test
  void roundsToTheSafeSide() {
    Random random = new Random(3);
    for (int i = 0; i < 500; i++) {
      LocalDateTime from =
          LocalDateTime.of(2031, 12, 30, 0, 0).plusSeconds(random.nextInt(2 * 86_400));
      DepartureClock clock = DepartureClock.parse(from.toString());
      double s = random.nextDouble() * 2e5;
      LocalDateTime moment = from.plusNanos((long) (s * 1e9));
      double early = ChronoUnit.NANOS.between(read(clock.notLater(s), from), moment) * 1e-9;
      double late = ChronoUnit.NANOS.between(moment, read(clock.notEarlier(s), from)) * 1e-9;
      assertTrue(early > -1e-5 && early < 60, from + " " + s + ": " + early);
      assertTrue(late > -1e-5 && late < 60, from + " " + s + ": " + late);
    }
  }

  /** A clock without a date is of the day of departure. */
  private static LocalDateTime read(String text, LocalDateTime from) {
    return LocalDateTime.parse(
        text.contains(" ") ? text.replace(' ', 'T') : from.toLocalDate() + "T" + text);
  }
}
