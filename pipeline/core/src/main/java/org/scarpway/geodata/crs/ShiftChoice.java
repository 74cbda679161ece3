package org.scarpway.geodata.crs;

import java.util.Arrays;
import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicMask;
import org.scarpway.geodata.crs.Datums.Shift;

/**
 * The datum transformation chosen for a point among all published for it, and the one that
 * contradicts it most.
 *
 * <p>Some published records are wrong by far more than the accuracy they state. The contradiction
 * of two transformations is the distance between their results less both accuracies (0 if that is
 * negative: they agree). The transformation with the least median contradiction to the others (the
 * lower median) is chosen; ties are broken by accuracy, then by smaller area of use, then newest
 * first. So the most accurate one is chosen unless more than half of the others contradict it; if
 * there are only two and they contradict each other, neither can be shown to be right, and the more
 * accurate one is chosen. Transformations without a stated accuracy cannot contradict, and are used
 * only if there are no others.
 *
 * @param worst transformation that contradicts the chosen one most, or null if none does
 * @param offM distance (m) between the results of {@code chosen} and {@code worst}; 0 if {@code
 *     worst} is null
 */
record ShiftChoice(Shift chosen, Shift worst, double offM) {

  /** Chooses for a point; null if no transformation is published for it. */
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
    // Index 0 holds the 0 to itself: the lower median of the n - 1 others is at n / 2.
    return c[c.length / 2];
  }
}
