package org.scarpway.site;

import java.util.List;
import org.scarpway.reach.ReachResult;
import org.scarpway.vehicle.Mobility;

/**
 * A candidate with the answers that start from it.
 *
 * @param mobility of the vehicle whose no-go ground counts
 * @param reach answers to the same questions, in the same order, for every candidate; may be empty
 */
public record SiteInput(
    String name, double xM, double yM, Mobility mobility, List<ReachResult> reach) {
  public SiteInput {
    reach = List.copyOf(reach);
  }
}
