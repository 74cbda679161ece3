package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.question.WhyNot;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Adds to targets that are not surely reached why they are not. */
final class TargetReasons {
  private TargetReasons() {}

  /**
   * @param targets answers, in any order
   * @param state of every cell
   */
  static List<TargetReach> of(
      ReachRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      List<TargetReach> targets,
      Bytes state,
      Workers workers,
      Progress progress) {
    List<Target> missed =
        targets.stream()
            .filter(t -> !t.reached())
            .map(t -> t.target().withStay(stayS(request, t.target())))
            .toList();
    if (missed.isEmpty()) {
      return targets;
    }
    BitSet surely = new BitSet(state.size());
    for (int cell = 0; cell < state.size(); cell++) {
      surely.set(cell, state.get(cell) == ReachState.SURELY);
    }
    WhyNotSearch search =
        new WhyNotSearch(request, ground, walkHome, surely, false, workers, progress);
    List<WhyNot> reasons = search.of(missed);
    List<TargetReach> told = new ArrayList<>();
    int next = 0;
    for (TargetReach t : targets) {
      told.add(t.reached() ? t : t.because(reasons.get(next++)));
    }
    return told;
  }

  private static double stayS(ReachRequest request, Target t) {
    return t.stayS() > 0 ? t.stayS() : request.stayS();
  }
}
