package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalTime;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.survey.DepartureClock;
import org.scarpway.report.CrewSheetData.TurnBack;

class CrewSheetDataTest {
  private static CrewSheetData departing(String clock) {
    GridSpec spec = new GridSpec(2, 2, 1, 1, 0, 2, "");
    FloatGrid none = FloatGrid.empty(spec);
    return new CrewSheetData(
        null,
        null,
        List.of(),
        DepartureClock.parse(clock),
        "",
        none,
        none,
        none,
        ByteGrid.empty(spec),
        1,
        LonLat.NONE,
        null);
  }

  /** No deadline reads as earlier than the plan at its place, and none is later than it is. */
  @Test
  void deadlinesInTimeNeverReadAsMissed() {
    Random random = new Random(20);
    int atOnce = 0;
    for (int i = 0; i < 2000; i++) {
      boolean seconds = i % 3 == 0;
      LocalTime from = LocalTime.of(6, random.nextInt(60), seconds ? random.nextInt(60) : 0);
      CrewSheetData data = departing(from.toString());
      double arrivesS = 3600 * random.nextDouble();
      double inHandS = (i % 2 == 0 ? 150 : 7200) * random.nextDouble();
      Turn t = new Turn(true, arrivesS + inHandS, "time budget", false, null);
      String by = data.turnBackBy(new TurnBack(null, t), arrivesS);
      if (by.startsWith("at once, ")) {
        atOnce++;
        double said = Double.parseDouble(by.split(" ")[2]);
        assertTrue(said <= inHandS + 1e-6 && said > inHandS - 1 - 1e-6, by + ": " + inHandS);
      } else {
        LocalTime deadline = LocalTime.parse(by);
        assertTrue(!deadline.isBefore(LocalTime.parse(data.departs().notEarlier(arrivesS))), by);
        double latestS = deadline.toSecondOfDay() - from.toSecondOfDay();
        assertTrue(latestS <= arrivesS + inHandS + 1e-5, by);
      }
    }
    assertTrue(atOnce > 300, atOnce + " at once");
  }

  @Test
  void nobodyTurnsForHomeAtHome() {
    CrewSheetData data = departing("06:00");
    Turn home = new Turn(true, 1800, "time budget", true, null);
    assertEquals("–", data.turnBackBy(new TurnBack(null, home), 1200));
    Turn late = new Turn(false, Double.NaN, "time budget", true, null);
    assertEquals("NONE", data.turnBackBy(new TurnBack(null, late), 1200));
  }
}
