package org.scarpway.validation;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.terrain.Footprint;
import org.scarpway.terrain.FootprintPlane;
import org.scarpway.terrain.HeightScale;
import org.scarpway.terrain.MedianDifferentialSlope;
import org.scarpway.terrain.RileyRuggedness;
import org.scarpway.terrain.RmsDeviation;
import org.scarpway.terrain.SelfAffine;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.VectorRuggedness;
import org.scarpway.terrain.WilsonRuggedness;
import org.scarpway.terrain.WindowDeviation;

/** Ruggedness and roughness (m), vector ruggedness, RMS deviation, Hurst exponent. */
class RuggednessCheck {
  private static final String RILEY = "Riley, DeGloria and Elliot 1999";
  private static final String WILSON = "Wilson et al. 2007";
  private static final String SHEPARD = "Shepard et al. 2001";

  /** Riley, Wilson mean, position, range, plane RMS, largest residual of every cell. */
  private static float[][] all(Ground g) {
    float[][] out = new float[8][g.heightM.length];
    RileyRuggedness.fill(g.heightM, g.rows, g.cols, 0, g.rows, out[0]);
    WilsonRuggedness.fill(g.heightM, g.rows, g.cols, 0, g.rows, out[1], out[2], out[3]);
    Footprint f = Footprint.SMALLEST;
    FootprintPlane.fill(
        g.heightM,
        g.rows,
        g.cols,
        0,
        g.rows,
        f,
        HeightScale.of(-1000, 1000, f),
        g.cellXM,
        g.cellYM,
        out[6],
        out[7],
        out[4]);
    FootprintPlane.fillLargestResidual(
        g.heightM, g.rows, g.cols, 0, g.rows, f, g.cellXM, g.cellYM, out[6], out[7], out[5]);
    return out;
  }

  private static void window(String w, Ground g, double... want) {
    String[] names = {"riley", "wilson", "position", "range", "plane-rms", "largest-residual"};
    String[] sources = {
      RILEY, WILSON, WILSON, WILSON, "least squares, N in the denominator", "least squares"
    };
    float[][] got = all(g);
    for (int k = 0; k < want.length; k++) {
      Validation.near(
          "2-" + w + "-" + names[k],
          w + " " + names[k].replace('-', ' ') + ", m",
          sources[k],
          k < 4 ? "R" : "C",
          want[k],
          got[k][g.centre()],
          1.5e-6);
    }
  }

  @Test
  void workedWindows() {
    window("W1", SlopeCheck.W1, 10.816654, 3.375, 0.625, 12, .477907, .722222);
    window("W2", SlopeCheck.W2, 10.049876, 3.125, 0.375, 11, .757677, 1.5);
    window("W3", SlopeCheck.W3, 28.284271, 10, 10, 10, 3.142697);
    window("W4", SlopeCheck.W4, 10, 1.25, -1.25, 10, 2.832789);
  }

  @Test
  void tiltedPlane() {
    double t = Math.tan(Math.toRadians(20));
    double worstRiley = 0;
    double worstRms = 0;
    for (int azimuth = 0; azimuth < 360; azimuth += 15) {
      double a = Math.toRadians(azimuth);
      float[][] got =
          all(Ground.of(3, 3, 10, 0, 0, (x, y) -> t * (x * Math.sin(a) + y * Math.cos(a))));
      worstRiley = Math.max(worstRiley, Math.abs(got[0][4] - 8.915414));
      worstRms = Math.max(worstRms, got[4][4]);
    }
    Validation.near(
        "2-plane-riley",
        "plane 20 deg, 10 m: sqrt(6) h tan S on every azimuth, largest error, m",
        RILEY,
        "C",
        0,
        worstRiley,
        2e-6);
    Validation.near(
        "2-plane-residual",
        "plane residual RMS of a tilted plane, m (float heights)",
        "least squares",
        "C",
        0,
        worstRms,
        1e-6);
    float[][] axis = all(Ground.of(3, 3, 10, 0, 0, (x, y) -> t * x));
    float[][] diagonal = all(Ground.of(3, 3, 10, 0, 0, (x, y) -> t * (x + y) / Math.sqrt(2)));
    Validation.near(
        "2-plane-wilson-axis",
        "plane 20 deg along an axis, m",
        WILSON,
        "C",
        2.729777,
        axis[1][4],
        1e-6);
    Validation.near(
        "2-plane-wilson-45",
        "plane 20 deg at 45 deg, m",
        WILSON,
        "C",
        2.573658,
        diagonal[1][4],
        1e-6);
    Validation.near(
        "2-plane-range-axis", "range, along an axis, m", WILSON, "C", 7.279405, axis[3][4], 1e-6);
    Validation.near(
        "2-plane-range-45", "range, at 45 deg, m", WILSON, "C", 10.294633, diagonal[3][4], 2e-6);
  }

