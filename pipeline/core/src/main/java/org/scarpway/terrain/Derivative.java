package org.scarpway.terrain;

import java.util.Locale;
import java.util.Optional;

/**
 * Optional derivatives of the heights, beyond those that every run computes. Each has the name used
 * in job files, a unit, and the source of its method.
 */
public enum Derivative {
  PROFILE_CURVATURE("1/m", "curvature along the fall line, convex positive", Sources.FLORINSKY),
  TANGENTIAL_CURVATURE("1/m", "curvature across the fall line, convex positive", Sources.FLORINSKY),
  PLAN_CURVATURE("1/m", "curvature of the contour line, convex positive", Sources.FLORINSKY),
  MEAN_CURVATURE("1/m", "mean curvature, convex positive", Sources.FLORINSKY),
  PROFILE_CURVATURE_QUARTIC("1/m", "profile curvature by the partial quartic", Sources.QUARTIC),
  PLAN_CURVATURE_QUARTIC("1/m", "plan curvature by the partial quartic", Sources.QUARTIC),
  TOTAL_CURVATURE_QUARTIC("1/m", "total curvature by the partial quartic", Sources.QUARTIC),
  MEAN_DIFFERENCE("m", "mean absolute height difference to the neighbours", Sources.WILSON),
  TOPOGRAPHIC_POSITION("m", "height above the mean of the neighbours", Sources.WILSON),
  RANGE("m", "highest less lowest of 3 x 3 cells", Sources.WILSON),
  HEIGHT_DEVIATION("m", "standard deviation of height over 3 x 3 cells", "definition"),
  SLOPE_DEVIATION(
      "deg",
      "standard deviation of slope over 3 x 3 cells",
      "Frankel and Dolan 2007, JGR 112:F02025"),
  VECTOR_RUGGEDNESS(
      "1",
      "one less the length of the mean unit normal over 3 x 3 cells",
      "Sappington, Longshore and Thompson 2007, J. Wildl. Manage. 71(5):1419-1426"),
  LARGEST_RESIDUAL("m", "largest distance from the footprint plane", "generic least squares");

  private final String unit;
  private final String description;
  private final String source;

  Derivative(String unit, String description, String source) {
    this.unit = unit;
    this.description = description;
    this.source = source;
  }

  /** Name in job files, such as profile-curvature. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static Optional<Derivative> ofKey(String key) {
    for (Derivative d : values()) {
      if (d.key().equals(key)) {
        return Optional.of(d);
      }
    }
    return Optional.empty();
  }

  /** Readable name, such as profile curvature. */
  public String title() {
    return name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  public String unit() {
    return unit;
  }

  public String description() {
    return description;
  }

  public String source() {
    return source;
  }

  /** True if both positive and negative values are meaningful. */
  public boolean signed() {
    return unit.equals("1/m") || this == TOPOGRAPHIC_POSITION;
  }

  private static final class Sources {
    static final String FLORINSKY =
        "Evans 1972; Florinsky 1998, Int. J. Geogr. Inf. Sci. 12(1):47-61";
    static final String QUARTIC =
        "Zevenbergen and Thorne 1987, Earth Surf. Process. Landf. 12:47-56";
    static final String WILSON = "Wilson et al. 2007, Marine Geodesy 30:3-35";
  }
}
