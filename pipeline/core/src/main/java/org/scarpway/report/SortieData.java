package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.stage.Digits;

/**
 * The answer to a sortie of days.
 *
 * @param rings how far the crew comes by the end of each day
 * @param plan its stops and timetable; null if it has no stops to choose from
 */
public record SortieData(DayRings rings, SortieAnswer plan) {

  /** Remarks that a reviewer must know, one line each. */
  public List<String> warnings() {
    List<String> all = new ArrayList<>(rings.warnings());
    int first = rings.firstDayAtEdge();
    if (first > 0) {
      all.add(
          Digits.text(
              "the ring of day %s runs into the edge of the elevation model along %s km: what is"
                  + " reached from there on is not known, and the areas of that day and those after"
                  + " it are lower bounds",
              first, rings.edgeM().get(rings.edgeM().size() - 1) / 1000));
    }
    if (rings.request().home() == HomeRule.WALK_BACK) {
      all.add(
          Digits.text(
              "by walk-back the crew must be able to walk to a refuge from every place: that"
                  + " confines this sortie of %s days to %s km around %s and its refuges",
              rings.request().days(), farthestM() / 1000, rings.request().baseName()));
    }
    all.addAll(plan == null ? List.of() : plan.notes());
    return all;
  }

  /** Distance of the farthest place that is surely reached from the base, straight (m). */
  private double farthestM() {
    GridSpec spec = rings.state().spec();
    byte[] state = rings.state().values();
    double most = 0;
    for (int i = 0; i < state.length; i++) {
      if (DayRings.surely(state[i])) {
        double dx = spec.xM(i % spec.cols()) - rings.request().baseXM();
        double dy = spec.yM(i / spec.cols()) - rings.request().baseYM();
        most = Math.max(most, Math.hypot(dx, dy));
      }
    }
    return most;
  }
}
