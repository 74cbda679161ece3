package org.scarpway.validation;

import static org.scarpway.terrain.TerrainParams.SlopeMethod.EVANS_YOUNG;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.HORN;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.ZEVENBERGEN_THORNE;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Which slope method errs least: RMS error (deg) of eight of them, without and with noise. */
class RankingCheck {
  private static final int SIDE = 600;
  private static final String[] METHODS = {
    "zevenbergen-thorne",
    "horn",
    "inverse-distance",
    "evans-young",
    "diagonal",
    "two-neighbour",
    "steepest-of-eight",
    "steepest-drop"
  };
  private static final String JONES_A = "Jones 1998, Computers and Geosciences 24(4):315-323";
  private static final String JONES_B = "Jones 1998, GeoInformatica 2(3):235-256";

  @Test
  void eightMethods() {
    Map<String, Double> smooth = errors(0);
    Map<String, Double> noisy = errors(0.2);
    double[] wantSmooth = {.2689, .5439, .5940, .6415, .8395, 2.1513, 2.4586, 2.8267};
    double[] wantNoisy = {6.515, 4.129, 3.966, 3.919, 4.756, 11.85, 12.95, 10.87};
    for (int k = 0; k < METHODS.length; k++) {
      String m = METHODS[k];
      Validation.nearRel(
          "1.3-A7-smooth-" + m,
          "RMS slope error on a smooth surface, deg",
          "definition of the surface and of the method",
          "C",
          wantSmooth[k],
          smooth.get(m),
          0.02);
      Validation.nearRel(
          "1.3-A7-noisy-" + m,
          "the same under noise of 0.2 m, deg",
          "definition of the surface and of the method",
          "C",
          wantNoisy[k],
          noisy.get(m),
          0.05);
    }
    order("1.4-ranking-smooth", "smooth ground, least error first", JONES_A, smooth, METHODS);
    order(
        "1.4-ranking-noisy",
        "noisy ground, least error first",
        JONES_B,
        noisy,
        "evans-young",
        "inverse-distance",
        "horn",
        "diagonal",
        "zevenbergen-thorne",
        "steepest-drop",
        "two-neighbour",
        "steepest-of-eight");
    Validation.holds(
        "1.4-ranking-florinsky",
        "of the four central-difference schemes least squares errs least under noise",
        "Florinsky 1998",
        "V",
        noisy.get("evans-young") < noisy.get("horn")
            && noisy.get("evans-young") < noisy.get("zevenbergen-thorne")
            && noisy.get("evans-young") < noisy.get("diagonal"));
  }

  private static void order(
      String id, String what, String source, Map<String, Double> error, String... names) {
    boolean held = true;
    for (int k = 1; k < names.length; k++) {
      held &= error.get(names[k - 1]) < error.get(names[k]);
    }
    Validation.holds(id, what + ": " + String.join(" < ", names), source, "V", held);
  }

  @Test
  void aspectErrsMostOnGentleGround() {
    double gentle = aspectErrorDeg(3);
    double steep = aspectErrorDeg(20);
    Validation.nearRel(
        "1.4-aspect-3",
        "RMS aspect error at 3 deg under noise: gradient error / tan S, deg",
        "Florinsky 1998; Hunter and Goodchild 1997",
        "C",
        Math.toDegrees(.02 / Math.sqrt(6) / Math.tan(Math.toRadians(3))),
        gentle,
        0.03);
    Validation.holds(
        "1.4-aspect-gentle",
        "aspect error is larger at 3 deg than at 20 deg",
        "Florinsky 1998",
        "V",
        gentle > steep);
  }

  private static double aspectErrorDeg(double slopeDeg) {
    Ground noise = Ground.noise(200, 200, 0.02, 8);
    double t = Math.tan(Math.toRadians(slopeDeg));
    for (int i = 0; i < noise.heightM.length; i++) {
      noise.heightM[i] += (float) (-t * (i % 200));
    }
    double sum = 0;
    int n = 0;
    for (float aspect : noise.slopeAspect(EVANS_YOUNG)[1]) {
      if (!Float.isNaN(aspect)) {
        sum += (aspect - 90) * (aspect - 90);
        n++;
      }
    }
    return Math.sqrt(sum / n);
  }

  private static Map<String, Double> errors(double noiseM) {
    double k = 2 * Math.PI / 20;
    Random random = new Random(11);
    float[] z = new float[SIDE * SIDE];
    double[] truth = new double[z.length];
    for (int i = 0; i < z.length; i++) {
      double x = i % SIDE;
      double y = SIDE - 1 - i / SIDE;
      double phase = .43 * k * x + .9 * k * y;
      z[i] =
          (float)
              (2 * (Math.sin(k * x) * Math.cos(.7 * k * y) + .5 * Math.sin(phase))
                  + noiseM * random.nextGaussian());
      double gx = 2 * (k * Math.cos(k * x) * Math.cos(.7 * k * y) + .5 * .43 * k * Math.cos(phase));
      double gy =
          2 * (-.7 * k * Math.sin(k * x) * Math.sin(.7 * k * y) + .5 * .9 * k * Math.cos(phase));
      truth[i] = Math.toDegrees(Math.atan(Math.hypot(gx, gy)));
    }
    Ground g = new Ground(SIDE, SIDE, 1, 1, z);
    Map<String, Double> errors = new LinkedHashMap<>();
    for (SlopeMethod m : new SlopeMethod[] {HORN, ZEVENBERGEN_THORNE, EVANS_YOUNG}) {
      errors.put(SlopeCheck.name(m), rms(g.slopeAspect(m)[0], truth));
    }
    for (GradientMethods m : GradientMethods.values()) {
      float[] slope = new float[z.length];
      for (int r = 1; r < SIDE - 1; r++) {
        for (int c = 1; c < SIDE - 1; c++) {
          slope[r * SIDE + c] = (float) m.slopeDeg(z, SIDE, r * SIDE + c, 1);
        }
      }
      errors.put(m.name().toLowerCase(Locale.ROOT).replace('_', '-'), rms(slope, truth));
    }
    return errors;
  }

  private static double rms(float[] slopeDeg, double[] truth) {
    double sum = 0;
    for (int r = 1; r < SIDE - 1; r++) {
      for (int c = 1; c < SIDE - 1; c++) {
        double d = slopeDeg[r * SIDE + c] - truth[r * SIDE + c];
        sum += d * d;
      }
    }
    return Math.sqrt(sum / ((SIDE - 2.0) * (SIDE - 2.0)));
  }
}
