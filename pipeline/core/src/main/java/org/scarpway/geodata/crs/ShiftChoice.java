package org.scarpway.geodata.crs;

import java.util.Arrays;
import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicMask;
import org.scarpway.geodata.crs.Datums.Shift;

/**
 * The transformation for a place, chosen among all that are published for it, and the one that
 * contradicts it most.
 *
 * <p>Some published records are wrong by far more than the accuracy they state. Two contradict each
 * other by the distance between the places they lead to, less both accuracies (0 if that is
 * negative: they agree). The one chosen is that with the least median contradiction to the others,
 * the lower one of two medians; among equals the more accurate one, then the one for less ground,
 * then the newer one. So the most accurate one stays unless more than half of the others are
 * against it; of two that contradict each other neither can be told to be right, and the more
 * accurate one stays. Those that state no accuracy cannot contradict, and count only where there
 * are no others.
 *
 * @param worst that contradicts the chosen one, or null if none does
 * @param offM from where the chosen one leads to where that one does, 0 without one
 */
record ShiftChoice(Shift chosen, Shift worst, double offM) {

  /** Null if none is published for the place. */
  static ShiftChoice at(MapCrs crs, Datums.Datum datum, double lonDeg, double latDeg) {
    List<Shift> all = datum.at(lonDeg, latDeg);
    if (all.isEmpty()) {
      return null;
    }
    List<Shift> stated = all.stream().filter(Shift::statesAccuracy).toList();
    if (stated.size() < 2) {
      return new ShiftChoice(all.get(0), null, 0);
    }
    double[][] offM = distances(crs, stated, lonDeg, latDeg);
    int chosen = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < offM.length; i++) {
      double median = medianContradictionM(stated, offM, i);
      if (median < least) {
        least = median;
        chosen = i;
      }
    }
    int worst = -1;
    for (int j = 0; j < offM.length; j++) {
      if (contradictionM(stated, offM, chosen, j) > 0
          && (worst < 0 || offM[chosen][j] > offM[chosen][worst])) {
        worst = j;
      }
    }
    return worst < 0
        ? new ShiftChoice(stated.get(chosen), null, 0)
        : new ShiftChoice(stated.get(chosen), stated.get(worst), offM[chosen][worst]);
  }

  private static double[][] distances(MapCrs crs, List<Shift> all, double lonDeg, double latDeg) {
    double[][] at = new double[all.size()][];
    for (int i = 0; i < at.length; i++) {
      at[i] = new double[] {lonDeg, latDeg};
      DatumTransform.by(crs.geographicPart().body(), all.get(i)).toWorld(at[i]);
    }
    double[][] offM = new double[at.length][at.length];
    for (int i = 0; i < at.length; i++) {
      for (int j = 0; j < i; j++) {
        offM[i][j] =
            Geodesic.WGS84.Inverse(at[i][1], at[i][0], at[j][1], at[j][0], GeodesicMask.DISTANCE)
                .s12;
        offM[j][i] = offM[i][j];
      }
    }
    return offM;
  }

  private static double contradictionM(List<Shift> all, double[][] offM, int i, int j) {
    return Math.max(0, offM[i][j] - all.get(i).accuracyM() - all.get(j).accuracyM());
  }

  private static double medianContradictionM(List<Shift> all, double[][] offM, int i) {
    double[] c = new double[all.size()];
    for (int j = 0; j < c.length; j++) {
      c[j] = contradictionM(all, offM, i, j);
    }
    Arrays.sort(c);
    // The 0 to itself is the first one: the lower median of the n - 1 others is at n / 2.
    return c[c.length / 2];
  }
}
