package org.scarpway.vehicle;

/**
 * Share of open headings on a plane slope for a vehicle with axles of different tracks, in closed
 * form: the headings of {@link HeadingWindow} less those on which it tips over an oblique edge of
 * its support polygon. Contains scratch arrays; use one instance per thread.
 */
final class SkewedWindow {
  private final TipOver tip;
  private final double[] from;
  private final double[] to;
  private int shut;

  SkewedWindow(TipOver tip) {
    this.tip = tip;
    from = new double[3 + tip.edges()];
    to = new double[from.length];
  }

  /**
   * @param t rise over run of the slope, above 0
   * @param down lowest grade allowed, usually negative
   * @param up highest grade allowed
   * @param side largest cross grade allowed
   * @param usable share of the tip-over limit that may be used
   * @return share of all headings, 0 to 1
   */
  double share(double t, double down, double up, double side, double usable) {
    shut = 0;
    // Angles from uphill to downhill on one side of the fall line; the other side mirrors them.
    shut(0, angle(up / t));
    shut(angle(down / t), Math.PI);
    if (side < t) {
      double across = Math.asin(Math.max(0, side / t));
      shut(across, Math.PI - across);
    }
    for (int i = 0; i < tip.edges(); i++) {
      double skew = tip.skew(i);
      double reach = tip.side(i) * usable / (t * Math.sqrt(1 + skew * skew));
      if (reach < 1) {
        double worst = Math.atan2(1, skew);
        double half = angle(reach);
        shut(Math.max(0, worst - half), Math.min(Math.PI, worst + half));
      }
    }
    double open = Math.PI;
    double end = 0;
    for (int i = 0; i < shut; i++) {
      open -= Math.max(0, to[i] - Math.max(end, from[i]));
      end = Math.max(end, to[i]);
    }
    return Math.max(0, open / Math.PI);
  }

  private static double angle(double cosine) {
    return Math.acos(Math.max(-1, Math.min(1, cosine)));
  }

  /** Inserts a closed range, keeping the ranges sorted by their start. */
  private void shut(double begin, double end) {
    int i = shut++;
    while (i > 0 && from[i - 1] > begin) {
      from[i] = from[i - 1];
      to[i] = to[i - 1];
      i--;
    }
    from[i] = begin;
    to[i] = end;
  }
}
