package org.scarpway.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Horizons and links where the ground has voids, collars without data, and an end. */
class UnknownGroundTest {
  private static final double MOON_M = 1_737_400;
  private static final int N = 80;
  private static final double CELL_M = 10;

  /** Random ground, without data in a collar and in single cells. */
  private static FloatGrid ground(Random random, int collar, double voids) {
    GridSpec spec = new GridSpec(N, N, CELL_M, CELL_M, 0, N * CELL_M, "");
    float[] z = new float[N * N];
    for (int i = 0; i < z.length; i++) {
      int row = Math.floorDiv(i, N);
      int in = Math.min(Math.min(row, N - 1 - row), Math.min(i % N, N - 1 - i % N));
      float height = (float) (random.nextGaussian() * 3 + 20 * Math.sin(row / 9.0 + i % N / 15.0));
      z[i] = in < collar || random.nextDouble() < voids ? Float.NaN : height;
    }
    return new FloatGrid(spec, z);
  }

  private static Horizons sweep(SweepGround ground, FarGround far, int azimuths) {
    try (Workers workers = new Workers(2)) {
      return new HorizonSweep(
              ground, far, MOON_M, ProductCells.of(ground.spec(), 1), new double[] {2}, azimuths)
          .horizons(null, workers, Progress.NONE)
          .get(0);
    }
  }

  /** True if the horizon along a row or column is not surely known, found cell by cell. */
  private static boolean unsure(FloatGrid z, int row, int col, int down, int right) {
    double low = MOON_M + HeightRows.of(z).lowestM();
    double eye = MOON_M + z.values()[row * N + col] + 2;
    double best = Double.NEGATIVE_INFINITY;
    boolean last = true;
    boolean unknown = false;
    boolean gap = false;
    int k = 1;
    for (int r = row + down, c = col + right; r >= 0 && c >= 0 && r < N && c < N; k++) {
      double there = MOON_M + z.values()[r * N + c];
      if (Double.isNaN(there)) {
        unknown = true;
      } else {
        gap |= unknown;
        double t = k * CELL_M / MOON_M;
        double tan = (there * Math.cos(t) - eye) / (there * Math.sin(t));
        last = tan > best;
        best = Math.max(best, tan);
      }
      r += down;
      c += right;
    }
    double floor = -Math.tan(Math.acos(low / eye));
    return last || gap || floor > best + CELL_M / MOON_M;
  }

  @Test
  void whatIsNotSurelyKnownIsMarked() {
    Random random = new Random(23);
    int[][] ways = {{-1, 0}, {0, 1}, {1, 0}, {0, -1}};
    int marked = 0;
    int cells = 0;
    for (int k = 0; k < 12; k++) {
      FloatGrid z = ground(random, random.nextInt(20), k % 3 * 0.002);
      SweepGround ground = SweepGround.of(HeightRows.of(z), null);
      Horizons h = sweep(ground, null, 4);
      Sight sight = new Sight(ground, null, MOON_M);
      for (int n = 0; n < 300; n++) {
        int row = random.nextInt(N);
        int col = random.nextInt(N);
        if (!ground.knows(row, col)) {
          continue;
        }
        int expected = 0;
        Sight.Around around = sight.horizon(row, col, 2, 4);
        for (int a = 0; a < 4; a++) {
          boolean unsure = unsure(z, row, col, ways[a][0], ways[a][1]);
          assertEquals(unsure, around.atEdge().get(a), "ray " + a + " of " + row + " " + col);
          expected += unsure ? 1 : 0;
        }
        assertEquals(expected, 4 * h.edgeShare(row * N + col), 1e-6, row + " " + col);
        marked += expected;
        cells++;
      }
    }
    assertTrue(marked > cells / 4 && marked < 4 * cells, marked + " of " + 4 * cells);
  }