  @Test
  void vectorRuggedness() {
    String source = "Sappington, Longshore and Thompson 2007";
    double t = Math.tan(Math.toRadians(30));
    Ground roof = Ground.of(9, 9, 1, 0, 0, (x, y) -> -Math.abs(x) * t);
    Validation.near(
        "2-vrm-roof-3", "roof of 30 deg, 3 x 3", source, "C", 0.0893164, vrm(roof, 1), 1e-6);
    Validation.near(
        "2-vrm-roof-5", "roof of 30 deg, 5 x 5", source, "C", 0.1071797, vrm(roof, 2), 1e-6);
    Ground plane = Ground.of(9, 9, 1, 0, 0, (x, y) -> t * x);
    Validation.near("2-vrm-plane", "tilted plane", source, "C", 0, vrm(plane, 2), 1e-7);
  }

  private static double vrm(Ground g, int radius) {
    float[][] grad = g.gradient(SlopeMethod.HORN);
    float[] out = new float[g.heightM.length];
    VectorRuggedness.fill(grad[0], grad[1], g.rows, g.cols, 0, g.rows, radius, out);
    return out[g.centre()];
  }

  @Test
  void halfAndHalf() {
    // Two facets of S each way, 500 columns of the one and 501 of the other: 1 - cos S to 5e-7.
    int side = 1001;
    double[] slopes = {10, 20, 45};
    double[] want = {.0151922, .0603074, .2928932};
    for (int k = 0; k < 3; k++) {
      float[] east = new float[side * side];
      float t = (float) Math.tan(Math.toRadians(slopes[k]));
      for (int i = 0; i < east.length; i++) {
        east[i] = i % side < side / 2 ? t : -t;
      }
      float[] out = new float[east.length];
      int middle = side / 2;
      VectorRuggedness.fill(
          east, new float[east.length], side, side, middle, middle + 1, middle, out);
      Validation.near(
          "2-vrm-half-" + (int) slopes[k],
          "facets of " + (int) slopes[k] + " deg each way, half and half: 1 - cos S",
          "Sappington, Longshore and Thompson 2007",
          "C",
          want[k],
          out[middle * side + middle],
          1e-6);
    }
  }

  @Test
  void standardDeviations() {
    String definition = "definition, N in the denominator";
    Ground[] windows = {SlopeCheck.W1, SlopeCheck.W2};
    double[] population = {3.562493, 3.333333};
    double[] sample = {3.778595, 3.535534};
    for (int k = 0; k < 2; k++) {
      Ground g = windows[k];
      String w = "W" + (k + 1);
      float[] out = new float[9];
      WindowDeviation.fill(g.heightM, 3, 3, 0, 3, out);
      Validation.near(
          "2-" + w + "-sd",
          w + " standard deviation, m",
          definition,
          "C",
          population[k],
          out[4],
          1e-6);
      Validation.near(
          "2-" + w + "-sd-sample",
          w + " the same with N - 1, by the factor sqrt(9/8), m",
          definition,
          "C",
          sample[k],
          out[4] * Math.sqrt(9.0 / 8),
          1e-6);
      // Variance = that of the plane + that about it; only with N in every denominator.
      float[][] got = all(g);
      double step = g.cellXM * g.cellXM * 6 / 9;
      double p = got[6][4];
      double q = got[7][4];
      Validation.near(
          "11-3-population-" + w,
          w + " footprint roughness divides by N, not N - 1: variance of plane and residual, m2",
          definition,
          "C",
          population[k] * population[k],
          got[4][4] * got[4][4] + (p * p + q * q) * step,
          2e-5);
    }
    double t = Math.tan(Math.toRadians(30));
    Ground roof = Ground.of(9, 9, 1, 0, 0, (x, y) -> -Math.abs(x) * t);
    float[] slope = roof.slopeAspect(SlopeMethod.HORN)[0];
    float[] out = new float[81];
    WindowDeviation.fill(slope, 9, 9, 0, 9, out);
    String source = "Frankel and Dolan 2007 (approach, from memory)";
    Validation.near(
        "2-roof-slope-sd",
        "roof of 30 deg: standard deviation of slope at the crest, deg",
        source,
        "C",
        14.1421,
        out[roof.centre()],
        5e-5);
    Validation.near(
        "2-roof-slope-sd-sample",
        "the same with N - 1, by the factor sqrt(9/8), deg",
        source,
        "C",
        15.0,
        out[roof.centre()] * Math.sqrt(9.0 / 8),
        5e-5);
  }

