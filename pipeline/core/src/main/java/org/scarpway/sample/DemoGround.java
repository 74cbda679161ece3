package org.scarpway.sample;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/**
 * Heights and rock coverage of the demo scenario: a tilted bench with fractal relief, a scarp with
 * two gaps, craters by a published size-frequency law, boulder fields. Every number follows from
 * the seed alone: java.util.Random and StrictMath are specified to the bit.
 */
final class DemoGround {
  static final long SEED = 20_260_117L;
  static final int CELLS = 1200;
  static final double CELL_M = 5;
  static final double SIDE_M = CELLS * CELL_M;

  private static final int SPECTRUM_SIDE = 2048;
  private static final double HURST = 0.93;
  private static final double LONGEST_WAVE_M = 2600;
  private static final double RMS_SLOPE_DEG = 4.0;
  private static final double MEAN_HEIGHT_M = 1180;

  /** Gradient of the bench, which falls towards the south-east, rise over run. */
  private static final double TILT_EAST = -0.008;

  private static final double TILT_NORTH = 0.006;

  private static final double WANDER_M = 45;

  /** Heights are stored to 1/32 m so that the files stay small. */
  private static final double HEIGHT_STEPS_PER_M = 32;

  private static final double COVERAGE_STEPS = 100;

  /**
   * Crater density as a fraction of that of a surface in equilibrium, on which new craters destroy
   * as many old ones: N(&gt;D) = 0.079 D^-2 (Trask 1966).
   */
  private static final double OF_EQUILIBRIUM = 0.25;

  private static final double SMALLEST_CRATER_M = 20;
  private static final double LARGEST_CRATER_M = 160;

  private final GridSpec spec;
  private final double[] heightM;
  private final double[] pattern;

  DemoGround(GridSpec spec) {
    this.spec = spec;
    Random random = new Random(SEED);
    FractalGround fractal = new FractalGround(SPECTRUM_SIDE, CELL_M, HURST, LONGEST_WAVE_M, random);
    heightM = fractal.heightsM(CELLS, CELLS, CELL_M, RMS_SLOPE_DEG);
    pattern = fractal.pattern(CELLS, CELLS);
    for (int i = 0; i < heightM.length; i++) {
      heightM[i] += broadM(i);
    }
    DemoPlaces.NAMED.forEach(this::dig);
    smallCraters(random).forEach(this::dig);
    DemoPlaces.BASES.forEach(this::level);
  }

  private static double uM(int col) {
    return (col + 0.5) * CELL_M;
  }

  private static double vM(int row) {
    return (CELLS - row - 0.5) * CELL_M;
  }

  /**
   * Returns the height (m) of the bench and the scarp without relief; the scarp's outline meanders
   * with the pattern.
   */
  private double broadM(int i) {
    double u = uM(i % CELLS);
    double v = vM(i / CELLS);
    double wander = WANDER_M * pattern[i];
    return MEAN_HEIGHT_M
        + TILT_EAST * u
        + TILT_NORTH * v
        + Scarp.heightM(u + 0.5 * wander, v + wander);
  }

  FloatGrid heights() {
    float[] out = new float[heightM.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = (float) (Math.rint(heightM[i] * HEIGHT_STEPS_PER_M) / HEIGHT_STEPS_PER_M);
    }
    return new FloatGrid(spec, out);
  }

  /** Returns the fraction of the ground covered by rocks, [0, 0.3], in steps of a hundredth. */
  FloatGrid rockCoverage() {
    float[] out = new float[heightM.length];
    for (int i = 0; i < out.length; i++) {
      double patchy = Math.max(0, 0.75 + 0.5 * pattern[i]);
      double k = 0.004 + patchy * rocksAt(uM(i % CELLS), vM(i / CELLS), WANDER_M * pattern[i]);
      out[i] = (float) (Math.rint(Math.min(0.3, k) * COVERAGE_STEPS) / COVERAGE_STEPS);
    }
    return new FloatGrid(spec, out);
  }

