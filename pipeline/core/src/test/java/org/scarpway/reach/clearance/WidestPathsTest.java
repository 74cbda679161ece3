package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Widest paths by blocks against one search over all points, bit for bit. */
class WidestPathsTest {
  private static final int[] SIDES = {3, 4, 7, 16, 33, 64, 513};

  /** Random ground: scattered cells, walls or blobs, or hardly a barrier at all. */
  private static boolean[] barriers(GridSpec spec, Random random) {
    boolean[] barrier = new boolean[spec.cells()];
    int kind = random.nextInt(4);
    int n = kind == 3 ? random.nextInt(3) : 1 + random.nextInt(1 + spec.cells() / 12);
    for (int i = 0; i < n; i++) {
      int row = random.nextInt(spec.rows());
      int col = random.nextInt(spec.cols());
      int size = kind == 0 ? 0 : random.nextInt(kind == 1 ? 12 : 4);
      boolean across = random.nextBoolean();
      for (int r = row; r <= row + (kind == 1 && across ? 0 : size); r++) {
        for (int c = col; c <= col + (kind == 1 && !across ? 0 : size); c++) {
          if (spec.holds(r, c)) {
            barrier[r * spec.cols() + c] = true;
          }
        }
      }
    }
    return barrier;
  }

  private static TraversalCost field(GridSpec spec, boolean[] barrier, ScratchFile file) {
    Ints allowed = Ints.of(spec.cells(), file);
    for (int i = 0; i < barrier.length; i++) {
      allowed.set(i, barrier[i] ? 0 : -1);
    }
    Floats level = Floats.of(spec.cells(), file);
    return new TraversalCost(spec, allowed, level, level, null, Fields.constant(1));
  }

  private static int[] bits(Floats widthsM) {
    int[] bits = new int[widthsM.size()];
    for (int i = 0; i < bits.length; i++) {
      bits[i] = Float.floatToRawIntBits(widthsM.get(i));
    }
    return bits;
  }

  private static int differing(
      TraversalCost field, int base, int side, Workers workers, ScratchFile file) {
    int n = field.spec().cells();
    Clearance clearance = Clearance.of(field, workers);
    Floats plain = Floats.of(new float[n]);
    PlainWidestPaths.spread(clearance, field, base, plain);
    Floats byBlocks = Floats.of(n, file);
    WidestPaths.spread(clearance, field, base, byBlocks, workers, side);
    int[] expected = bits(plain);
    int[] found = bits(byBlocks);
    int differ = 0;
    for (int i = 0; i < n; i++) {
      differ += expected[i] == found[i] ? 0 : 1;
    }
    return differ;
  }

  @Test
  void blocksFindWhatOneSearchFinds() {
    Random random = new Random(11);
    try (Workers one = new Workers(1);
        Workers two = new Workers(2)) {
      for (int k = 0; k < 400; k++) {
        double cellYM = k % 3 == 0 ? 3 : 2;
        GridSpec spec =
            new GridSpec(1 + random.nextInt(50), 1 + random.nextInt(50), 2, cellYM, 40, 900, "");
        boolean[] barrier = barriers(spec, random);
        ScratchFile file = k % 10 == 0 ? new Memory().scratch() : null;
        TraversalCost field = field(spec, barrier, file);
        int side = SIDES[k % SIDES.length];
        for (int n = 0; n < 2; n++) {
          int base = random.nextInt(spec.cells());
          int differ = differing(field, base, side, n == 0 ? one : two, file);
          assertEquals(0, differ, "ground " + k + ", base " + base + ", side " + side);
        }
      }
    }
  }

  /** Wide discs, of which many cover no cell alone, and some too wide to be compared as squares. */
  @Test
  void widestDiscsCoverWhatAllDiscsCover() {
    Random random = new Random(12);
    try (Workers workers = new Workers(2)) {
      for (int k = 0; k < 8; k++) {
        int size = k == 0 ? 700 : 200;
        GridSpec spec = Fields.grid(size, size + 3, k % 2 == 0 ? 5 : 0.7, 0, 0);
        boolean[] barrier = new boolean[spec.cells()];
        for (int i = 0; i < 1 + 6 * k; i++) {
          barrier[random.nextInt(k == 0 ? 50 : spec.cells())] = true;
        }
        TraversalCost field = field(spec, barrier, null);
        assertEquals(0, differing(field, spec.cells() / 2, 200, workers, null), "ground " + k);
      }
    }
  }

  @Test
  void mostDiscsOnASlopeAreWithinTheirNeighbours() {
    GridSpec spec = Fields.grid(101, 101, 1, 0, 0);
    boolean[] barrier = new boolean[spec.cells()];
    barrier[50 * 101 + 50] = true;
    TraversalCost field = field(spec, barrier, null);
    try (Workers workers = new Workers(1)) {
      Clearance clearance = Clearance.of(field, workers);
      Floats carriedM = Floats.of(new float[clearance.rows() * clearance.cols()]);
      for (int p = 0; p < carriedM.size(); p++) {
        carriedM.set(p, clearance.widthAtM(p));
      }
      int count = BlockDiscs.of(clearance, carriedM, 0, 0, clearance.rows(), null).count();
      // All that is left lies along the edge of the grid, where no wider disc is known.
      assertTrue(count <= 4 * clearance.rows(), count + " discs");
      assertTrue(count > 0);
    }
  }
}
