package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.store.ContentFiles;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** Widths kept between runs are those found anew; other ground or another base finds none. */
class WidestPathFieldTest {
  private static final GridSpec SPEC = new GridSpec(60, 70, 5, 5, 0, 300, "");
  private static final GradeTable TABLE =
      new GradeTable(-1, 1, new double[] {1, 1}, new double[] {1, 1}, 0, 0);

  @TempDir Path dir;

  private TraversalCost ground(Random random, Path store) {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    for (int i = 0; i < n; i++) {
      allowed[i] = random.nextInt(5) == 0 && i > 0 ? 0 : -1;
    }
    TraversalCost field =
        new TraversalCost(SPEC, allowed, new float[n], new float[n], null, null, TABLE);
    if (store != null) {
      field.memory().keepIn(new ContentFiles(store, 1L << 30, false));
    }
    return field;
  }

  private static Floats widths(TraversalCost field, int base) {
    try (Workers workers = new Workers(2)) {
      WidestPathField about = WidestPathField.about(base, field, workers);
      about.spread(workers);
      return about.bottleneckWidthM();
    }
  }

  private long entries(Path store) throws IOException {
    try (Stream<Path> files = Files.list(store)) {
      return files.count();
    }
  }

  @Test
  void keptWidthsAreThoseFoundAnew() throws IOException {
    for (int seed = 0; seed < 12; seed++) {
      Path store = dir.resolve("store" + seed);
      Floats anew = widths(ground(new Random(seed), null), 0);
      assertEquals(bits(anew), bits(widths(ground(new Random(seed), store), 0)));
      assertEquals(1, entries(store));
      assertEquals(bits(anew), bits(widths(ground(new Random(seed), store), 0)));
      assertEquals(1, entries(store));
      Floats other = widths(ground(new Random(seed + 100), store), 0);
      assertNotEquals(bits(anew), bits(other));
      assertEquals(2, entries(store));
    }
  }

  @Test
  void damagedWidthsAreFoundAnew() throws IOException {
    Random random = new Random(4);
    for (int seed = 0; seed < 12; seed++) {
      Path store = dir.resolve("store" + seed);
      Floats anew = widths(ground(new Random(seed), store), 0);
      try (Stream<Path> files = Files.list(store)) {
        for (Path file : files.toList()) {
          byte[] bytes = Files.readAllBytes(file);
          bytes[random.nextInt(bytes.length)] ^= 4;
          Files.write(file, bytes);
        }
      }
      assertEquals(bits(anew), bits(widths(ground(new Random(seed), store), 0)));
    }
  }

  private static List<Integer> bits(Floats values) {
    return Stream.iterate(0, i -> i + 1)
        .limit(values.size())
        .map(i -> Float.floatToRawIntBits(values.get(i)))
        .toList();
  }
}