  /**
   * Returns the rock coverage of the Crumbs, the talus below the scarp and the fresh ejecta of
   * Quern.
   */
  private static double rocksAt(double uM, double vM, double wanderM) {
    double eu = (uM - DemoPlaces.CRUMBS_U_M) / 420;
    double ev = (vM - DemoPlaces.CRUMBS_V_M) / 190;
    double crumbs = 0.22 * StrictMath.exp(-eu * eu - ev * ev);
    double foot = (vM + wanderM - Scarp.lineM(uM) + 110) / 60;
    double talus = 0.09 * (1 - Scarp.gap01(uM)) * StrictMath.exp(-foot * foot);
    Crater q = DemoPlaces.QUERN;
    double radii = Math.sqrt(squared(uM - q.uM()) + squared(vM - q.vM())) / q.radiusM();
    double ejecta = radii < 0.9 ? 0.03 : 0.10 * StrictMath.exp(-4 * squared(radii - 1));
    return crumbs + talus + ejecta;
  }

  private static double squared(double v) {
    return v * v;
  }

  private static List<Crater> smallCraters(Random random) {
    double perM2 = OF_EQUILIBRIUM * 0.079 / squared(SMALLEST_CRATER_M);
    int count = (int) (perM2 * SIDE_M * SIDE_M);
    double cut = 1 - squared(SMALLEST_CRATER_M / LARGEST_CRATER_M);
    List<Crater> craters = new ArrayList<>();
    while (craters.size() < count) {
      double diameterM = SMALLEST_CRATER_M / Math.sqrt(1 - random.nextDouble() * cut);
      double wear = random.nextDouble();
      Crater c =
          new Crater(
              random.nextDouble() * SIDE_M,
              random.nextDouble() * SIDE_M,
              diameterM,
              0.05 + 0.9 * wear * wear * wear);
      if (!spoils(c)) {
        craters.add(c);
      }
    }
    return craters;
  }

  /** True if a crater would close a gap or lie on a base. */
  private static boolean spoils(Crater c) {
    boolean onRamp = Scarp.gap01(c.uM()) > 0 && Math.abs(c.vM() - Scarp.lineM(c.uM())) < 700;
    boolean onBase =
        DemoPlaces.BASES.stream()
            .anyMatch(b -> squared(b.uM() - c.uM()) + squared(b.vM() - c.vM()) < squared(300));
    return onBase || (onRamp && c.diameterM() * c.freshness() > 8);
  }

  private void dig(Crater c) {
    double reachM = Crater.EXTENT * c.radiusM();
    double depthM = c.depthM();
    double rimM = c.rimM();
    int top = Math.max(0, (int) ((SIDE_M - c.vM() - reachM) / CELL_M));
    int bottom = Math.min(CELLS, (int) ((SIDE_M - c.vM() + reachM) / CELL_M) + 1);
    int left = Math.max(0, (int) ((c.uM() - reachM) / CELL_M));
    int right = Math.min(CELLS, (int) ((c.uM() + reachM) / CELL_M) + 1);
    for (int row = top; row < bottom; row++) {
      for (int col = left; col < right; col++) {
        double r = Math.sqrt(squared(uM(col) - c.uM()) + squared(vM(row) - c.vM()));
        heightM[row * CELLS + col] += Crater.profileM(r / c.radiusM(), depthM, rimM);
      }
    }
  }

  /** Smooths the relief around a base, fully within 60 m, not at all beyond 250 m. */
  private void level(DemoPlaces.Base base) {
    double[] distanceM = new double[heightM.length];
    double sum = 0;
    int count = 0;
    for (int i = 0; i < heightM.length; i++) {
      distanceM[i] =
          Math.sqrt(squared(uM(i % CELLS) - base.uM()) + squared(vM(i / CELLS) - base.vM()));
      if (distanceM[i] < 100) {
        sum += heightM[i] - broadM(i);
        count++;
      }
    }
    double reliefM = sum / count;
    for (int i = 0; i < heightM.length; i++) {
      double t = Math.max(0, Math.min(1, (250 - distanceM[i]) / 190));
      double soften = 0.85 * t * t * (3 - 2 * t);
      heightM[i] += soften * (broadM(i) + reliefM - heightM[i]);
    }
  }
}
