package org.scarpway.vehicle;

import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Memory;

/** Fields on which more is driven than the straight way, for tests of what drives on them. */
public final class DetouredFields {
  private DetouredFields() {}

  /**
   * One gradient everywhere.
   *
   * @param around length of the way around rocks over the straight way
   * @param tacked metres driven for each made good, by heading
   */
  public static TraversalCost field(
      GridSpec spec,
      double gradEast,
      double gradNorth,
      double around,
      double[] tacked,
      GradeTable table) {
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] detour = new float[n];
    TackedHeadings.Finds finds = new TackedHeadings.Finds();
    for (int i = 0; i < n; i++) {
      allowed[i] = -1;
      east[i] = (float) gradEast;
      north[i] = (float) gradNorth;
      detour[i] = (float) around;
      finds.add(i, -1, tacked);
    }
    TackedHeadings tacks = TackedHeadings.of(java.util.List.of(finds));
    return new TraversalCost(
        new Memory(), spec, allowed, east, north, null, detour, tacks, null, table);
  }
}
