package org.scarpway.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.vehicle.CellMobility.Check;
import org.scarpway.vehicle.Limit;

class CheckLinesTest {
  private static final String CHANCE = "probability that a slope limit is broken";

  private static Check check(double got, double allowed, String unit, boolean shown) {
    String what = unit.equals(Check.PROBABILITY) ? CHANCE : "descent";
    return new Check(Limit.DESCEND, what, got, allowed, unit, 16, shown, true);
  }

  /** A probability stands under no limit's name, in whichever of the two texts. */
  @Test
  void probabilitiesAreNotReadAsValuesOfALimit() {
    Check chance = check(0.2223, 0.1, Check.PROBABILITY, true);
    assertEquals(CHANCE + " 0.222 > 0.100", CheckLines.exceeded(chance));
    assertTrue(CheckLines.of(chance, "").startsWith("  probability "), CheckLines.of(chance, ""));
    for (Limit limit : Limit.values()) {
      Check c = new Check(limit, CHANCE, 0.5, 0.1, Check.PROBABILITY, 16, true, true);
      assertFalse((CheckLines.of(c, "") + CheckLines.exceeded(c)).contains(limit.label()));
    }
    assertEquals(
        "descent slope 21.00 > 20.00 deg", CheckLines.exceeded(check(21, 20, "deg", true)));
  }

  @Test
  void whatTheCellsDoNotShowIsSaid() {
    for (String unit : new String[] {"deg", Check.PROBABILITY}) {
      String line = CheckLines.of(check(0.05, 0.1, unit, false), "");
      assertTrue(line.endsWith("ok by estimate, NOT RESOLVED, measured over 16.0 m"), line);
      assertTrue(CheckLines.of(check(0.05, 0.1, unit, true), "").contains(" ok, measured"));
    }
    assertTrue(CheckLines.of(check(Double.NaN, 0.1, "deg", true), "").contains("no verdict"));
    assertEquals("descent slope not known", CheckLines.exceeded(check(Double.NaN, 1, "deg", true)));
  }
}
