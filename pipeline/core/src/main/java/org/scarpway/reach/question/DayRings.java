package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.grid.ByteGrid;

/**
 * The answer to a {@link DayRingsRequest}: per cell the day of arrival on a trip that is home by
 * the last day.
 *
 * @param request the request that was solved
 * @param vehicle name of the vehicle
 * @param day day of arrival, counted from 1, on a trip that is surely home in time, else on the
 *     quickest way; 0 where the place is not reached
 * @param state 1 surely, 2 possibly, {@link #AT_EDGE} surely and at the edge of the elevation
 *     model, 0 not reached
 * @param lastNight last night that may be spent in a cell that is surely reached and home still be
 *     reached in time; 0 for none; null by home rules that ask more than the way home
 * @param surelyM2 plan area that is surely reached by the end of each day (m2)
 * @param possiblyM2 plan area that is possibly reached in addition (m2)
 * @param edgeM length of the edge of the elevation model that is surely reached by the end of each
 *     day (m)
 * @param warnings remarks that a reviewer must know, one line each
 */
public record DayRings(
    DayRingsRequest request,
    String vehicle,
    ByteGrid day,
    ByteGrid state,
    ByteGrid lastNight,
    List<Double> surelyM2,
    double possiblyM2,
    List<Double> edgeM,
    List<String> warnings) {
  /** State code of cells at the edge of the elevation model that are surely reached. */
  public static final byte AT_EDGE = 3;

  /** Copies the lists. */
  public DayRings {
    surelyM2 = List.copyOf(surelyM2);
    edgeM = List.copyOf(edgeM);
    warnings = List.copyOf(warnings);
  }

  /** True if a state code means surely reached. */
  public static boolean surely(byte state) {
    return state == ReachState.SURELY || state == AT_EDGE;
  }

  /** First day whose ring runs into the edge of the elevation model; 0 if none does. */
  public int firstDayAtEdge() {
    for (int k = 0; k < edgeM.size(); k++) {
      if (edgeM.get(k) > 0) {
        return k + 1;
      }
    }
    return 0;
  }
}
