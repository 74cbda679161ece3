package org.scarpway.site;

/**
 * Parameters of the site search.
 *
 * @param spacingM spacing of the lattice of places (m)
 * @param timeS duration of a trip, out and home (s)
 * @param clearM minimum distance of a place to no-go ground (m)
 * @param keep maximum number of places selected
 * @param apartM minimum distance between two of them (m)
 */
public record SearchParams(double spacingM, double timeS, double clearM, int keep, double apartM) {
  public SearchParams {
    if (!(spacingM > 0) || !(timeS > 0) || !(clearM >= 0) || keep < 1 || !(apartM >= 0)) {
      throw new IllegalArgumentException(
          "search of " + keep + " places " + spacingM + " m apart in " + timeS + " s");
    }
  }
}
