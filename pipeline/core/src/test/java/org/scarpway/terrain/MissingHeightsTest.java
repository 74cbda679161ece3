package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * By the same law, less heights never make a step lower, nor less likely to break a limit, whatever
 * the ground, the cells and what is missing.
 */
class MissingHeightsTest {
  private static final int SIZE = 20;

  /** Rough ground with walls through it, in any direction, and slopes that end at them. */
  private static float[] ground(Random random) {
    float[] z = new float[SIZE * SIZE];
    double rough = random.nextInt(3) == 0 ? 0 : 0.1 * random.nextDouble();
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (rough * random.nextGaussian());
    }
    for (int wall = random.nextInt(4); wall > 0; wall--) {
      double angle = 2 * Math.PI * random.nextDouble();
      double off = SIZE * (random.nextDouble() - 0.5);
      double wallM = 2 * random.nextDouble();
      double faceCells = 0.3 + 3 * random.nextDouble();
      double slope = 0.3 * random.nextGaussian();
      for (int i = 0; i < z.length; i++) {
        int row = i / SIZE - SIZE / 2;
        double across = row * Math.sin(angle) + (i % SIZE - SIZE / 2) * Math.cos(angle) - off;
        z[i] += (float) (wallM * Math.min(1, Math.max(0, across / faceCells)));
        z[i] += (float) (slope * Math.max(0, across));
      }
    }
    return z;
  }

  private static float[] without(float[] z, Random random) {
    float[] less = z.clone();
    for (int n = 1 + random.nextInt(4); n > 0; n--) {
      int row = random.nextInt(SIZE);
      int col = random.nextInt(SIZE);
      int size = 1 + random.nextInt(3);
      for (int r = row; r < Math.min(SIZE, row + size); r++) {
        Arrays.fill(less, r * SIZE + col, r * SIZE + Math.min(SIZE, col + size), Float.NaN);
      }
    }
    return less;
  }

  private static GroundLaw law(Random random) {
    double boundM = random.nextInt(4) == 0 ? 0 : random.nextDouble();
    double[] pairM = random.doubles(4, 0.8 * boundM, boundM + 1e-9).toArray();
    double[] twoM = random.doubles(4, boundM, 2 * boundM + 1e-9).toArray();
    return new GroundLaw(null, pairM, twoM);
  }

  /**
   * Steps off the plane of 3 x 3 cells, with breaks; NaN at the edges and beside what is missing.
   */
  private static float[] steps(float[] z, GroundLaw law, double spacingM, double factor) {
    float[] east = new float[z.length];
    float[] north = new float[z.length];
    Gradients.fill(SlopeMethod.EVANS_YOUNG, z, SIZE, SIZE, 0, SIZE, 1, 1, east, north);
    float[] stepM = new float[z.length];
    StepHeight.fill(z, SIZE, SIZE, 0, SIZE, 1, 1, spacingM, east, north, stepM);
    new Breaks(law, spacingM, 1, factor).raise(z, SIZE, SIZE, 0, SIZE, stepM);
    return stepM;
  }

  @Test
  void lessHeightsNeverLowerAStep() {
    Random random = new Random(71);
    int compared = 0;
    int raised = 0;
    for (int n = 0; n < 6000; n++) {
      float[] z = ground(random);
      float[] less = without(z, random);
      double spacingM = new double[] {0.4, 0.9, 1, 1.7, 2, 2.9, 3.2}[n % 7];
      GroundLaw law = Breaks.needLaw(spacingM, 1) ? law(random) : null;
      double factor = spacingM < 1 ? Math.pow(spacingM, 0.7 * random.nextDouble()) : 1;
      float[] all = steps(z, law, spacingM, factor);
      float[] some = steps(less, law, spacingM, factor);
      for (int i = 0; i < z.length; i++) {
        if (!Float.isNaN(some[i])) {
          assertTrue(
              some[i] >= all[i], "ground " + n + " cell " + i + ": " + all[i] + " " + some[i]);
          raised += some[i] > all[i] ? 1 : 0;
          compared++;
        }
      }
    }
    assertTrue(compared > 800_000 && raised > 1000, compared + " steps, " + raised + " higher");
  }

  /**
   * A wall beyond which nothing is known; the cells before it have no step, or that of the wall.
   */
  @Test
  void aWallBesideWhatIsMissingIsNotHidden() {
    for (double spacingM : new double[] {0.4, 1, 1.7, 2}) {
      GroundLaw none = new GroundLaw(null, new double[4], new double[4]);
      GroundLaw law = Breaks.needLaw(spacingM, 1) ? none : null;
      float[] z = new float[SIZE * SIZE];
      for (int i = 0; i < z.length; i++) {
        int col = i % SIZE;
        z[i] = col < 8 ? 0 : col == 8 ? 0.4f : col == 9 ? 0.8f : Float.NaN;
      }
      float[] stepM = steps(z, law, spacingM, 1);
      int row = SIZE / 2 * SIZE;
      assertEquals(0, stepM[row + 5], 1e-6);
      assertTrue(Float.isNaN(stepM[row + 8]) && Float.isNaN(stepM[row + 9]), "too little is known");
      assertEquals(0.8, stepM[row + 7], 1e-6, "spacing " + spacingM);
    }
  }

  /**
   * A hole of one cell in a plane: two cells along every axis and, where a law decides about walls,
   * the cells between two of these; no more, and no steps beyond.
   */
  @Test
  void aHoleTakesTheCellsWithinTwo() {
    for (double spacingM : new double[] {0.4, 1, 1.7, 2}) {
      GroundLaw law =
          Breaks.needLaw(spacingM, 1) ? new GroundLaw(null, new double[4], new double[4]) : null;
      float[] z = new float[SIZE * SIZE];
      for (int i = 0; i < z.length; i++) {
        int row = i / SIZE;
        z[i] = 0.25f * (i % SIZE) - 0.5f * row;
      }
      z[10 * SIZE + 10] = Float.NaN;
      float[] stepM = steps(z, law, spacingM, 1);
      for (int i = 0; i < z.length; i++) {
        int down = Math.abs(i / SIZE - 10);
        int right = Math.abs(i % SIZE - 10);
        boolean inside = Math.max(down, right) < 6;
        boolean onAxis = down == right || down * right == 0;
        boolean beside = Math.max(down, right) <= 2 && (law != null || onAxis);
        if (inside) {
          assertEquals(beside ? Double.NaN : 0, stepM[i], 1e-6, "cell " + i + " " + spacingM);
        }
      }
    }
  }

  @Test
  void lessHeightsNeverMakeAStepLessLikely() {
    Random random = new Random(72);
    int compared = 0;
    for (int n = 0; n < 60; n++) {
      double sigmaM = 0.02 + 0.1 * random.nextDouble();
      double spacingM = new double[] {0.8, 1.7, 2}[n % 3];
      TerrainParams params =
          new TerrainParams(SlopeMethod.HORN, 2, spacingM, 3, sigmaM, null, null);
      StepOdds odds =
          StepOdds.of(
              params,
              Footprint.SMALLEST,
              new HeightError(sigmaM, 0),
              TestGround.spec(SIZE, SIZE, 1, 1));
      float[] z = ground(random);
      float[] less = without(z, random);
      float[] some = steps(less, Breaks.needLaw(spacingM, 1) ? law(random) : null, spacingM, 1);
      for (int i = 0; i < z.length; i++) {
        if (!Float.isNaN(some[i])) {
          double limitM = 0.6 * random.nextDouble();
          double of = odds.broken(z, SIZE, SIZE, i / SIZE, i % SIZE, limitM);
          double ofLess = odds.broken(less, SIZE, SIZE, i / SIZE, i % SIZE, limitM);
          assertTrue(ofLess >= of - 1e-12, "ground " + n + " cell " + i + ": " + of + " " + ofLess);
          compared++;
        }
      }
    }
    assertTrue(compared > 5_000, compared + " chances");
  }
}
