package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.IntUnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * What every kernel must keep when the ground is turned, mirrored, moved, raised or enlarged. Each
 * runs with all four slope methods; figures of the whole ground are one-cell layers.
 */
class KernelPropertiesTest {
  private static final int ROWS = 27;
  private static final int COLS = 34;
  private static final double CELL_X_M = 1;
  private static final double CELL_Y_M = 1.25;

  /** A layer with the power of the ground's size that it grows by, and its largest value. */
  private static final class Measured {
    private final float[] values;
    private final int power;
    private final double largest;

    private Measured(float[] values, int power, double largest) {
      this.values = values;
      this.power = power;
      this.largest = largest;
    }

    static Measured of(float[] values, int power) {
      double largest = 0;
      int known = 0;
      for (float v : values) {
        largest = Math.abs(v) > largest ? Math.abs(v) : largest;
        known += Float.isNaN(v) ? 0 : 1;
      }
      assertTrue(known > 0 && largest > 0);
      return new Measured(values, power, largest);
    }
  }

  private static Map<String, Measured> measure(
      float[] z,
      int rows,
      int cols,
      double cellXM,
      double cellYM,
      SlopeMethod method,
      double size) {
    GridSpec spec = TestGround.spec(rows, cols, cellXM, cellYM);
    TerrainParams params =
        new TerrainParams(method, 6.6 * size, 2.6 * size, 5 * size, 0.1 * size, null, 20.0);
    Map<String, Measured> all = new LinkedHashMap<>();
    try (Workers workers = new Workers(1)) {
      TerrainLayers t =
          TerrainStage.layers(TestGround.dem(spec, z), params, workers, Progress.NONE);
      all.put("slope", Measured.of(t.terrain().slopeDeg().values(), 0));
      all.put("roughness", Measured.of(t.terrain().roughnessM().values(), 1));
      all.put("step", Measured.of(t.terrain().stepM().values(), 1));
      all.put("riley", Measured.of(t.ruggednessM().values(), 1));
      all.put("convexity", Measured.of(t.terrain().convexityM().values(), 1));
      all.put("sigma", Measured.of(t.errors().orElseThrow().slopeDeg().values(), 0));
      all.put(
          "over limit",
          Measured.of(t.errors().orElseThrow().overLimit01().orElseThrow().values(), 0));
      DerivativeStage.compute(
              t.terrain(), params, EnumSet.allOf(Derivative.class), workers, Progress.NONE)
          .forEach((d, grid) -> all.put(d.key(), Measured.of(grid.values(), power(d))));
    }
    return all;
  }

  private static int power(Derivative d) {
    return switch (d.unit()) {
      case "m" -> 1;
      case "1/m" -> -1;
      default -> 0;
    };
  }

  private static void same(
      Map<String, Measured> a, Map<String, Measured> b, IntUnaryOperator to, double size) {
    for (String name : a.keySet()) {
      Measured m = a.get(name);
      double grown = Math.pow(size, m.power);
      for (int i = 0; i < m.values.length; i++) {
        double want = m.values[i] * grown;
        double got = b.get(name).values[to.applyAsInt(i)];
        assertEquals(Double.isNaN(want), Double.isNaN(got), name);
        if (!Double.isNaN(want)) {
          // Curvature is a quotient by the square of the gradient, which may be next to nothing.
          double tolerance = 2e-5 * Math.min(m.largest * grown, 100 * Math.abs(want) + grown);
          assertEquals(want, got, tolerance, name + " at " + i);
        }
      }
    }
  }

  private static SlopeMethod method(int k) {
    return SlopeMethod.values()[k];
  }

  private static float[] moved(float[] z, IntUnaryOperator to) {
    float[] out = new float[z.length];
    for (int i = 0; i < z.length; i++) {
      out[to.applyAsInt(i)] = z[i];
    }
    return out;
  }

