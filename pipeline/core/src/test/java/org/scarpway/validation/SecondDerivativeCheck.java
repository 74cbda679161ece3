package org.scarpway.validation;

import org.junit.jupiter.api.Test;
import org.scarpway.terrain.Curvature;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Second derivatives (1/m) behind the curvatures. Adding a plane to a window changes its gradient
 * and nothing else, so windows tilted to face a chosen way show them one at a time.
 */
class SecondDerivativeCheck {
  private static final String EVANS = "Evans 1972; Florinsky 1998";
  private static final String QUARTIC = "Zevenbergen and Thorne 1987";
  private static final double STEEP = 1;

  @Test
  void leastSquares() {
    leastSquares("W1", SlopeCheck.W1, .0133333, -.02, -.0266667);
    leastSquares("W2", SlopeCheck.W2, .02, -.005, -.01);
  }

  private static void leastSquares(String w, Ground g, double r, double s, double t) {
    float[][] own = g.gradient(SlopeMethod.EVANS_YOUNG);
    double p = own[0][4];
    double q = own[1][4];
    double one = Math.pow(1 + STEEP * STEEP, 1.5);
    double east = -one * profile(tilted(g, STEEP - p, -q));
    double north = -one * profile(tilted(g, -p, STEEP - q));
    double both = -Math.pow(1 + 2 * STEEP * STEEP, 1.5) * profile(tilted(g, STEEP - p, STEEP - q));
    Validation.near("1.2-" + w + "-evans-r", w + " d2z/dx2, 1/m", EVANS, "C", r, east, 2e-7);
    Validation.near("1.2-" + w + "-evans-t", w + " d2z/dy2, 1/m", EVANS, "C", t, north, 2e-7);
    Validation.near(
        "1.2-" + w + "-evans-s",
        w + " d2z/dxdy, 1/m",
        EVANS,
        "C",
        s,
        both - (east + north) / 2,
        4e-7);
  }

  private static double profile(Ground g) {
    float[] k = new float[9];
    Curvature.fillLeastSquares(g.heightM, 3, 3, 0, 3, g.cellXM, g.cellYM, k, null, null, null);
    return k[4];
  }

  @Test
  void quartic() {
    quartic("W1", SlopeCheck.W1, -.02, -.04, -.02);
    quartic("W2", SlopeCheck.W2, 0, -.015, -.005);
  }

  private static void quartic(String w, Ground g, double d, double e, double f) {
    float[][] own = g.gradient(SlopeMethod.ZEVENBERGEN_THORNE);
    double p = own[0][4];
    double q = own[1][4];
    double east = -quarticProfile(tilted(g, STEEP - p, -q)) / 2;
    double north = -quarticProfile(tilted(g, -p, STEEP - q)) / 2;
    double both = -quarticProfile(tilted(g, STEEP - p, STEEP - q));
    Validation.near("1.2-" + w + "-quartic-D", w + " D, 1/m", QUARTIC, "C", d, east, 2e-7);
    Validation.near("1.2-" + w + "-quartic-E", w + " E, 1/m", QUARTIC, "C", e, north, 2e-7);
    Validation.near(
        "1.2-" + w + "-quartic-F", w + " F, 1/m", QUARTIC, "C", f, both - east - north, 4e-7);
  }

  private static double quarticProfile(Ground g) {
    float[] k = new float[9];
    Curvature.fillQuartic(g.heightM, 3, 3, 0, 3, g.cellXM, g.cellYM, k, null, null);
    return k[4];
  }

  private static Ground tilted(Ground g, double east, double north) {
    float[] z = g.heightM.clone();
    for (int i = 0; i < 9; i++) {
      // Less the middle height, so that float storage does not blur the tilt.
      z[i] =
          (float)
              (g.heightM[i]
                  - g.heightM[4]
                  + east * g.cellXM * (i % 3 - 1)
                  - north * g.cellYM * (i / 3 - 1));
    }
    return new Ground(3, 3, g.cellXM, g.cellYM, z);
  }

  @Test
  void contourOfAHemisphere() {
    // The contour through (30, 40) is a circle of 50 m; cells of 1 m see it to second order.
    Ground g = Ground.of(3, 3, 1, 30, 40, (x, y) -> Math.sqrt(100 * 100 - x * x - y * y));
    float[] plan = new float[9];
    Curvature.fillLeastSquares(g.heightM, 3, 3, 0, 3, 1, 1, null, null, plan, null);
    Validation.nearRel(
        "1.3-A2-hemisphere-plan",
        "hemisphere R 100 at r = 50: curvature of the contour 1 / r, 1/m",
        EVANS,
        "C",
        1.0 / 50,
        plan[4],
        2e-4);
  }

  @Test
  void steepestDrop() {
    Ground g = SlopeCheck.W1;
    double most = 0;
    int towards = -1;
    for (int k = 0; k < 9; k++) {
      double drop = k == 4 ? 0 : GradientMethods.drop(g.heightM, 3, 4, 5, k);
      if (drop > most) {
        most = drop;
        towards = k;
      }
    }
    String source = "definition; method of the ranking only";
    Validation.near(
        "1.2-W1-steepest-drop",
        "W1 steepest single drop, rise over run",
        source,
        "C",
        .9899495,
        most,
        1e-7);
    Validation.near(
        "1.2-W1-steepest-drop-deg",
        "W1 the same, deg",
        source,
        "C",
        44.71062,
        GradientMethods.STEEPEST_DROP.slopeDeg(g.heightM, 3, 4, 5),
        1e-5);
    Validation.holds("1.2-W1-steepest-drop-sw", "towards south-west", source, "C", towards == 6);
  }
}
