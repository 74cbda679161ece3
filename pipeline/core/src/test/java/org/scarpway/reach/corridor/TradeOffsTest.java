package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.question.CorridorResult.TradeOff;

class TradeOffsTest {
  private static TradeOff way(double timeS, double energyJ, double hazardM) {
    return new TradeOff(timeS, energyJ, energyJ, hazardM, 1000, List.of(1.0, 0.0, 0.0), List.of());
  }

  /** As the report's table tells it. */
  private static double[] told(TradeOff t) {
    return new double[] {
      Double.parseDouble(String.format(Locale.ROOT, "%.2f", t.timeS() / 60)),
      Double.parseDouble(String.format(Locale.ROOT, "%.4f", t.energyJ() / 3.6e6)),
      Double.parseDouble(String.format(Locale.ROOT, "%.2f", t.hazardM()))
    };
  }

  /** Random ways that differ by about the last digit that is told. */
  @Test
  void noneLooksWorseThanAnotherInWhatIsTold() {
    Random random = new Random(5);
    int kept = 0;
    for (int k = 0; k < 300; k++) {
      List<TradeOff> ways = new ArrayList<>();
      for (int i = 0; i < 12; i++) {
        double timeS = 3000 + 0.1 * random.nextInt(60);
        double energyJ = 7.2e6 + random.nextInt(4000);
        ways.add(way(timeS, energyJ, 40 + 0.01 * random.nextInt(8)));
      }
      List<TradeOff> left = TradeOffs.undominated(ways);
      assertFalse(left.isEmpty());
      kept += left.size();
      for (int i = 0; i < left.size(); i++) {
        for (int j = 0; j < left.size(); j++) {
          double[] x = told(left.get(i));
          double[] y = told(left.get(j));
          boolean noBetter = x[0] <= y[0] && x[1] <= y[1] && x[2] <= y[2];
          assertTrue(i == j || !noBetter, left.get(i) + " beside " + left.get(j));
        }
      }
    }
    assertTrue(kept > 300, "kept " + kept);
  }

  @Test
  void waysThatTradeAreKeptQuickestFirst() {
    TradeOff quick = way(100, 9000, 5);
    TradeOff cheap = way(200, 4000, 5);
    TradeOff worse = way(210, 4000, 6);
    assertEquals(List.of(quick, cheap), TradeOffs.undominated(List.of(worse, cheap, quick)));
  }

  @Test
  void withoutAnEnergyModelTimeAndHazardCount() {
    TradeOff a = way(100, Double.NaN, 5);
    TradeOff b = way(120, Double.NaN, 4);
    TradeOff c = way(120, Double.NaN, 6);
    assertEquals(List.of(a, b), TradeOffs.undominated(List.of(a, b, c)));
  }
}
