package org.scarpway.site;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.PinchPoint;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.site.SiteFigures.ReachedArea;

/** Accumulates a reach result by rows, in any order, into the summary for its site. */
public final class SiteReachRows {
  /** Summarises a reach result in memory. */
  public static SiteReach of(ReachResult answer) {
    SiteReachRows rows = new SiteReachRows(answer.state().spec());
    rows.add(answer, 0);
    return rows.site();
  }

  private final GridSpec spec;
  private final List<Target> reached = new ArrayList<>();
  private String question;
  private long surely;
  private long possibly;
  private double narrowestM = Double.NaN;
  private double lostPct;

  /**
   * @param spec grid of all rows
   */
  public SiteReachRows(GridSpec spec) {
    this.spec = spec;
  }

  /**
   * @param rows result for some rows; state, gap width, targets and passages are required
   * @param firstRow index in the whole grid of their first row
   */
  public void add(ReachResult rows, int firstRow) {
    byte[] state = rows.state().values();
    float[] gapM = rows.gapWidthM().values();
    for (byte s : state) {
      surely += s == ReachState.SURELY ? 1 : 0;
      possibly += s == ReachState.POSSIBLY ? 1 : 0;
    }
    boolean first = question == null;
    question = rows.request().name();
    for (PinchPoint p : rows.passages()) {
      lostPct = Math.max(lostPct, p.behindPct());
    }
    for (TargetReach t : rows.targets()) {
      if (!t.reached()) {
        continue;
      }
      if (first) {
        reached.add(t.target());
      }
      int cell = spec.cellOf(t.target().xM(), t.target().yM()) - firstRow * spec.cols();
      float here = cell >= 0 && cell < gapM.length ? gapM[cell] : Float.NaN;
      if (!Float.isNaN(here) && !(here >= narrowestM)) {
        narrowestM = here;
      }
    }
  }

  /** Returns the summary; all rows must have been added. */
  public SiteReach site() {
    double cellM2 = spec.cellAreaM2();
    return new SiteReach(
        new ReachedArea(question, surely * cellM2, possibly * cellM2),
        reached,
        narrowestM,
        surely == 0 ? Double.NaN : lostPct);
  }
}