  @Test
  void planeCoefficients() {
    // The plane's value at the centre is the mean of the nine heights.
    float[][] got = all(SlopeCheck.W1);
    Validation.near(
        "2-W1-plane-east", "W1 plane, east", "least squares", "C", .7666667, got[6][4], 1e-7);
    Validation.near(
        "2-W1-plane-north", "W1 plane, north", "least squares", "C", .4, got[7][4], 1e-7);
    Validation.near(
        "2-W1-plane-mean",
        "W1 plane at the centre, by height less position over the mean of all nine, m",
        "least squares",
        "C",
        13.444444,
        SlopeCheck.W1.heightM[4] - got[2][4] * 8 / 9,
        1e-6);
  }

  @Test
  void whiteNoise() {
    Ground g = Ground.noise(1000, 1000, 1, 5);
    float[][] got = all(g);
    Validation.nearRel(
        "2-noise-riley", "white noise 1 m: RMS of the index, m", RILEY, "C", 4, rms(got[0]), 0.01);
    Validation.nearRel(
        "2-noise-wilson", "white noise: mean, m", WILSON, "C", 1.128379, mean(got[1]), 0.01);
    Validation.nearRel(
        "2-noise-position",
        "white noise: deviation of position, m",
        WILSON,
        "C",
        1.060660,
        rms(got[2]),
        0.01);
    Validation.nearRel(
        "2-noise-range", "white noise: mean range of 9, m", WILSON, "C", 2.970, mean(got[3]), 0.01);
    double rms = rms(got[4]);
    Validation.nearRel(
        "2-noise-plane",
        "white noise: mean square residual, m2 (6/9)",
        "least squares",
        "C",
        6.0 / 9,
        rms * rms,
        0.01);
  }

  private static double mean(float[] values) {
    double sum = 0;
    int n = 0;
    for (float v : values) {
      if (!Float.isNaN(v)) {
        sum += v;
        n++;
      }
    }
    return sum / n;
  }

  private static double rms(float[] values) {
    double sum = 0;
    int n = 0;
    for (float v : values) {
      if (!Float.isNaN(v)) {
        sum += (double) v * v;
        n++;
      }
    }
    return Math.sqrt(sum / n);
  }

  @Test
  void sinusoid() {
    Ground wave = Ground.of(1, 10_001, 1, 0, 0, (x, y) -> Math.sin(2 * Math.PI * x / 100));
    int[] lags = {5, 10, 25, 50};
    double[] want = {.221232, .437016, 1.0, 1.414214};
    for (int k = 0; k < lags.length; k++) {
      // Whole waves only, so that the mean square is exact.
      float[] whole = Arrays.copyOf(wave.heightM, 10_000);
      Validation.nearRel(
          "2-wave-deviation-" + lags[k],
          "sine of 1 m, 100 m: RMS deviation at " + lags[k] + " m, m",
          SHEPARD,
          "C",
          want[k],
          RmsDeviation.of(whole, 1, whole.length, 0, lags[k]),
          1e-3);
    }
    int[] baselines = {5, 10, 20, 50};
    double[] mds = {.00054475, .00213891, .00793777, .02828427};
    for (int k = 0; k < baselines.length; k++) {
      // Half baselines must be whole cells.
      Ground fine =
          Ground.of(1, 40_001, 0.5, 0, 0, (x, y) -> Math.sin(2 * Math.PI * x / 100 + 0.1234));
      Validation.nearRel(
          "2-wave-mds-" + baselines[k],
          "sine of 1 m, 100 m: median differential slope at " + baselines[k] + " m",
          "Kreslavsky and Head 2000",
          "C",
          mds[k],
          MedianDifferentialSlope.of(fine.heightM, 1, fine.cols, 0, baselines[k], baselines[k], 1),
          5e-3);
    }
    Ground ramp = Ground.of(1, 200, 1, 0, 0, (x, y) -> 0.25 * x);
    Validation.near(
        "2-plane-mds",
        "median differential slope of a ramp",
        "Kreslavsky and Head 2000",
        "C",
        0,
        MedianDifferentialSlope.of(ramp.heightM, 1, 200, 0, 2, 4, 1),
        1e-9);
  }

