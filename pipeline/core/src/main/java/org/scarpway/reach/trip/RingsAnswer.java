package org.scarpway.reach.trip;

import org.scarpway.reach.question.DayRings;

/** Rings by day whose layers are produced row by row, so they need not all fit in memory. */
@FunctionalInterface
public interface RingsAnswer {
  /**
   * The rings with the layers of some rows.
   *
   * @param firstRow first row, inclusive
   * @param rows number of rows
   */
  DayRings rows(int firstRow, int rows);
}
