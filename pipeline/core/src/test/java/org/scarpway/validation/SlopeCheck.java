package org.scarpway.validation;

import static org.scarpway.terrain.TerrainParams.SlopeMethod.EVANS_YOUNG;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.HORN;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.ZEVENBERGEN_THORNE;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.terrain.Curvature;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Slope (deg), aspect (deg), curvature (1/m). Worked windows and closed forms; tolerance 1e-4 deg
 * for windows, digits printed for closed forms.
 */
class SlopeCheck {
  private static final SlopeMethod[] METHODS = {HORN, ZEVENBERGEN_THORNE, EVANS_YOUNG};
  private static final String[] SOURCES = {
    "Horn 1981", "Zevenbergen and Thorne 1987", "Evans 1972; Young 1978"
  };

  static final Ground W1 = Ground.window(5, 5, 12, 15, 19, 10, 14, 17, 7, 11, 16);
  static final Ground W2 = Ground.window(10, 10, 100, 102, 106, 98, 101, 104, 95, 97, 103);
  static final Ground W3 = Ground.window(10, 10, 0, 0, 0, 0, 10, 0, 0, 0, 0);
  static final Ground W4 = Ground.window(10, 10, 0, 10, 0, 0, 0, 0, 0, 0, 0);

  static String name(SlopeMethod m) {
    return m.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static void three(
      String id, String what, Ground w, boolean aspect, double tol, String flag, double... want) {
    for (int k = 0; k < 3; k++) {
      Validation.near(
          id + "-" + name(METHODS[k]),
          what,
          SOURCES[k],
          flag,
          want[k],
          aspect ? w.aspectDeg(METHODS[k]) : w.slopeDeg(METHODS[k]),
          tol);
    }
  }

  @Test
  void workedWindows() {
    for (int k = 0; k < 3; k++) {
      float[][] g = W1.gradient(METHODS[k]);
      String id = "1.2-W1-gradient-" + name(METHODS[k]);
      double east = new double[] {0.75, 0.7, 0.766667}[k];
      Validation.near(id + "-east", "W1 dz/dx", SOURCES[k], "C", east, g[0][4], 5e-7);
      Validation.near(id + "-north", "W1 dz/dy", SOURCES[k], "C", 0.4, g[1][4], 5e-7);
      double percent = 100 * W1.gradientLength(METHODS[k]);
      double wantPercent = new double[] {85.0, 80.6226, 86.4741}[k];
      Validation.near(
          "1.2-W1-percent-" + name(METHODS[k]),
          "W1 slope, %",
          SOURCES[k],
          "R",
          wantPercent,
          percent,
          1e-4);
      Validation.near(
          "1.2-W2-percent-" + name(METHODS[k]),
          "W2 slope, %",
          SOURCES[k],
          "R",
          new double[] {39.5285, 39.0512, 39.7562}[k],
          100 * W2.gradientLength(METHODS[k]),
          1e-4);
    }
    three("1.2-W1-slope-deg", "W1 slope, deg", W1, false, 1e-4, "R", 40.36454, 38.87666, 40.85133);
    three("1.2-W1-aspect-deg", "W1 aspect, deg", W1, true, 1e-4, "R", 241.9275, 240.2551, 242.4472);
    three("1.2-W2-slope-deg", "W2 slope, deg", W2, false, 1e-4, "R", 21.56813, 21.33127, 21.68089);
    three("1.2-W2-aspect-deg", "W2 aspect, deg", W2, true, 1e-4, "R", 235.3048, 230.1944, 236.9761);
    three("1.2-W3-slope-deg", "W3 spike slope, deg", W3, false, 1e-9, "C", 0, 0, 0);
    three("1.2-W4-slope-deg", "W4 slope, deg", W4, false, 1e-4, "C", 14.03624, 26.56505, 9.46232);
    Ground cubic = Ground.of(3, 3, 1, 10, 0, (x, y) -> 0.01 * x * x * x);
    Validation.near(
        "1.2-W6-cubic",
        "cubic z = 0.01 x3 at x = 10, central dz/dx (bias 0.01 h2)",
        "Zevenbergen and Thorne 1987",
        "C",
        3.01,
        cubic.gradientLength(ZEVENBERGEN_THORNE),
        1e-6);
  }

  @Test
  void cellsThatAreNotSquare() {
    Ground w = Ground.window(10, 20, 100, 102, 106, 98, 101, 104, 95, 97, 103);
    String what = "W2 with cells of 10 x 20 m, ";
    Validation.near(
        "1.2-W2-rect-slope-horn",
        what + "slope, deg",
        "Horn 1981",
        "R",
        18.97914,
        w.slopeDeg(HORN),
        1e-4);
    Validation.near(
        "1.2-W2-rect-slope-zt",
        what + "slope, deg",
        "Zevenbergen and Thorne 1987",
        "R",
        18.00416,
        w.slopeDeg(ZEVENBERGEN_THORNE),
        1e-4);
    Validation.near(
        "1.2-W2-rect-aspect-horn",
        what + "aspect, deg (a reference program that ignores the cell shape says 235.3048)",
        "Horn 1981",
        "C",
        250.9065,
        w.aspectDeg(HORN),
        1e-4);
    Validation.near(
        "1.2-W2-rect-aspect-zt",
        what + "aspect, deg",
        "Zevenbergen and Thorne 1987",
        "C",
        247.3801,
        w.aspectDeg(ZEVENBERGEN_THORNE),
        1e-4);
  }

  @Test
  void curvatureWindows() {
    curvature("W1", W1, .0670769, -.0529231, .12, .00503306, .00128878, .00316092);
    curvature("W2", W2, .01721311, -.01278689, .03, Double.NaN, Double.NaN, Double.NaN);
  }

  private static void curvature(
      String w,
      Ground g,
      double profile,
      double plan,
      double total,
      double kv,
      double kh,
      double h) {
    float[][] zt = new float[3][g.heightM.length];
    Curvature.fillQuartic(g.heightM, 3, 3, 0, 3, g.cellXM, g.cellYM, zt[0], zt[1], zt[2]);
    String source = "Zevenbergen and Thorne 1987";
    Validation.near(
        "1.2-" + w + "-curv-profile", w + " profile, 1/m", source, "C", profile, zt[0][4], 1e-7);
    Validation.near("1.2-" + w + "-curv-plan", w + " plan, 1/m", source, "C", plan, zt[1][4], 1e-7);
    Validation.near(
        "1.2-" + w + "-curv-total", w + " total, 1/m", source, "C", total, zt[2][4], 1e-7);
    if (!Double.isNaN(kv)) {
      float[] k = normal(g);
      String florinsky = "Evans 1972; Florinsky 1998";
      Validation.near("1.2-" + w + "-curv-kv", w + " kv, 1/m", florinsky, "C", kv, k[0], 1e-8);
      Validation.near("1.2-" + w + "-curv-kh", w + " kh, 1/m", florinsky, "C", kh, k[1], 1e-8);
      Validation.near("1.2-" + w + "-curv-mean", w + " mean, 1/m", florinsky, "C", h, k[2], 1e-8);
    }
  }

  private static float[] normal(Ground g) {
    float[][] k = new float[3][g.heightM.length];
    Curvature.fillLeastSquares(
        g.heightM, g.rows, g.cols, 0, g.rows, g.cellXM, g.cellYM, k[0], k[1], null, k[2]);
    return new float[] {k[0][g.centre()], k[1][g.centre()], k[2][g.centre()]};
  }

  @Test
  void tiltedPlanes() {
    double worstSlope = 0;
    double worstAspect = 0;
    for (double slope = 1; slope < 80; slope += 6.5) {
      for (double azimuth = 0; azimuth < 360; azimuth += 11) {
        double t = Math.tan(Math.toRadians(slope));
        double a = Math.toRadians(azimuth);
        Ground g = Ground.of(3, 3, 8, 0, 0, (x, y) -> -t * (x * Math.sin(a) + y * Math.cos(a)));
        for (SlopeMethod m : METHODS) {
          worstSlope = Math.max(worstSlope, Math.abs(g.slopeDeg(m) - slope));
          double off = Math.abs(g.aspectDeg(m) - azimuth);
          worstAspect = Math.max(worstAspect, Math.min(off, 360 - off));
        }
      }
    }
    Validation.near(
        "1.3-A1-plane-slope",
        "tilted planes, 1 to 80 deg, all azimuths and methods: largest slope error, deg (float storage)",
        "closed form",
        "C",
        0,
        worstSlope,
        2e-5);
    Validation.near(
        "1.3-A1-plane-aspect",
        "the same, largest aspect error, deg",
        "closed form",
        "C",
        0,
        worstAspect,
        4e-5);
  }

  @Test
  void hemisphere() {
    double[][] slope = {{30.003160, 30.001952, 30.003563}, {30.079490, 30.048932, 30.089672}};
    double[] aspect = {36.87210, 36.86558, 36.87426};
    double[] cells = {1, 5};
    for (int c = 0; c < 2; c++) {
      Ground g = hemisphere(cells[c]);
      for (int k = 0; k < 3; k++) {
        Validation.near(
            "1.3-A2-hemisphere-slope-h" + (int) cells[c] + "-" + name(METHODS[k]),
            "hemisphere R 100 at (30, 40), true 30 deg",
            SOURCES[k],
            "C",
            slope[c][k],
            g.slopeDeg(METHODS[k]),
            1e-5);
        if (c == 1) {
          Validation.near(
              "1.3-A2-hemisphere-aspect-h5-" + name(METHODS[k]),
              // The surface falls away from its top, so aspect is that of (30 east, 40 north).
              "hemisphere aspect, true 36.869898 deg",
              SOURCES[k],
              "C",
              aspect[k],
              g.aspectDeg(METHODS[k]),
              1e-5);
        }
      }
    }
    float[] k = normal(hemisphere(1));
    double[] want = {0.01000087, 0.01000060, 0.01000073};
    String[] names = {"kv", "kh", "mean"};
    for (int i = 0; i < 3; i++) {
      Validation.near(
          "1.3-A2-hemisphere-" + names[i],
          "hemisphere R 100, cells of 1 m, " + names[i] + ", 1/m (true 0.01; float heights)",
          "Evans 1972; Florinsky 1998",
          "C",
          want[i],
          k[i],
          3e-7);
    }
  }

  private static Ground hemisphere(double cellM) {
    return Ground.of(3, 3, cellM, 30, 40, (x, y) -> Math.sqrt(100 * 100 - x * x - y * y));
  }

  @Test
  void gaussianHill() {
    double[][] want = {{16.847543, 16.857475, 16.844231}, {16.300888, 16.541748, 16.220468}};
    double[] cells = {10, 50};
    for (int c = 0; c < 2; c++) {
      Ground g =
          Ground.of(
              3, 3, cells[c], 200, 0, (x, y) -> 100 * Math.exp(-(x * x + y * y) / (2 * 200 * 200)));
      for (int k = 0; k < 3; k++) {
        Validation.near(
            "1.3-A3-gauss-h" + (int) cells[c] + "-" + name(METHODS[k]),
            "Gaussian hill 100 m, sigma 200 m, at r = 200 m, true 16.870731 deg",
            SOURCES[k],
            "C",
            want[c][k],
            g.slopeDeg(METHODS[k]),
            1e-5);
      }
    }
  }

  @Test
  void attenuationOfWaves() {
    double[] n = {4, 6, 8, 10, 20, 50};
    double[] want = {0.636620, 0.826993, 0.900316, 0.935489, 0.983632, 0.997370};
    for (int i = 0; i < n.length; i++) {
      double k = 2 * Math.PI / n[i];
      Ground g = Ground.of(3, 3, 1, 0, 0, (x, y) -> Math.sin(k * x));
      for (int m = 0; m < 3; m++) {
        Validation.near(
            "1.3-A4-wave-" + (int) n[i] + "-" + name(METHODS[m]),
            "wave of " + (int) n[i] + " cells along the axis: gradient seen / true",
            SOURCES[m],
            "C",
            want[i],
            g.gradientLength(METHODS[m]) / k,
            1e-6);
      }
    }
    double[][] diagonal = {{0.920464, 0.967424, 0.904811}, {0.979610, 0.991796, 0.975548}};
    for (int i = 0; i < 2; i++) {
      double cells = i == 0 ? 10 : 20;
      double k = 2 * Math.PI / cells;
      Ground g = Ground.of(3, 3, 1, 0, 0, (x, y) -> Math.sin(k / Math.sqrt(2) * (x + y)));
      for (int m = 0; m < 3; m++) {
        Validation.near(
            "1.3-A5-diagonal-wave-" + (int) cells + "-" + name(METHODS[m]),
            "wave of " + (int) cells + " cells at 45 deg: gradient seen / true",
            SOURCES[m],
            "C",
            diagonal[i][m],
            g.gradientLength(METHODS[m]) / k,
            1e-6);
      }
    }
  }
}
