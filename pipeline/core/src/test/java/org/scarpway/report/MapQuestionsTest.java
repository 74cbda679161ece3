package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.question.CorridorResult;

class MapQuestionsTest {
  /** Time and energy along a corridor are those of the stops, with the stays before them. */
  @Test
  void staysCountFromTheStopOn() {
    ReportData full = ReportFixture.full();
    CorridorResult c = full.corridors().get(0);
    var line = c.centreline();
    List<CorridorResult.Visit> visits = new ArrayList<>();
    int[] at = {0, 70, 150, line.size() - 1};
    double stayS = 0;
    double stayJ = 0;
    for (int i = 0; i < at.length; i++) {
      var p = line.get(at[i]);
      visits.add(
          new CorridorResult.Visit(
              "s" + i,
              p.xM(),
              p.yM(),
              p.timeS() + stayS,
              p.energyJ() + stayJ,
              p.distanceM(),
              i == 0 ? 0 : 600,
              i == 0 ? 0 : 3.6e6));
      stayS += i == 0 ? 0 : 600;
      stayJ += i == 0 ? 0 : 3.6e6;
    }
    CorridorResult staying =
        new CorridorResult(
            c.request(),
            c.vehicle(),
            c.excessPct(),
            c.bestCost(),
            visits,
            c.order(),
            line,
            c.turning(),
            c.pinchPoints(),
            c.besideM(),
            c.alternatives(),
            c.tradeOffs(),
            c.beyond(),
            c.warnings());
    ArrayNode told = JsonNodeFactory.instance.arrayNode();
    MapQuestions.profile(told, staying);
    for (int i = 0; i < at.length; i++) {
      JsonNode row = told.get(at[i]);
      assertEquals(visits.get(i).timeS(), row.get(2).asDouble(), 0.51, "time at stop " + i);
      assertEquals(visits.get(i).energyJ() / 3.6e6, row.get(3).asDouble(), 0.0006);
    }
    assertTrue(told.get(71).get(2).asDouble() > told.get(70).get(2).asDouble() + 590);
  }

  /** The battery limits a reach where the question gives more energy than it holds. */
  @Test
  void theSmallerOfBudgetAndBatteryIsTheLimit() {
    assertEquals(3.6e6, MapQuestions.energyJ(7.2e6, 1.0));
    assertEquals(7.2e6, MapQuestions.energyJ(7.2e6, 3.0));
    assertEquals(3.6e6, MapQuestions.energyJ(null, 1.0));
    assertEquals(7.2e6, MapQuestions.energyJ(7.2e6, null));
    assertEquals(null, MapQuestions.energyJ(null, null));
  }
}
