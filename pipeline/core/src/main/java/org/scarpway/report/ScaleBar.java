package org.scarpway.report;

/**
 * A scale bar of a round length, at most three tenths of the map's width.
 *
 * @param percent length of the bar in percent of the map's width
 */
record ScaleBar(double lengthM, String label, String percent) {
  private static final double MOST = 0.3;

  static ScaleBar of(double widthM) {
    double lengthM = Ticks.roundBelow(MOST * widthM);
    String label =
        lengthM < 1000 ? Figures.plain(lengthM) + " m" : Figures.plain(lengthM / 1000) + " km";
    return new ScaleBar(lengthM, label, Figures.fixed(100 * lengthM / widthM, 3));
  }
}
