package org.scarpway.validation;

import static org.scarpway.terrain.TerrainParams.SlopeMethod.EVANS_YOUNG;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.FOOTPRINT_PLANE;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.HORN;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.ZEVENBERGEN_THORNE;

import org.junit.jupiter.api.Test;
import org.scarpway.terrain.Footprint;
import org.scarpway.terrain.RiceGradient;
import org.scarpway.terrain.SlopeError;
import org.scarpway.terrain.SlopeError.GradientSigma;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Error of slope (deg) from the error of heights (m), white and correlated. */
class SlopeErrorCheck {
  private static final String SOURCE = "Heuvelink 1998; Hunter and Goodchild 1997";
  private static final SlopeMethod[] METHODS = {HORN, ZEVENBERGEN_THORNE, EVANS_YOUNG};

  private static GradientSigma sigma(SlopeMethod m, double cellM, double sigmaM, Double lengthM) {
    return SlopeError.gradientSigma(m, Footprint.SMALLEST, cellM, cellM, sigmaM, lengthM);
  }

  /**
   * First order is far off on level ground, but not where limits are: what lies 1.2816 of its own
   * errors below a limit is above it with one in ten, give or take sigma / (2 tan limit) of a
   * sigma.
   */
  @Test
  void firstOrderAtTheLimit() {
    for (double limitDeg : new double[] {12, 15, 20, 25}) {
      for (double sigma : new double[] {.01, .03, .05}) {
        double limit = Math.tan(Math.toRadians(limitDeg));
        double deg = limitDeg;
        for (int i = 0; i < 50; i++) {
          double t = Math.tan(Math.toRadians(deg));
          deg =
              limitDeg - 1.281552 * SlopeError.slopeSigmaDeg(t, 0, new GradientSigma(sigma, sigma));
        }
        double p = RiceGradient.exceedance(Math.tan(Math.toRadians(deg)), limit, sigma);
        Validation.near(
            "4-first-order-at-" + (int) limitDeg + "-" + sigma,
            "P(slope > "
                + (int) limitDeg
                + " deg) 1.2816 first-order errors below it, error of the gradient "
                + sigma,
            "Rice 1944",
            "C",
            .1,
            p,
            .01 + .18 * sigma / limit);
      }
    }
  }

  @Test
  void independentErrors() {
    double[] want = {.433013, .707107, .408248};
    for (int k = 0; k < 3; k++) {
      Validation.near(
          "4-white-" + METHODS[k],
          "gradient error * cell / height error",
          SOURCE,
          "C",
          want[k],
          sigma(METHODS[k], 1, 1, null).east(),
          5e-7);
    }
    double[][] cases = {{1, 20}, {.5, 5}, {1, 5}};
    double[] p = {.0216506, .0433013, .0866025};
    double[][] slope = {
      {1.20308, 1.09538, .93037}, {2.40617, 2.19076, 1.86074}, {4.81234, 4.38152, 3.72147}
    };
    double[] flatAngle = {1.55400, 3.10365, 6.17327};
    for (int c = 0; c < 3; c++) {
      GradientSigma s = sigma(HORN, cases[c][1], cases[c][0], null);
      String of = "height error " + cases[c][0] + " m, cell " + cases[c][1] + " m: ";
      String id = "4-horn-case" + (c + 1);
      Validation.near(id + "-gradient", of + "gradient error", SOURCE, "C", p[c], s.east(), 5.1e-8);
      for (int a = 0; a < 3; a++) {
        double t = Math.tan(Math.toRadians(10 * (a + 1)));
        Validation.near(
            id + "-slope" + 10 * (a + 1),
            of + "slope error at " + 10 * (a + 1) + " deg, deg",
            SOURCE,
            "C",
            slope[c][a],
            SlopeError.slopeSigmaDeg(t * .6, t * .8, s),
            5.1e-6);
      }
      Validation.near(
          id + "-flat-gradient",
          of + "mean gradient of level ground",
          "Rice 1944",
          "C",
          Math.sqrt(3) / 4 * cases[c][0] / cases[c][1] * Math.sqrt(Math.PI / 2),
          RiceGradient.mean(0, s.mean()),
          1e-12);
      Validation.near(
          id + "-flat-angle",
          of + "mean slope of level ground, deg",
          "Rice 1944",
          "C",
          flatAngle[c],
          RiceGradient.meanSlopeOfLevelDeg(s.mean()),
          1e-5);
    }
    double t = Math.tan(Math.toRadians(20));
    Validation.near(
        "4-aspect",
        "aspect error at 20 deg: gradient error / tan S, deg",
        SOURCE,
        "C",
        Math.toDegrees(.0216506 / t),
        SlopeError.aspectSigmaDeg(t, 0, sigma(HORN, 20, 1, null)),
        1e-4);
  }

