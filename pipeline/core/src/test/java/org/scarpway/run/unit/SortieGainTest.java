package org.scarpway.run.unit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.sortie.SortiePlan;

/** What more days or energy would bring is told as known only where it is. */
class SortieGainTest {
  private static SortiePlan plan(double value, double atMost) {
    return new SortiePlan(List.of(), value, atMost, 0, List.of());
  }

  @Test
  void nothingMoreIsSaidOnlyWhereItIsProven() {
    SortiePlan now = plan(5, 5);
    assertEquals(
        "One day more would bring nothing more.",
        SortiePlanning.gain("One day more", now, plan(5, 5)));
    for (SortiePlan unproven : new SortiePlan[] {null, plan(5, 6), plan(4, 7)}) {
      assertTrue(SortiePlanning.gain("One day more", now, unproven).contains("there may be one"));
    }
    assertEquals(
        "One day more would bring 2 more (7 in all).",
        SortiePlanning.gain("One day more", now, plan(7, 9)));
  }
}
