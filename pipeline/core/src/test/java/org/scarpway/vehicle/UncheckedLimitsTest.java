package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

class UncheckedLimitsTest {
  private static final Vehicle.Wheels WHEELS =
      VehicleParts.wheels(List.of(1.5, -1.5), 2.0, 0.4, 0.3);

  private static <T> T some(Random random, T value) {
    return random.nextInt(4) == 0 ? null : value;
  }

  /**
   * Vehicles with anything left out: a limit is told as not checked exactly where the ones that are
   * compared with the ground are infinite; there is one line, and none where nothing is left out.
   */
  @Test
  void whatIsLeftOutIsTold() {
    Random random = new Random(61);
    int silent = 0;
    for (int n = 0; n < 2000; n++) {
      Vehicle.Wheels wheels = some(random, WHEELS);
      Double massKg = some(random, 900.0);
      Soil soil = wheels == null || massKg == null ? null : some(random, Vehicles.LUNAR);
      Double powerW = some(random, 3000.0);
      Vehicle v =
          new Vehicle(
              "cart",
              "",
              massKg,
              new Vehicle.Chassis(
                  4, 2.4, 0.4, some(random, 0.5), some(random, 0.5), some(random, 0.9)),
              wheels,
              some(
                  random,
                  new Vehicle.Limits(
                      some(random, 20.0),
                      some(random, 20.0),
                      some(random, 15.0),
                      some(random, 0.3),
                      null)),
              null,
              VehicleParts.drive(
                  3, some(random, 0.5), powerW, powerW == null ? null : 0.7, 0.0, 0.0, 0.1),
              soil,
              some(random, 20.0),
              null);
      String note = UncheckedLimits.note(v, false).orElse("");
      MoveLimits m = new MoveLimits(v, Body.MOON);
      told(note, "climb", m.climb);
      told(note, "descent", m.ratedDescend);
      told(note, "side slope", m.side);
      told(note, "step", m.stepM);
      told(note, "belly", m.clearanceM);
      told(note, "traction", m.tractionUp);
      assertEquals(!m.tip.known(), listed(note, "tip-over"), note);
      assertEquals(
          v.wheels() == null
              || v.body().frontOverhangM() == null
              || v.body().rearOverhangM() == null,
          listed(note, "overhangs"),
          note);
      assertEquals(v.batteryKwh() == null || massKg == null, listed(note, "energy"), note);
      // A strong drive is no limit either.
      assertTrue(!listed(note, "power") || Double.isInfinite(m.power), note);
      boolean weighed = massKg != null && powerW != null && v.drive().crawlMs() != null;
      assertEquals(!weighed, listed(note, "power"), note);
      assertFalse(note.contains("\n"));
      silent += note.isEmpty() ? 1 : 0;
    }
    assertTrue(silent > 5, silent + " vehicles that state all");
  }

  private static void told(String note, String limit, double allowed) {
    assertEquals(allowed == Double.POSITIVE_INFINITY, listed(note, limit), note);
  }

  private static boolean listed(String note, String limit) {
    int at = note.indexOf("want of them: ");
    return at >= 0
        && List.of(note.substring(at + 14, note.length() - 1).split(", ")).contains(limit);
  }
}
