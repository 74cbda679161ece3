package org.scarpway.reach.front;

import org.scarpway.stage.Floats;

/**
 * A front of the quickest ways out goes on only from cells that are come to early enough for
 * everybody to be home in time if the vehicle stops there. To be somewhere earlier is never worse
 * there or later, so what it finds is the earliest that a way which keeps to the rule can be there,
 * and where it finds nothing no way does.
 */
public final class StopInTime extends AllowanceByCell {
  private final Floats stopS;
  private final double timeS;

  /**
   * @param stopS from a stop in each cell until everybody is home, NaN where nobody gets there
   * @param timeS when everybody must be home
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