  @Property(tries = 16, seed = "11")
  void aQuarterTurnTurnsEveryLayer(@ForAll int seed, @ForAll @IntRange(max = 3) int m) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    IntUnaryOperator to = i -> (i % COLS) * ROWS + (ROWS - 1 - i / COLS);
    same(
        measure(z, ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1),
        measure(moved(z, to), COLS, ROWS, CELL_Y_M, CELL_X_M, method(m), 1),
        to,
        1);
  }

  @Property(tries = 16, seed = "12")
  void aMirrorMirrorsEveryLayer(@ForAll int seed, @ForAll @IntRange(max = 3) int m) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    IntUnaryOperator to = i -> (ROWS - 1 - i / COLS) * COLS + i % COLS;
    same(
        measure(z, ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1),
        measure(moved(z, to), ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1),
        to,
        1);
  }

  @Property(tries = 16, seed = "13")
  void raisedGroundIsTheSame(
      @ForAll int seed,
      @ForAll @IntRange(max = 3) int m,
      @ForAll @IntRange(min = -9000, max = 9000) int raise) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    float[] raised = z.clone();
    for (int i = 0; i < z.length; i++) {
      raised[i] += raise;
    }
    same(
        measure(z, ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1),
        measure(raised, ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1),
        i -> i,
        1);
  }

  @Property(tries = 16, seed = "14")
  void enlargedGroundGrowsEveryLayerByItsUnit(
      @ForAll int seed,
      @ForAll @IntRange(max = 3) int m,
      @ForAll @IntRange(min = -3, max = 6) int k) {
    float[] z = TestGround.rough(ROWS, COLS, seed);
    double size = Math.scalb(1.0, k);
    float[] large = z.clone();
    for (int i = 0; i < z.length; i++) {
      large[i] *= (float) size;
    }
    same(
        measure(z, ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1),
        measure(large, ROWS, COLS, CELL_X_M * size, CELL_Y_M * size, method(m), size),
        i -> i,
        size);
  }

  @Property(tries = 16, seed = "15")
  void movedGroundMovesEveryLayer(
      @ForAll int seed,
      @ForAll @IntRange(max = 3) int m,
      @ForAll @IntRange(min = 1, max = 6) int east) {
    float[] z = TestGround.rough(ROWS, COLS + east, seed);
    float[] west = new float[ROWS * COLS];
    float[] moved = new float[ROWS * COLS];
    for (int i = 0; i < west.length; i++) {
      west[i] = z[i / COLS * (COLS + east) + i % COLS];
      moved[i] = z[i / COLS * (COLS + east) + i % COLS + east];
    }
    Map<String, Measured> a = measure(west, ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1);
    Map<String, Measured> b = measure(moved, ROWS, COLS, CELL_X_M, CELL_Y_M, method(m), 1);
    int halo = 6;
    for (String name : a.keySet()) {
      for (int row = halo; row < ROWS - halo; row++) {
        for (int col = halo + east; col < COLS - halo; col++) {
          float want = a.get(name).values[row * COLS + col];
          float got = b.get(name).values[row * COLS + col - east];
          assertEquals(want, got, 1e-5 * Math.abs(want), name);
        }
      }
    }
  }

  @Property(tries = 16, seed = "16")
  void figuresOverLagsFollowToo(
      @ForAll int seed, @ForAll @IntRange(min = -9000, max = 9000) int raise) {
    float[] z = TestGround.rough(64, 80, seed);
    IntUnaryOperator turn = i -> (i % 80) * 64 + (63 - i / 80);
    float[] changed = new float[z.length];
    for (int i = 0; i < z.length; i++) {
      changed[turn.applyAsInt(i)] = 4 * (z[i] + raise);
    }
    Scaling a = Scaling.of(HeightRows.of(new FloatGrid(TestGround.spec(64, 80, 1, 1.25), z)), 3);
    Scaling b =
        Scaling.of(HeightRows.of(new FloatGrid(TestGround.spec(80, 64, 5, 4), changed)), 12);
    for (Scaling.Lag lag : a.lags()) {
      Scaling.Lag turned =
          b.lags().stream()
              .filter(l -> !l.along().equals(lag.along()) && l.lagM() == 4 * lag.lagM())
              .findFirst()
              .orElseThrow();
      assertEquals(4 * lag.deviationM(), turned.deviationM(), 1e-9 * turned.deviationM());
      assertEquals(lag.rmsSlopeDeg(), turned.rmsSlopeDeg(), 1e-9);
      assertEquals(lag.medianDifferentialSlopeDeg(), turned.medianDifferentialSlopeDeg(), 1e-9);
    }
    assertEquals(a.law().hurst(), b.law().hurst(), 1e-9);
    assertEquals(a.law().r2(), b.law().r2(), 1e-9);
    assertEquals(4 * a.estimate().deviationM(), b.estimate().deviationM(), 1e-7);
    assertTrue(a.estimate().lowM() <= a.estimate().deviationM());
    assertTrue(a.estimate().highM() >= a.estimate().deviationM());
  }
}
