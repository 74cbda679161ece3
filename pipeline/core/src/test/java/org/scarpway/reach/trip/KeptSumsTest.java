package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.run.store.ContentFiles;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.TraversalCost;

/** Sums that were kept are those added up anew, whatever befell the files they are kept in. */
class KeptSumsTest {
  private static final GridSpec SPEC = new GridSpec(61, 73, 5, 6, 0, 900, "");
  private static final int N = SPEC.cells();

  @TempDir Path dir;

  /** One front, on ground of its own, such as each run has. */
  private record Way(
      long ground, long heights, Quantity quantity, Direction direction, int from, int stops) {
    /** What a stop requires: nothing, a time, or a time and a battery that lasts until then. */
    private Stops required(double energyJ) {
      Random random = new Random(stops);
      float[] homeS = new float[N];
      float[] waitS = new float[N];
      for (int i = 0; i < N; i++) {
        homeS[i] = 500 * random.nextFloat();
        waitS[i] = 400 * random.nextFloat();
      }
      double none = Double.POSITIVE_INFINITY;
      ReachLimits limits =
          Fields.limits(HomeRule.BASE_RESCUE, 3000, energyJ, none, none, 10 + stops % 2);
      return stops == 0
          ? null
          : new Stops(limits, Floats.of(homeS), stops < 3 ? null : Floats.of(waitS), List.of());
    }

    PathSums along(ContentStore store, double energyJ) {
      TraversalCost field = FrontTest.rough(SPEC, ground);
      field.memory().keepIn(store);
      CostField labels = Front.spread(new Costs(field, quantity, direction), Progress.NONE, from);
      float[] heightM = new float[N];
      Random random = new Random(heights);
      for (int i = 0; i < N; i++) {
        heightM[i] = 10 * random.nextFloat();
      }
      boolean hasEnergy = Costs.hasEnergy(field);
      return stops == 0
          ? KeptSums.along(quantity, labels, Floats.of(heightM), hasEnergy)
          : KeptSums.along(quantity, labels, Floats.of(heightM), hasEnergy, required(energyJ));
    }
  }

  private static Way way(Random random) {
    return new Way(
        random.nextInt(3),
        random.nextInt(2),
        Quantity.values()[random.nextInt(3)],
        Direction.values()[random.nextInt(2)],
        N / 2 + random.nextInt(2),
        random.nextInt(5));
  }

  private void assertAsAnew(Way way) {
    // Limits decide which stops break one, not the sums.
    double energyJ = 2e5 * (way.ground + 3.0 * way.stops);
    PathSums kept = way.along(new ContentFiles(dir, 1L << 30, false), energyJ);
    PathSums anew = way.along(ContentStore.NONE, energyJ);
    assertEquals(anew.layers().size(), kept.layers().size());
    for (int cell = 0; cell < N; cell++) {
      assertBits(anew.timeS(cell), kept.timeS(cell), way + " time of cell " + cell);
      assertBits(anew.distanceM(cell), kept.distanceM(cell), way + " length of cell " + cell);
      assertBits((float) anew.usedJ(cell), (float) kept.usedJ(cell), way + " cell " + cell);
      if (way.stops > 0) {
        assertBits(anew.latestS(cell), kept.latestS(cell), way + " latest of cell " + cell);
        assertEquals(anew.broken(cell), kept.broken(cell), way + " stops before cell " + cell);
      }
      assertBits((float) anew.needJ(cell, 7), (float) kept.needJ(cell, 7), way + " cell " + cell);
      assertBits((float) anew.mostJ(cell), (float) kept.mostJ(cell), way + " cell " + cell);
    }
  }

  private static void assertBits(float anew, float kept, String what) {
    assertEquals(Float.floatToRawIntBits(anew), Float.floatToRawIntBits(kept), what);
  }

  private List<Path> files() throws IOException {
    try (Stream<Path> all = Files.list(dir)) {
      return all.sorted().toList();
    }
  }

  @Test
  void sumsOfAnyFrontAskedBeforeAreThoseAnew() throws IOException {
    Random random = new Random(3);
    for (int i = 0; i < 80; i++) {
      assertAsAnew(way(random));
    }
    assertTrue(files().size() < 80, "nothing was found again");
  }

  @Test
  void theSameFrontIsKeptOnceAndRead() throws IOException {
    Way way = new Way(1, 1, Quantity.ENERGY_J, Direction.HOME, N / 2, 0);
    assertAsAnew(way);
    List<Path> once = files();
    assertEquals(1, once.size());
    assertAsAnew(way);
    assertEquals(once, files());
    assertAsAnew(new Way(1, 0, Quantity.ENERGY_J, Direction.HOME, N / 2, 0));
    assertEquals(2, files().size(), "other heights are other sums");
  }

  @Test
  void damagedFilesAreNotBelieved() throws IOException {
    Random random = new Random(9);
    for (int i = 0; i < 12; i++) {
      Way way = way(random);
      assertAsAnew(way);
      for (Path file : files()) {
        byte[] bytes = Files.readAllBytes(file);
        if (bytes.length == 0) {
          continue; // cut to nothing for a way before, not asked for since
        }
        if (i % 2 == 0) {
          bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
        } else {
          bytes = Arrays.copyOf(bytes, random.nextInt(bytes.length));
        }
        Files.write(file, bytes);
      }
      assertAsAnew(way);
    }
  }
}
