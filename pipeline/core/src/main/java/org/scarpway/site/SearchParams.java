package org.scarpway.site;

/**
 * How places are looked for.
 *
 * @param spacingM between places
 * @param timeS of a trip, out and home
 * @param clearM room to no-go ground that a place must have
 * @param keep how many places at most
 * @param apartM least distance between two of them
 */
public record SearchParams(double spacingM, double timeS, double clearM, int keep, double apartM) {
  public SearchParams {
    if (!(spacingM > 0) || !(timeS > 0) || !(clearM >= 0) || keep < 1 || !(apartM >= 0)) {
      throw new IllegalArgumentException(
          "search of " + keep + " places " + spacingM + " m apart in " + timeS + " s");
    }
  }
}
