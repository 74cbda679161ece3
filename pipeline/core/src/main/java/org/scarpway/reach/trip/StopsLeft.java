package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReplanResult.StopLeft;

/** What is told of the remaining stops of a crew underway. */
final class StopsLeft {
  private StopsLeft() {}

  static StopLeft notReached(Target t, byte state, String end) {
    return new StopLeft(t, state, end, Double.NaN, null, false, Double.NaN);
  }

  /** The stops, with those that fit after each other by the planned way. */
  static List<StopLeft> inOrder(List<StopLeft> alone, TurnBackSearch.Found turn) {
    List<StopLeft> all = new ArrayList<>();
    for (int i = 0; i < alone.size(); i++) {
      StopLeft s = alone.get(i);
      double arriveS = i < turn.arriveS().size() ? turn.arriveS().get(i) : Double.NaN;
      boolean fits = !Double.isNaN(arriveS);
      all.add(new StopLeft(s.stop(), s.state(), s.end(), s.timeS(), s.home(), fits, arriveS));
    }
    return all;
  }
}
