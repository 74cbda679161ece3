package org.scarpway.run.ground;

import org.scarpway.run.product.OverlayRaster;

/**
 * Combines rock coverages in a cell: the largest counts. A value below 0 is not a valid coverage
 * and must not hide under the others, so it takes precedence and the job is refused.
 */
final class MostRocks implements OverlayRaster.Rule {
  static final MostRocks RULE = new MostRocks();

  private MostRocks() {}

  @Override
  public float one(float pixel) {
    return pixel;
  }

  @Override
  public float both(float some, float other) {
    float least = Math.min(some, other);
    return least < 0 ? least : Math.max(some, other);
  }
}
