package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.List;
import org.junit.jupiter.api.Test;

class SpellingSuggestionTest {
  private static final List<String> KEYS =
      List.of("climb_deg", "descend_deg", "side_deg", "step_m");

  /** The textbook pair of Levenshtein's distance, and one swap of neighbours. */
  @Test
  void distancesAreThoseOfTheTextbook() {
    assertEquals(3, SpellingSuggestion.distance("kitten", "sitting"));
    assertEquals(1, SpellingSuggestion.distance("setp", "step"));
    assertEquals(0, SpellingSuggestion.distance("", ""));
    assertEquals(4, SpellingSuggestion.distance("", "four"));
    assertEquals(
        SpellingSuggestion.distance("abcd", "xbdc"), SpellingSuggestion.distance("xbdc", "abcd"));
  }

  @Test
  void theNearestIsFoundAndTheFarIsNot() {
    assertEquals("climb_deg", SpellingSuggestion.to("climb_dge", KEYS));
    assertEquals("step_m", SpellingSuggestion.to("STEP_M", KEYS));
    assertNull(SpellingSuggestion.to("speed", KEYS));
    assertNull(SpellingSuggestion.to("x".repeat(100_000), KEYS));
  }

  @Test
  void theRemedyListsWhatIsKnownWhereNothingIsNear() {
    assertEquals("did you mean side_deg?", SpellingSuggestion.remedy("sid_deg", KEYS));
    assertEquals(
        "use one of climb_deg, descend_deg, side_deg, step_m",
        SpellingSuggestion.remedy("?", KEYS));
    assertEquals("remove it", SpellingSuggestion.remedy("?", List.of()));
  }
}
