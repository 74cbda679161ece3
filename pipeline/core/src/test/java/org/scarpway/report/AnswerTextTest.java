package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest.Budget;

/** Sentences of answers that a crew could take for more than they mean. */
class AnswerTextTest {
  /**
   * The hours of the whole trip are never told as those of the walk, which is told to the safe
   * side.
   */
  @Test
  void aWalkHomeIsToldWithItsOwnTime() {
    Budget budget = new Budget(36_000.0, null, null);
    assertEquals(
        " on trips within 10 h and the crew can walk home from every point of the way, in 3 h 1 min"
            + " at most",
        ReachSection.walkBackText(
            budget, List.of(new ReachFigure(ReachFigure.LONGEST_WALK, 3.001, "h")), null));
    assertEquals(
        " on trips within 10 h and the crew can walk home from every point of the way",
        ReachSection.walkBackText(budget, List.of(), null));
    Pattern told = Pattern.compile("in (?:(\\d+) h ?)?(?:(\\d+) min)? at most");
    Random random = new Random(7);
    for (int i = 0; i < 200; i++) {
      double h = 1.0 / 30 + 8 * random.nextDouble();
      String text =
          ReachSection.walkBackText(
              budget, List.of(new ReachFigure(ReachFigure.LONGEST_WALK, h, "h")), null);
      Matcher m = told.matcher(text);
      assertTrue(m.find(), text);
      double hours = m.group(1) == null ? 0 : Integer.parseInt(m.group(1));
      double saidH = hours + (m.group(2) == null ? 0 : Integer.parseInt(m.group(2))) / 60.0;
      assertTrue(saidH >= h - 1e-9 && saidH < h + 1.0 / 60, h + text);
    }
  }

  /** A walk that max_walk_km bounds says so: time alone would pass for the limit. */
  @Test
  void aWalkHomeIsToldWithTheRuleThatBoundsItsLength() {
    Budget budget = new Budget(36_000.0, null, null);
    ReachFigure time = new ReachFigure(ReachFigure.LONGEST_WALK, 1.1, "h");
    assertEquals(
        " on trips within 10 h and the crew can walk home from every point of the way, in 1 h 6 min"
            + " at most, within the 2.5 km that max_walk_km allows (2.43 km at most)",
        ReachSection.walkBackText(
            budget, List.of(time, new ReachFigure(ReachFigure.FARTHEST_WALK, 2.421, "km")), 2.5));
    assertEquals(
        " on trips within 10 h and the crew can walk home from every point of the way, within the"
            + " 12 km that max_walk_km allows",
        ReachSection.walkBackText(budget, List.of(), 12.0));
    Pattern told = Pattern.compile("the (\\S+) km that max_walk_km allows \\((\\S+) (k?m) at most");
    Random random = new Random(8);
    for (int i = 0; i < 200; i++) {
      double most = 0.5 + 20 * random.nextDouble();
      double km = most * random.nextDouble();
      String text =
          ReachSection.walkBackText(
              budget, List.of(new ReachFigure(ReachFigure.FARTHEST_WALK, km, "km")), most);
      Matcher m = told.matcher(text);
      assertTrue(m.find(), text);
      assertEquals(most, Double.parseDouble(m.group(1)), text);
      double said = Double.parseDouble(m.group(2)) / (m.group(3).equals("km") ? 1 : 1000);
      assertTrue(said >= km - 1e-9 && said < km + 0.1, km + text);
    }
  }

  /** The least margin always has its place; one of nothing is said in words, never as 0 %. */
  @Test
  void theLeastMarginHasItsPlace() {
    for (double margin : new double[] {0, 0.004, 0.006, 0.12, 1}) {
      String text = CorridorSection.marginText(point(margin));
      assertTrue(text.contains("at E 100 m, N 200 m, 1.5 km from the start"), text);
      assertFalse(text.contains(" 0 %"), text);
      assertEquals(margin < 0.005, text.contains("nothing is to spare"), text);
    }
    assertTrue(CorridorSection.marginText(point(0.12)).contains("is 12 %"));
  }

  private static ProfilePoint point(double margin) {
    return new ProfilePoint(1500, 100, 200, 0, 0, 0, 1, 0, 0, margin, 1);
  }
}
