package org.scarpway.bench;

import org.scarpway.terrain.SlopeAspect;

/** Slope without aspect, as programs that are compared with give it. */
final class SlopeAlone {
  private SlopeAlone() {}

  static void fill(
      float[] gradEast, float[] gradNorth, int cols, int fromRow, int toRow, float[] slopeDeg) {
    for (int i = fromRow * cols; i < toRow * cols; i++) {
      double east = gradEast[i];
      double north = gradNorth[i];
      slopeDeg[i] = (float) SlopeAspect.slopeDeg(Math.sqrt(east * east + north * north));
    }
  }
}
