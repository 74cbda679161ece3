package org.scarpway.site;

import java.util.Arrays;
import java.util.Optional;

/**
 * Figures by which candidate sites are compared. The key is the name in job files and table
 * headers.
 */
public enum SiteFigure {
  MEAN_SLOPE("mean_slope_deg", "mean slope in the ellipse", "deg", false),
  STEEP_SLOPE("slope_95_deg", "slope that 95 % of the ellipse stays under", "deg", false),
  MEAN_HAZARD("mean_hazard", "mean hazard in the ellipse", "1", false),
  NO_HAZARD("p_no_hazard", "probability of a touchdown without hazard", "1", true),
  REACH_AREA("reach_km2", "area surely reached, mean of the reach questions", "km2", true),
  TARGETS("targets", "targets reached by any reach question", "count", true),
  TARGET_WEIGHT("target_weight", "summed weight of these targets", "1", true),
  NO_GO_DISTANCE("no_go_distance_m", "distance to the nearest no-go ground", "m", true),
  GAP_WIDTH("gap_width_m", "narrowest gap on the way home from a reached target", "m", true),
  SINGLE_GAP_SHARE(
      "single_gap_pct", "largest share of the reach lost by closing one passage", "%", false);

  private final String key;
  private final String label;
  private final String unit;
  private final boolean moreIsBetter;

  SiteFigure(String key, String label, String unit, boolean moreIsBetter) {
    this.key = key;
    this.label = label;
    this.unit = unit;
    this.moreIsBetter = moreIsBetter;
  }

  public String key() {
    return key;
  }

  public String label() {
    return label;
  }

  public String unit() {
    return unit;
  }

  public boolean moreIsBetter() {
    return moreIsBetter;
  }

  public static Optional<SiteFigure> ofKey(String key) {
    return Arrays.stream(values()).filter(f -> f.key.equals(key)).findFirst();
  }
}
