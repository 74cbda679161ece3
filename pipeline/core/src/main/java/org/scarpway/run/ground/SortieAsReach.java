package org.scarpway.run.ground;

import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.reach.question.ReachRequest.Budget;

/**
 * A sortie as the reach question that looks at the same ground: as much driving as all of its days
 * hold, in one piece. For estimates of time and memory.
 */
public final class SortieAsReach {
  private SortieAsReach() {}

  public static Job.ReachEntry of(Job.SortieEntry s) {
    double driveS = s.days() * Math.min(s.driveS(), s.perDayS());
    return new Job.ReachEntry(
        s.name(),
        s.from(),
        new Budget(driveS, s.energyJ(), null, s.lifeSupportS()),
        s.home(),
        List.of(),
        0,
        s.rescue(),
        s.reserves(),
        0,
        false,
        s.refuges(),
        null,
        s.vehicle(),
        s.where());
  }
}
