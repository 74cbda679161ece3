package org.scarpway.reach.front;

/** The terms from which {@link CostTable} computes the costs of the cells of a row on a heading. */
final class CostTerms {
  final double[] gradEast;
  final double[] gradNorth;
  final double[] capMs;
  final double[] pathRatio;
  final double[] levelJ;
  final double[] hotelW;
  final int[] soil;

  /** Index in the table, then time at the grade, then time (s/m). */
  final double[] time;

  final double[] lengthPerM;
  final double[] cost;

  CostTerms(int cells) {
    gradEast = new double[cells];
    gradNorth = new double[cells];
    capMs = new double[cells];
    pathRatio = new double[cells];
    levelJ = new double[cells];
    hotelW = new double[cells];
    soil = new int[cells];
    time = new double[cells];
    lengthPerM = new double[cells];
    cost = new double[cells];
  }
}
