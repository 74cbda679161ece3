package org.scarpway.site;

import java.util.EnumMap;
import java.util.Map;

/**
 * Parameters of the site comparison.
 *
 * @param longM full long axis (m) of the landing ellipse, which contains 99 % of touchdowns
 * @param shortM full short axis (m)
 * @param azimuthDeg azimuth of the long axis, clockwise from true north, 0 to 180, since an axis
 *     has no direction
 * @param weights weights per figure, 0 or more; a figure that is absent is ignored; empty weights
 *     all figures equally
 */
public record SiteParams(
    double longM, double shortM, double azimuthDeg, Map<SiteFigure, Double> weights) {
  public SiteParams {
    if (!(shortM > 0) || !(longM >= shortM) || !Double.isFinite(longM)) {
      throw new IllegalArgumentException(
          "ellipse axes must be positive, long before short, got " + longM + " and " + shortM);
    }
    if (!(azimuthDeg >= 0 && azimuthDeg <= 180)) {
      throw new IllegalArgumentException("azimuth must be 0 to 180 degrees, got " + azimuthDeg);
    }
    EnumMap<SiteFigure, Double> all = new EnumMap<>(SiteFigure.class);
    double sum = 0;
    for (SiteFigure f : SiteFigure.values()) {
      double w = weights.isEmpty() ? 1.0 : weights.getOrDefault(f, 0.0);
      if (!(w >= 0) || !Double.isFinite(w)) {
        throw new IllegalArgumentException("weight of " + f.key() + " must be 0 or more, got " + w);
      }
      all.put(f, w);
      sum += w;
    }
    if (sum == 0) {
      throw new IllegalArgumentException("at least one weight must be above 0");
    }
    weights = Map.copyOf(all);
  }
}
