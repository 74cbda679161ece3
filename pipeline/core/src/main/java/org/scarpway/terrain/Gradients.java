package org.scarpway.terrain;

import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Dispatches to the requested 3 x 3 gradient method. */
final class Gradients {
  private Gradients() {}

  /**
   * @return true if the method is one of 3 x 3 cells; otherwise nothing is computed
   */
  static boolean fill(
      SlopeMethod method,
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      double cellXM,
      double cellYM,
      float[] gradEast,
      float[] gradNorth) {
    switch (method) {
      case HORN ->
          HornGradient.fill(
              heightM, rows, cols, fromRow, toRow, cellXM, cellYM, gradEast, gradNorth);
      case ZEVENBERGEN_THORNE ->
          ZevenbergenThorneGradient.fill(
              heightM, rows, cols, fromRow, toRow, cellXM, cellYM, gradEast, gradNorth);
      case EVANS_YOUNG ->
          EvansYoungGradient.fill(
              heightM, rows, cols, fromRow, toRow, cellXM, cellYM, gradEast, gradNorth);
      case FOOTPRINT_PLANE -> {
        return false;
      }
    }
    return true;
  }
}
