package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.function.IntUnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** What must not change, or must change along, when the ground is moved, turned or scaled. */
class TerrainPropertiesTest {
  private static final int ROWS = 26;
  private static final int COLS = 33;
  private static final double NEAR = 2e-4;

  private static TerrainLayers compute(GridSpec spec, float[] z, SlopeMethod method, double scale) {
    TerrainParams params =
        new TerrainParams(method, 6.6 * scale, 2.1 * scale, 5 * scale, 0.1 * scale, null, 20.0);
    try (Workers workers = new Workers(1)) {
      return TerrainStage.layers(TestGround.dem(spec, z), params, workers, Progress.NONE);
    }
  }

  private static SlopeMethod method(int k) {
    return SlopeMethod.values()[k];
  }

  /** Compares each layer of {@code a} at cell i with {@code b} at {@code to(i)}. */
  private static void same(
      TerrainLayers a, TerrainLayers b, IntUnaryOperator to, double heightScale) {
    layer(a.terrain().slopeDeg(), b.terrain().slopeDeg(), to, 1);
    layer(a.terrain().roughnessM(), b.terrain().roughnessM(), to, heightScale);
    layer(a.terrain().stepM(), b.terrain().stepM(), to, heightScale);
    layer(a.ruggednessM(), b.ruggednessM(), to, heightScale);
    layer(a.terrain().convexityM(), b.terrain().convexityM(), to, heightScale);
    layer(a.errors().orElseThrow().slopeDeg(), b.errors().orElseThrow().slopeDeg(), to, 1);
    layer(
        a.errors().orElseThrow().overLimit01().orElseThrow(),
        b.errors().orElseThrow().overLimit01().orElseThrow(),
        to,
        1);
  }

  private static void layer(FloatGrid a, FloatGrid b, IntUnaryOperator to, double scale) {
    for (int i = 0; i < a.values().length; i++) {
      assertEquals(a.values()[i] * scale, b.values()[to.applyAsInt(i)], NEAR * scale);
    }
  }

  private static void aspect(
      TerrainLayers a, TerrainLayers b, IntUnaryOperator to, double turn, double sign) {
    for (int i = 0; i < ROWS * COLS; i++) {
      double want = sign * a.aspectDeg().values()[i] + turn;
      double got = b.aspectDeg().values()[to.applyAsInt(i)];
      assertEquals(Double.isNaN(want), Double.isNaN(got));
      if (!Double.isNaN(want)) {
        assertEquals(0, Math.IEEEremainder(got - want, 360), 0.01);
      }
    }
  }

  @Property(tries = 12, seed = "1")
  void aQuarterTurnTurnsEverything(@ForAll int seed, @ForAll @IntRange(max = 3) int m) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    // Clockwise: the north edge becomes the east edge, and the cell sizes change places.
    IntUnaryOperator to = i -> (i % COLS) * ROWS + (ROWS - 1 - i / COLS);
    TerrainLayers a = compute(TestGround.spec(ROWS, COLS, 1, 1.25), z, method(m), 1);
    TerrainLayers b = compute(TestGround.spec(COLS, ROWS, 1.25, 1), moved(z, to), method(m), 1);
    layer(a.terrain().slopeDeg(), b.terrain().slopeDeg(), to, 1);
    layer(a.terrain().stepM(), b.terrain().stepM(), to, 1);
    layer(a.ruggednessM(), b.ruggednessM(), to, 1);
    layer(a.terrain().convexityM(), b.terrain().convexityM(), to, 1);
    aspect(a, b, to, 90, 1);
  }

  @Property(tries = 12, seed = "2")
  void aMirrorMirrorsEverything(@ForAll int seed, @ForAll @IntRange(max = 3) int m) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    IntUnaryOperator to = i -> i / COLS * COLS + COLS - 1 - i % COLS;
    GridSpec spec = TestGround.spec(ROWS, COLS, 1, 1.25);
    TerrainLayers a = compute(spec, z, method(m), 1);
    TerrainLayers b = compute(spec, moved(z, to), method(m), 1);
    same(a, b, to, 1);
    aspect(a, b, to, 0, -1);
  }

  @Property(tries = 12, seed = "3")
  void raisingAllGroundChangesNothing(
      @ForAll int seed, @ForAll @IntRange(min = -4000, max = 4000) int raise) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    float[] raised = z.clone();
    for (int i = 0; i < z.length; i++) {
      raised[i] += raise;
    }
    GridSpec spec = TestGround.spec(ROWS, COLS, 1, 1.25);
    TerrainLayers a = compute(spec, z, SlopeMethod.HORN, 1);
    TerrainLayers b = compute(spec, raised, SlopeMethod.HORN, 1);
    same(a, b, i -> i, 1);
    aspect(a, b, i -> i, 0, 1);
  }

  @Property(tries = 12, seed = "4")
  void groundEnlargedKeepsItsSlopes(
      @ForAll int seed, @ForAll @IntRange(min = 2, max = 40) int times) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    float[] large = z.clone();
    for (int i = 0; i < z.length; i++) {
      large[i] *= times;
    }
    TerrainLayers a = compute(TestGround.spec(ROWS, COLS, 1, 1.25), z, SlopeMethod.HORN, 1);
    TerrainLayers b =
        compute(TestGround.spec(ROWS, COLS, times, 1.25 * times), large, SlopeMethod.HORN, times);
    same(a, b, i -> i, times);
  }

  @Property(tries = 12, seed = "5")
  void movingTheGroundMovesEverything(
      @ForAll int seed, @ForAll @IntRange(min = 1, max = 6) int east) {
    float[] z = TestGround.rough(ROWS, COLS + east, seed);
    float[] west = new float[ROWS * COLS];
    float[] moved = new float[ROWS * COLS];
    for (int i = 0; i < west.length; i++) {
      west[i] = z[i / COLS * (COLS + east) + i % COLS];
      moved[i] = z[i / COLS * (COLS + east) + i % COLS + east];
    }
    GridSpec spec = TestGround.spec(ROWS, COLS, 1, 1.25);
    TerrainLayers a = compute(spec, west, SlopeMethod.EVANS_YOUNG, 1);
    TerrainLayers b = compute(spec, moved, SlopeMethod.EVANS_YOUNG, 1);
    int halo = 5;
    for (int row = halo; row < ROWS - halo; row++) {
      for (int col = halo + east; col < COLS - halo; col++) {
        int i = row * COLS + col;
        assertEquals(a.terrain().slopeDeg().values()[i], b.terrain().slopeDeg().values()[i - east]);
        assertEquals(
            a.terrain().convexityM().values()[i], b.terrain().convexityM().values()[i - east]);
        assertEquals(
            a.terrain().roughnessM().values()[i],
            b.terrain().roughnessM().values()[i - east],
            NEAR);
      }
    }
  }

  private static float[] moved(float[] z, IntUnaryOperator to) {
    float[] out = new float[z.length];
    for (int i = 0; i < z.length; i++) {
      out[to.applyAsInt(i)] = z[i];
    }
    return out;
  }
}
