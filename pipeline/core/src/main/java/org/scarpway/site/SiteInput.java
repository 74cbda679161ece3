package org.scarpway.site;

import java.util.List;

/**
 * A candidate site with the reach results that start from it.
 *
 * @param reach results for the same questions, in the same order, for every candidate; may be empty
 */
public record SiteInput(String name, double xM, double yM, List<SiteReach> reach) {
  public SiteInput {
    reach = List.copyOf(reach);
  }
}
