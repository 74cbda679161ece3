package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.List;
import org.junit.jupiter.api.Test;

class NearestTest {
  private static final List<String> KEYS =
      List.of("climb_deg", "descend_deg", "side_deg", "step_m");

  /** The textbook pair of Levenshtein's distance, and one swap of neighbours. */
  @Test
  void distancesAreThoseOfTheTextbook() {
    assertEquals(3, Nearest.distance("kitten", "sitting"));
    assertEquals(1, Nearest.distance("setp", "step"));
    assertEquals(0, Nearest.distance("", ""));
    assertEquals(4, Nearest.distance("", "four"));
    assertEquals(Nearest.distance("abcd", "xbdc"), Nearest.distance("xbdc", "abcd"));
  }

  @Test
  void theNearestIsFoundAndTheFarIsNot() {
    assertEquals("climb_deg", Nearest.to("climb_dge", KEYS));
    assertEquals("step_m", Nearest.to("STEP_M", KEYS));
    assertNull(Nearest.to("speed", KEYS));
    assertNull(Nearest.to("x".repeat(100_000), KEYS));
  }

  @Test
  void theRemedyListsWhatIsKnownWhereNothingIsNear() {
    assertEquals("did you mean side_deg?", Nearest.remedy("sid_deg", KEYS));
    assertEquals("use one of climb_deg, descend_deg, side_deg, step_m", Nearest.remedy("?", KEYS));
    assertEquals("remove it", Nearest.remedy("?", List.of()));
  }
}