  /** A collar without data changes nothing: the data end where the heights do. */
  @Test
  void collarsAreNoGround() {
    Random random = new Random(5);
    int collar = 15;
    int n = N - 2 * collar;
    FloatGrid z = ground(random, collar, 0);
    FloatGrid cut = new FloatGrid(z.spec().part(collar, collar, n, n), new float[n * n]);
    for (int r = 0; r < n; r++) {
      System.arraycopy(z.values(), (collar + r) * N + collar, cut.values(), r * n, n);
    }
    Sight whole = new Sight(SweepGround.of(HeightRows.of(z), null), null, MOON_M);
    Sight part = new Sight(SweepGround.of(HeightRows.of(cut), null), null, MOON_M);
    for (int k = 0; k < 100; k++) {
      int r = random.nextInt(n);
      int c = random.nextInt(n);
      assertEquals(
          part.horizon(r, c, 2, 24), whole.horizon(collar + r, collar + c, 2, 24), r + " " + c);
    }
  }

  /** Where the ground has no height, that of wider ground stands in its place. */
  @Test
  void widerGroundFillsCollarsAndVoids() {
    Random random = new Random(8);
    FloatGrid all = ground(random, 0, 0);
    FloatGrid some = new FloatGrid(all.spec(), all.values().clone());
    FloatGrid voids = ground(random, 12, 0.05);
    for (int i = 0; i < N * N; i++) {
      // The outermost half cell of wider ground holds no height between four cells.
      int row = Math.floorDiv(i, N);
      boolean rim = row == 0 || row == N - 1 || i % N == 0 || i % N == N - 1;
      some.values()[i] = Double.isNaN(voids.values()[i]) && !rim ? Float.NaN : some.values()[i];
    }
    FarGround far = new FarGround(all, 0);
    SweepGround filled = SweepGround.of(HeightRows.of(some), far, null);
    Horizons a = sweep(SweepGround.of(HeightRows.of(all), far, null), far, 24);
    Horizons b = sweep(filled, far, 24);
    for (int i = 0; i < N * N; i++) {
      assertEquals(
          !Double.isNaN(some.values()[i]), filled.knows(Math.floorDiv(i, N), i % N), "known " + i);
      assertEquals(a.edgeShare(i), b.edgeShare(i));
      for (int k = 0; k < 24; k++) {
        assertEquals(a.elevationDeg(k, i), b.elevationDeg(k, i), 1.1f / 364);
      }
    }
  }

  /** A slope that falls to the edge of the data has no horizon below the level of the lowest. */
  @Test
  void slopesAreNoHorizon() {
    Random random = new Random(3);
    for (int k = 0; k < 20; k++) {
      double slope = Math.tan(Math.toRadians(1 + 25 * random.nextDouble()));
      FloatGrid z = ground(random, 0, 0);
      for (int i = 0; i < N * N; i++) {
        z.values()[i] = (float) (-slope * CELL_M * Math.floorDiv(i, N));
      }
      SweepGround ground = SweepGround.of(HeightRows.of(z), null);
      int row = random.nextInt(N - 2);
      Sight.Around around = new Sight(ground, null, MOON_M).horizon(row, 40, 2, 4);
      double low = MOON_M + z.values()[N * N - 1];
      double dip = -Math.toDegrees(Math.acos(low / (MOON_M + z.values()[row * N] + 2)));
      assertEquals(dip, around.elevationDeg().get(2), 1e-4);
      assertTrue(around.atEdge().get(2), "marked");
      Horizons h = sweep(ground, null, 4);
      assertEquals(dip, h.elevationDeg(2, row * N + 40), 1.0 / 364);
      assertTrue(h.edgeShare(row * N + 40) > 0);
    }
  }

  /** No link is claimed over ground without height, nor to a mast on it. */
  @Test
  void linksOverVoidsAreUnknown() {
    Random random = new Random(9);
    for (int k = 0; k < 200; k++) {
      FloatGrid z = ground(random, 0, 0);
      int from = random.nextInt(30);
      int to = 40 + random.nextInt(30);
      int hole = from + random.nextInt(to - from);
      z.values()[hole * N + 20] = Float.NaN;
      Sight sight = new Sight(SweepGround.of(HeightRows.of(z), null), null, MOON_M);
      Sight.Mast mast = new Sight.Mast(from, 20, 500);
      assertTrue(Double.isNaN(sight.neededM(mast, null, to, 20)), "over a void");
      assertTrue(Double.isNaN(sight.link(mast, to, 20, 2).clearM()));
      assertTrue(sight.neededM(new Sight.Mast(from, 30, 500), null, to, 30) <= 500);
    }
  }
}
