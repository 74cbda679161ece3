package org.scarpway.dem;

import java.util.List;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;

/**
 * A digital elevation model: heights (m) above {@code datumM}, NaN for no data. The datum is
 * subtracted in double precision before the heights become float32, so that heights measured from a
 * body's centre are resolved to a millimetre.
 *
 * @param heightM heights above the datum (m), NaN for no data
 * @param datumM height (m) that was subtracted from every height of the source
 * @param body body that carries the ground
 * @param warnings facts about the input that a reviewer must know, one line each
 */
public record Dem(FloatGrid heightM, double datumM, Body body, List<String> warnings) {
  /** Copies the warnings. */
  public Dem {
    warnings = List.copyOf(warnings);
  }
}
