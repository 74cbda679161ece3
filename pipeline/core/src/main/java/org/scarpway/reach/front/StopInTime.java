package org.scarpway.reach.front;

import org.scarpway.stage.Floats;

/**
 * Limits a front of the quickest ways out: a cell is expanded only if it is reached early enough
 * for everybody to be home in time after a stop there. An earlier arrival is never worse, in that
 * cell or later on the way. The labels are therefore the earliest arrivals of ways that comply with
 * the rule, and a cell without a label has no such way.
 */
public final class StopInTime extends AllowanceByCell {
  private final Floats stopS;
  private final double timeS;

  /**
   * @param stopS time from a stop in each cell until everybody is home (s), NaN where nobody gets
   *     home
   * @param timeS time by which everybody must be home (s)
   */
  public StopInTime(Tiling tiling, Floats stopS, double timeS) {
    super(tiling);
    this.stopS = stopS;
    this.timeS = timeS;
  }

  @Override
  double most(int cell) {
    float needed = stopS.get(cell);
    return needed < Float.POSITIVE_INFINITY ? timeS - needed : Double.NEGATIVE_INFINITY;
  }
}
