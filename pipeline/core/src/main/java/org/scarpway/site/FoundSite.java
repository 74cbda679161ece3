package org.scarpway.site;

/**
 * A place that the search selected.
 *
 * @param rank 1 for the place with the largest reachable area
 * @param areaM2 upper bound on the area reachable within the time, out and home (m2)
 * @param roomM distance to the nearest no-go ground (m), infinite if there is none
 */
public record FoundSite(int rank, double xM, double yM, double areaM2, double roomM) {
  public String name() {
    return "search-" + rank;
  }
}
