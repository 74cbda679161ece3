package org.scarpway.reach.question;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.question.ReplanResult.TurnBack;

/** What ends a trip first is one thing, whatever asks for it. */
class ReplanResultTest {
  private static Homeward home(List<Amount> amounts) {
    return new Homeward(1, 1, 1, amounts);
  }

  private static TurnBack turn(boolean whole, String end, List<Amount> amounts) {
    return new TurnBack(0, 0, 1, 1, 1, "", "", Double.NaN, whole, end, home(amounts));
  }

  private static ReplanResult result(List<Amount> home, TurnBack turn) {
    Left nothing = new Left(null, null, null, null);
    ReplanRequest request =
        new ReplanRequest(null, 0, 0, nothing, List.of(), true, Quantity.TIME_S);
    return new ReplanResult(
        request,
        "cart",
        ReachState.SURELY,
        "",
        List.of(),
        home(home),
        false,
        List.of(),
        turn,
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  @Test
  void theFirstUsedUpIfTheTripWentOnAtTheSameRates() {
    Random random = new Random(3);
    List<String> labels =
        List.of("time budget", "life support", "energy budget", "distance budget");
    for (int i = 0; i < 1000; i++) {
      List<Amount> here = new ArrayList<>();
      List<Amount> atTurn = new ArrayList<>();
      String straight = "";
      String planned = "";
      double firstStraight = Double.POSITIVE_INFINITY;
      double firstPlanned = Double.POSITIVE_INFINITY;
      for (Consumable of : Consumable.values()) {
        double usable = 1 + 1000 * random.nextDouble();
        double reserve = 300 * random.nextDouble();
        double needed = usable * (0.01 + 0.4 * random.nextDouble());
        double usedUntilTurn = usable * 0.5 * random.nextDouble();
        here.add(new Amount(of, usable + reserve, reserve, needed));
        atTurn.add(new Amount(of, usable + reserve - usedUntilTurn, reserve, needed));
        // How many times over the trip could be made.
        if (usable / needed < firstStraight) {
          firstStraight = usable / needed;
          straight = labels.get(of.ordinal());
        }
        if (usable / (needed + usedUntilTurn) < firstPlanned) {
          firstPlanned = usable / (needed + usedUntilTurn);
          planned = labels.get(of.ordinal());
        }
      }
      assertEquals(straight, result(here, null).bindsFirst());
      assertEquals(planned, result(here, turn(true, "", atTurn)).bindsFirst());
      assertEquals(
          "rescue takes longer than the time budget",
          result(here, turn(false, "rescue takes longer than the time budget", atTurn))
              .bindsFirst());
    }
    assertEquals("", result(List.of(), null).bindsFirst());
  }
}
