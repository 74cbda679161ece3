package org.scarpway.site;

/**
 * How much of a reachable area hangs on one narrow passage. All cells behind the same narrowest gap
 * carry exactly its width, so the most frequent width among surely reached cells tells the gap that
 * the largest area hangs on.
 *
 * @param widthM of that gap, NaN where none is known
 * @param sharePct of the surely reached cells, NaN where there are none
 */
public record GapDependence(double widthM, double sharePct) {}
