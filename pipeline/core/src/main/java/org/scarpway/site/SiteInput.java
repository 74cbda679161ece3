package org.scarpway.site;

import java.util.List;

/**
 * A candidate with what the answers that start from it say.
 *
 * @param reach answers to the same questions, in the same order, for every candidate; may be empty
 */
public record SiteInput(String name, double xM, double yM, List<SiteReach> reach) {
  public SiteInput {
    reach = List.copyOf(reach);
  }
}
