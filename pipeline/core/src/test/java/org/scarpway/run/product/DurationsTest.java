package org.scarpway.run.product;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class DurationsTest {
  /** No duration above an hour is told more than half a minute off. */
  @Test
  void hoursAreToldToTheNearestMinute() {
    Random random = new Random(5);
    for (int i = 0; i < 1000; i++) {
      double s = 3600 + 1e5 * random.nextDouble();
      String[] words = Durations.text(s).split(" ");
      double told = 3600 * Double.parseDouble(words[0]) + 60 * Double.parseDouble(words[2]);
      assertTrue(Math.abs(told - s) <= 30, s + ": " + Durations.text(s));
    }
    assertEquals("59 min 59 s", Durations.text(3599));
    assertEquals("1 h 00 min", Durations.text(3600));
    assertEquals("2 h 00 min", Durations.text(7199));
  }
}
