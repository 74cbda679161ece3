package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ComparisonPageTest {
  @Test
  void figuresHaveTheDigitsAndUnitsOfTheReport() {
    assertEquals(
        List.of("surely reachable area", "km²", "12", "14.7", "+2.74"),
        ComparisonPage.figures(
            List.of("surely reachable area", "km2", "11.988400", "14.729600", "+2.741200")));
    assertEquals(
        List.of("arrival", "", "2 h 5 min", "59 min", "-1 h 6 min"),
        ComparisonPage.figures(List.of("arrival", "s", "7491.2", "3510.0", "-3981.2")));
  }

  @Test
  void wordsAndGapsStayAsTheyAre() {
    List<String> row = List.of("target 7", "", "reached", "not reached: time budget", "");
    assertEquals(row, ComparisonPage.figures(row));
    assertEquals("", ComparisonPage.figures(List.of("a", "m", "", "3.0", "")).get(2));
  }

  /** A small change is no change of nothing. */
  @Test
  void smallChangesAreNotRoundedAway() {
    for (String change : List.of("-0.000400", "+0.0021", "-0.01")) {
      String told = ComparisonPage.figures(List.of("area", "km2", "1.0", "1.0", change)).get(4);
      assertTrue(Double.parseDouble(told) != 0, change + " is told as " + told);
      assertEquals(change.charAt(0), told.charAt(0));
    }
  }
}
