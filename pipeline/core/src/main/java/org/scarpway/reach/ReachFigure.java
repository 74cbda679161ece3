package org.scarpway.reach;

/** One line of the summary table, such as reachable area, 12.3, km2. */
public record ReachFigure(String name, double value, String unit) {}