  @Test
  void hurstExponent() {
    Ground ramp = Ground.of(1, 4000, 1, 0, 0, (x, y) -> 0.125 * x);
    Validation.near(
        "2-hurst-ramp", "Hurst exponent of a ramp", SHEPARD, "C", 1, fit(ramp).hurst(), 1e-6);
    int n = 2_000_000;
    float[] walk = new float[n];
    Random random = new Random(3);
    double z = 0;
    for (int i = 0; i < n; i++) {
      z += random.nextGaussian();
      walk[i] = (float) z;
    }
    Validation.near(
        "2-hurst-brown",
        "Hurst exponent of a random walk",
        SHEPARD,
        "C",
        0.5,
        fit(new Ground(1, n, 1, 1, walk)).hurst(),
        0.01);
    Validation.near(
        "2-hurst-noise",
        "Hurst exponent of white noise",
        SHEPARD,
        "C",
        0,
        fit(Ground.noise(1, n, 1, 4)).hurst(),
        0.01);
    double[] lags = {1, 2, 4, 8};
    double[] deviations = new double[4];
    for (int k = 0; k < 4; k++) {
      deviations[k] = 0.1 * Math.pow(lags[k], 0.7);
    }
    SelfAffine law = SelfAffine.fit(lags, deviations);
    Validation.near(
        "2-hurst-law-10",
        "H 0.7, 0.1 m at 1 m: deviation at 10 m, m",
        SHEPARD,
        "C",
        .501187,
        law.deviationM(10),
        1e-6);
    Validation.near(
        "2-hurst-slope-1",
        "the same: RMS slope at 1 m, deg",
        SHEPARD,
        "C",
        5.71059,
        Math.toDegrees(Math.atan(law.deviationM(1))),
        1e-5);
    Validation.near(
        "2-hurst-slope-10",
        "the same: RMS slope at 10 m, deg",
        SHEPARD,
        "C",
        2.86919,
        Math.toDegrees(Math.atan(law.deviationM(10) / 10)),
        1e-5);
    Validation.near("2-hurst-r2", "the same: fit quality R2", SHEPARD, "C", 1, law.r2(), 1e-9);
  }

  private static SelfAffine fit(Ground g) {
    double[] lags = {1, 2, 4, 8, 16, 32, 64};
    double[] deviations = new double[lags.length];
    for (int k = 0; k < lags.length; k++) {
      deviations[k] = RmsDeviation.of(g.heightM, g.rows, g.cols, 0, (int) lags[k]);
    }
    return SelfAffine.fit(lags, deviations);
  }

  @Test
  void rileyClasses() {
    String[] want = {
      "level",
      "nearly level",
      "slightly rugged",
      "intermediately rugged",
      "moderately rugged",
      "highly rugged",
      "extremely rugged"
    };
    double[] from = {0, 81, 117, 162, 240, 498, 959};
    boolean held = RileyRuggedness.className(80.5).equals("level");
    for (int k = 0; k < 7; k++) {
      held &= RileyRuggedness.className(from[k]).equals(want[k]);
      held &= k == 0 || RileyRuggedness.className(from[k] - 0.01).equals(want[k - 1]);
    }
    Validation.holds(
        "2-riley-classes",
        "class limits; between whole metres the lower class holds",
        RILEY,
        "V",
        held);
  }
}