  @Test
  void correlatedErrors() {
    double[] lengths = {1, 2, 5, 10};
    double[][] want = {
      {.481808, .442970, .336218, .253689},
      {.657520, .562192, .406005, .301056},
      {.458891, .425854, .325835, .246624}
    };
    for (int m = 0; m < 3; m++) {
      for (int a = 0; a < 4; a++) {
        Validation.near(
            "4-corr-" + METHODS[m] + "-" + (int) lengths[a],
            "gradient error * cell / height error, correlation over " + (int) lengths[a] + " cells",
            "Oksanen and Sarjakoski 2005 (approach)",
            "C",
            want[m][a],
            sigma(METHODS[m], 5, 1, 5 * lengths[a]).east() * 5,
            1e-6);
      }
    }
    for (double length : new double[] {.3, .77, 3.3, 47}) {
      Validation.near(
          "4-corr-zt-closed-" + length,
          "four neighbours, correlation over " + length + " cells: sqrt((1 - rho(2h)) / 2)",
          SOURCE,
          "C",
          Math.sqrt((1 - Math.exp(-2 / length)) / 2),
          sigma(ZEVENBERGEN_THORNE, 1, 1, length).north(),
          1e-12);
    }
    Validation.holds(
        "4-corr-trap",
        "correlation over a cell makes the Horn error larger, over ten smaller",
        SOURCE,
        "C",
        sigma(HORN, 1, 1, 1.0).east() > sigma(HORN, 1, 1, null).east()
            && sigma(HORN, 1, 1, 10.0).east() < sigma(HORN, 1, 1, null).east());
    // The plane over 3 x 3 cells is the equal-weight gradient, so both ways of summing must agree.
    for (Double length : new Double[] {null, 1.0, 7.0}) {
      GradientSigma plane =
          SlopeError.gradientSigma(FOOTPRINT_PLANE, Footprint.SMALLEST, 2, 3, .4, length);
      GradientSigma evans =
          SlopeError.gradientSigma(EVANS_YOUNG, Footprint.SMALLEST, 2, 3, .4, length);
      String id = "4-plane-" + length;
      Validation.nearRel(
          id + "-east",
          "plane over 3 x 3, cells 2 x 3 m, east",
          SOURCE,
          "C",
          evans.east(),
          plane.east(),
          1e-12);
      Validation.nearRel(
          id + "-north",
          "plane over 3 x 3, cells 2 x 3 m, north",
          SOURCE,
          "C",
          evans.north(),
          plane.north(),
          1e-12);
    }
  }

  @Test
  void levelGroundLooksSloping() {
    String rice = "Rice 1944; Rayleigh";
    Validation.near(
        "4-flat-median",
        "median gradient / sigma",
        rice,
        "C",
        Math.sqrt(2 * Math.log(2)),
        RiceGradient.quantileOfLevel(1, .5),
        1e-12);
    Validation.near(
        "4-flat-95",
        "95 % of level ground stays below, / sigma",
        rice,
        "C",
        2.447747,
        RiceGradient.quantileOfLevel(1, .95),
        5e-7);
    double[] limits = {.5, 1, 2, 3};
    for (double l : limits) {
      Validation.near(
          "4-exceed-level-" + l,
          "P(gradient > " + l + " sigma) on level ground",
          rice,
          "C",
          Math.exp(-l * l / 2),
          RiceGradient.exceedance(0, l, 1),
          1e-9);
    }
    // P(X > b), X2 noncentral chi-square with 2 degrees of freedom: sum over Poisson terms.
    double[][] cases = {{1, 2}, {3, 2}, {2.5, 2.5}, {6, 4}, {.3, 5}};
    for (double[] c : cases) {
      Validation.near(
          "4-exceed-" + c[0] + "-" + c[1],
          "P(gradient > " + c[1] + ") where the true one is " + c[0] + ", sigma 1",
          "noncentral chi-square series (Abramowitz and Stegun 26.4.25)",
          "C",
          chiSquareTail(c[0], c[1]),
          RiceGradient.exceedance(c[0], c[1], 1),
          1e-8);
    }
    // Mean by integrating the exceedance.
    double sum = 0;
    for (double l = .0005; l < 12; l += .001) {
      sum += .001 * RiceGradient.exceedance(1.5, l, 1);
    }
    Validation.near(
        "4-rice-mean",
        "mean gradient where the true one is 1.5 sigma",
        rice,
        "C",
        sum,
        RiceGradient.mean(1.5, 1),
        1e-4);
  }

  private static double chiSquareTail(double a, double b) {
    double poissonA = Math.exp(-a * a / 2);
    double below = 0;
    for (int j = 0; j < 200; j++) {
      double poissonB = Math.exp(-b * b / 2);
      double tail = 0;
      for (int i = 0; i <= j; i++) {
        tail += poissonB;
        poissonB *= b * b / 2 / (i + 1);
      }
      below += poissonA * (1 - tail);
      poissonA *= a * a / 2 / (j + 1);
    }
    return 1 - below;
  }

  @Test
  void againstSimulation() {
    // Level ground under independent errors, measured with the kernel itself.
    Ground g = Ground.noise(1000, 1000, 1, 21);
    for (int k = 0; k < 3; k++) {
      float[][] grad = g.gradient(METHODS[k]);
      double sum = 0;
      int n = 0;
      for (float v : grad[0]) {
        if (!Float.isNaN(v)) {
          sum += (double) v * v;
          n++;
        }
      }
      Validation.nearRel(
          "4-simulated-" + METHODS[k],
          "gradient error of a million simulated cells",
          SOURCE,
          "C",
          sigma(METHODS[k], 1, 1, null).east(),
          Math.sqrt(sum / n),
          0.005);
    }
  }
}
