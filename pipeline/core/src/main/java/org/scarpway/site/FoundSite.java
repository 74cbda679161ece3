package org.scarpway.site;

/**
 * A place that the search kept.
 *
 * @param rank 1 for the place with the most ground in reach
 * @param areaM2 bound from above on the ground within the time, out and home
 * @param roomM to the nearest no-go ground, infinite where there is none
 */
public record FoundSite(int rank, double xM, double yM, double areaM2, double roomM) {
  public String name() {
    return "search-" + rank;
  }
}
