package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.run.store.ContentFiles;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Whatever was asked before, in this run or earlier ones, every front is the one made anew. */
class KeptFrontsTest {
  @TempDir Path dir;

  private static final GridSpec SPEC = new GridSpec(67, 71, 5, 6, 0, 900, "");
  private static final int N = SPEC.cells();
  private static final double ALL = Double.POSITIVE_INFINITY;

  /** Remembers everything, and how often it was asked in vain. */
  private static final class Remembered implements ContentStore {
    private final Map<String, byte[]> entries = new HashMap<>();
    private int given;

    @Override
    public boolean holds(String key) {
      return entries.containsKey(key);
    }

    @Override
    public synchronized <T> T read(String key, Reader<T> reader) {
      byte[] bytes = entries.get(key);
      if (bytes == null) {
        return null;
      }
      given++;
      try {
        return reader.readFrom(new ByteArrayInputStream(bytes));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public synchronized void write(String key, long bytes, Writer writer) {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      try {
        writer.writeTo(out);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      entries.put(key, out.toByteArray());
    }
  }

  private final SplittableRandom random = new SplittableRandom(5);

  private static TraversalCost ground(long seed, ContentStore store) {
    TraversalCost field = FrontTest.rough(SPEC, seed);
    field.memory().keepIn(store);
    return field;
  }

  /** A question of one front, by its budget; another one of all within a time. */
  private record Asked(
      boolean timed,
      boolean oneWay,
      Quantity quantity,
      Direction direction,
      double budget,
      int base) {
    CostField of(TraversalCost field, Workers workers) {
      if (!timed) {
        return Fronts.begin(field, quantity, direction, budget, Progress.NONE, base).labels();
      }
      TimeBudgetDomain domain =
          TimeBudgetDomain.of(field, field, base, oneWay, budget, workers, Progress.NONE);
      return Fronts.begin(quantity, direction, ALL, domain, Progress.NONE).labels();
    }

    BitSet within(TraversalCost field, Workers workers) {
      return timed
          ? TimeBudgetDomain.of(field, field, base, oneWay, budget, workers, Progress.NONE).within()
          : new BitSet();
    }
  }

  private Asked asked(int base) {
    Quantity quantity = Quantity.values()[random.nextInt(3)];
    boolean timed = random.nextInt(3) == 0;
    double most =
        timed || quantity == Quantity.TIME_S ? 600 : quantity == Quantity.ENERGY_J ? 5e5 : 600;
    double budget = random.nextInt(4) == 0 ? ALL : most * random.nextDouble();
    boolean oneWay = random.nextInt(3) == 0;
    Direction direction = Direction.values()[random.nextInt(2)];
    return new Asked(
        timed, oneWay, quantity, direction, timed ? Math.min(budget, 700) : budget, base);
  }

  @Test
  void whatWasAskedBeforeChangesNothing() {
    Remembered store = new Remembered();
    int reached = 0;
    try (Workers workers = new Workers(2)) {
      for (int k = 0; k < 12; k++) {
        long seed = random.nextInt(2);
        TraversalCost field = ground(seed, store);
        for (int q = 0; q < 5; q++) {
          Asked asked = asked(2000 + random.nextInt(2));
          TraversalCost anew = ground(seed, ContentStore.NONE);
          CostField got = asked.of(field, workers);
          ContinuedFrontTest.assertSame(asked.of(anew, workers), got, "run " + k + " " + asked);
          assertEquals(asked.within(anew, workers), asked.within(field, workers), "" + asked);
          reached += got.reached(1900) ? 1 : 0;
        }
      }
    }
    assertTrue(store.given > 10, store.given + " fronts of earlier runs");
    assertTrue(reached > 10, reached + " reached");
  }

  @Test
  void frontsOfOtherQuestionsUnderTheirNamesChangeNothing() throws IOException {
    for (int k = 0; k < 6; k++) {
      Path folder = dir.resolve("fronts" + k);
      ContentStore store = new ContentFiles(folder, 100_000_000, false);
      try (Workers workers = new Workers(2)) {
        List<Asked> questions = new ArrayList<>();
        for (Quantity quantity : Quantity.values()) {
          for (Direction direction : Direction.values()) {
            int base = 2000 + random.nextInt(3);
            questions.add(new Asked(false, false, quantity, direction, ALL, base));
          }
        }
        TraversalCost before = ground(k, store);
        questions.forEach(q -> q.of(before, workers));
        rotate(folder, 1 + random.nextInt(questions.size() - 1));
        TraversalCost after = ground(k, store);
        TraversalCost anew = ground(k, ContentStore.NONE);
        for (Asked q : questions) {
          ContinuedFrontTest.assertSame(q.of(anew, workers), q.of(after, workers), "" + q);
        }
      }
    }
  }

  private static void rotate(Path folder, int by) throws IOException {
    List<Path> files;
    try (Stream<Path> list = Files.list(folder)) {
      files = list.sorted().toList();
    }
    assertTrue(files.size() > by, files.size() + " fronts kept");
    List<byte[]> contents = new ArrayList<>();
    for (Path file : files) {
      contents.add(Files.readAllBytes(file));
    }
    for (int i = 0; i < files.size(); i++) {
      Files.write(files.get(i), contents.get((i + by) % files.size()));
    }
  }

  @Test
  void aLargerFrontServesASmallerOneAndTheSameOneIsShared() {
    TraversalCost field = ground(3, ContentStore.NONE);
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    KeptFronts kept = KeptFronts.of(costs);
    KeptFronts.Key key = KeptFronts.key(costs, Quantity.TIME_S, 2000);
    CostField all =
        Fronts.begin(field, Quantity.TIME_S, Direction.OUT, ALL, Progress.NONE, 2000).labels();
    assertSame(all, kept.found(key, ALL));
    double some = all.value(2030);
    CostField less = kept.found(key, some);
    for (int cell = 0; cell < N; cell++) {
      assertEquals(all.value(cell) <= some ? all.value(cell) : ALL, less.value(cell));
    }
  }

  @Test
  void keysDifferInEverythingThatLabelsDependOn() {
    TraversalCost field = ground(3, ContentStore.NONE);
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    String key = KeptFronts.key(costs, Quantity.TIME_S, 2000).digest();
    Costs copy = new Costs(ground(3, ContentStore.NONE), Quantity.TIME_S, Direction.OUT);
    assertEquals(key, KeptFronts.key(copy, Quantity.TIME_S, 2000).digest());
    Costs home = new Costs(field, Quantity.TIME_S, Direction.HOME);
    Costs joules = new Costs(field, Quantity.ENERGY_J, Direction.OUT);
    Costs other = new Costs(ground(4, ContentStore.NONE), Quantity.TIME_S, Direction.OUT);
    List<KeptFronts.Key> others =
        List.of(
            KeptFronts.key(costs, Quantity.TIME_S, 2001),
            KeptFronts.key(costs, Quantity.TIME_S, 2000, 2001),
            KeptFronts.key(costs, Quantity.TIME_S, "within", 2000),
            KeptFronts.key(home, Quantity.TIME_S, 2000),
            KeptFronts.key(joules, Quantity.ENERGY_J, 2000),
            KeptFronts.key(other, Quantity.TIME_S, 2000));
    others.forEach(k -> assertNotEquals(key, k.digest()));
    assertEquals(others.size(), others.stream().map(KeptFronts.Key::digest).distinct().count());
  }

  /** Ground that differs in one place asks for no whole front, and for no other bit. */
  @Test
  void groundChangedInOnePlaceRepairsTheKeptFront() {
    GridSpec spec = new GridSpec(260, 270, 5, 6, 0, 1600, "");
    int source = 30 * spec.cols() + 40;
    for (int k = 0; k < 6; k++) {
      Remembered store = new Remembered();
      TraversalCost before = FrontTest.rough(spec, random.nextLong());
      before.memory().keepIn(store);
      Quantity quantity = Quantity.values()[k % 3];
      Direction direction = Direction.values()[k % 2];
      Costs costs = new Costs(before, quantity, direction);
      KeptFronts.Key key = KeptFronts.key(costs, quantity, source);
      KeptFronts.of(costs).keep(key, Front.spread(costs, Progress.NONE, source));
      BitSet area = new BitSet();
      for (int row = 100; row < 150 + 10 * k; row++) {
        int first = row * spec.cols() + 80 + random.nextInt(9);
        area.set(first, first + 40);
      }
      TraversalCost after =
          ChangedGroundTest.changed(before, FrontTest.rough(spec, k), area, k % 4);
      after.memory().keepIn(store);
      Costs now = new Costs(after, quantity, direction);
      KeptFronts.Key other = KeptFronts.key(now, quantity, source);
      assertEquals(null, KeptFronts.of(now).any(other));
      Front front = KeptFronts.of(now).front(other, ALL);
      assertTrue(front.soFar().reached(source + 60), "labels of the kept front");
      front.work(Progress.NONE);
      CostField labels = front.labels();
      ContinuedFrontTest.assertSame(
          Front.spread(now, Progress.NONE, source), labels, quantity + " on ground " + k);
      KeptFronts.of(now).keep(other, labels);
      // Back to the ground before, from the front of the changed one.
      store.entries.remove(key.digest());
      TraversalCost back = ChangedGroundTest.changed(before, before, new BitSet(), 0);
      back.memory().keepIn(store);
      Costs again = new Costs(back, quantity, direction);
      Front repaired = KeptFronts.of(again).repaired(KeptFronts.key(again, quantity, source), ALL);
      repaired.work(Progress.NONE);
      ContinuedFrontTest.assertSame(
          Front.spread(again, Progress.NONE, source), repaired.labels(), "back on ground " + k);
    }
  }

  /** Nothing is repaired about a source, on much other ground, for other costs or other sources. */
  @Test
  void otherGroundMakesTheFrontAnew() {
    GridSpec spec = new GridSpec(260, 270, 5, 6, 0, 1600, "");
    int source = 30 * spec.cols() + 40;
    Remembered store = new Remembered();
    TraversalCost before = FrontTest.rough(spec, 3);
    before.memory().keepIn(store);
    Costs costs = new Costs(before, Quantity.TIME_S, Direction.OUT);
    KeptFronts.of(costs)
        .keep(
            KeptFronts.key(costs, Quantity.TIME_S, source),
            Front.spread(costs, Progress.NONE, source));
    BitSet far = new BitSet();
    far.set(200 * spec.cols() + 200, 200 * spec.cols() + 210);
    BitSet near = new BitSet();
    near.set(33 * spec.cols() + 43);
    BitSet much = new BitSet();
    much.set(90 * spec.cols(), 260 * spec.cols());
    for (BitSet area : List.of(far, near, much)) {
      TraversalCost after = ChangedGroundTest.changed(before, FrontTest.rough(spec, 9), area, 1);
      after.memory().keepIn(store);
      Costs now = new Costs(after, Quantity.TIME_S, Direction.OUT);
      KeptFronts kept = KeptFronts.of(now);
      boolean repaired = kept.repaired(KeptFronts.key(now, Quantity.TIME_S, source), ALL) != null;
      assertEquals(area.equals(far), repaired);
      assertEquals(null, kept.repaired(KeptFronts.key(now, Quantity.TIME_S, source + 1), ALL));
      assertEquals(null, kept.repaired(KeptFronts.key(now, Quantity.TIME_S, "b", source), ALL));
      Costs home = new Costs(after, Quantity.TIME_S, Direction.HOME);
      assertEquals(null, kept.repaired(KeptFronts.key(home, Quantity.TIME_S, source), ALL));
    }
  }
}
