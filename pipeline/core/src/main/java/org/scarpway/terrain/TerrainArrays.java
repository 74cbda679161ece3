package org.scarpway.terrain;

import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Output arrays for the derivatives of a strip; arrays that the parameters do not request are null.
 */
final class TerrainArrays {
  final float[] planeEast;
  final float[] planeNorth;
  final float[] gradEast;
  final float[] gradNorth;
  final float[] slopeDeg;
  final float[] aspectDeg;
  final float[] roughnessM;
  final float[] stepM;
  final float[] ruggednessM;
  final float[] convexityM;
  final float[] slopeSigmaDeg;
  final float[] aspectSigmaDeg;
  final float[] slopeOverLimit01;

  TerrainArrays(int cells, TerrainParams params) {
    boolean planeIsSlope = params.slope() == SlopeMethod.FOOTPRINT_PLANE;
    gradEast = new float[cells];
    gradNorth = new float[cells];
    planeEast = planeIsSlope ? gradEast : new float[cells];
    planeNorth = planeIsSlope ? gradNorth : new float[cells];
    slopeDeg = new float[cells];
    aspectDeg = new float[cells];
    roughnessM = new float[cells];
    stepM = new float[cells];
    ruggednessM = new float[cells];
    convexityM = new float[cells];
    boolean withSigma = params.verticalSigmaM() != null;
    slopeSigmaDeg = withSigma ? new float[cells] : null;
    aspectSigmaDeg = withSigma ? new float[cells] : null;
    slopeOverLimit01 = withSigma && params.slopeLimitDeg() != null ? new float[cells] : null;
  }
}
