package org.scarpway.hazard;

import java.util.Locale;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;

/**
 * Valid range of a raster of rock coverage.
 *
 * @param count rocks included in coverages
 * @param noData coverage assumed where the raster has none, which no ground may exceed; null for no
 *     verdict there
 */
public record RockRange(RockCount count, Double noData) {
  /** True if a coverage is valid; NaN (no coverage) always is. */
  boolean holds(float coverage) {
    return !(coverage < 0
        || coverage > most()
        || (noData != null && coverage > noData.floatValue()));
  }

  private double most() {
    return count.most() * (1 + 1e-6);
  }

  /**
   * @param source file name for the error message
   * @param of grid that row and column refer to, for the error message
   * @throws UserError if the coverage is invalid
   */
  public void require(float coverage, String source, int row, int col, String of) {
    if (holds(coverage)) {
      return;
    }
    boolean inLaw = coverage >= 0 && coverage <= most();
    throw UserError.of(
        source,
        String.format(
            Locale.ROOT,
            "rock coverage is %.4g at row %d, column %d of %s",
            coverage,
            row,
            col,
            of),
        inLaw
            ? "no more anywhere than the "
                + noData
                + " that is to count where it has no data (hazard.rock_no_data)"
            : Digits.text("0 to %s, for which the law of rocks was fitted", count.most()),
        inLaw
            ? "state the most that the ground may have, or no-verdict"
            : coverage >= 1
                ? "divide percentages by 100"
                : "state by hazard.rock_counts what it counts, or keep out of such ground");
  }
}
