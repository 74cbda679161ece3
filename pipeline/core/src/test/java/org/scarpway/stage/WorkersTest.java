package org.scarpway.stage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

class WorkersTest {
  private static final Duration LONG = Duration.ofSeconds(30);

  /** Trees of tasks that ask for tasks end, on any number of threads, with every leaf run once. */
  @Test
  void tasksThatAskForTasksEnd() {
    Random random = new Random(11);
    for (int trial = 0; trial < 40; trial++) {
      int depth = 1 + random.nextInt(4);
      int width = 1 + random.nextInt(5);
      AtomicInteger leaves = new AtomicInteger();
      try (Workers workers = new Workers(1 + random.nextInt(3))) {
        assertTimeoutPreemptively(LONG, () -> ask(workers, depth, width, leaves));
      }
      assertEquals((int) Math.pow(width, depth), leaves.get());
    }
  }

  private static void ask(Workers workers, int depth, int width, AtomicInteger leaves) {
    List<Runnable> tasks = new ArrayList<>();
    for (int i = 0; i < width; i++) {
      tasks.add(
          () -> {
            if (depth == 1) {
              workers.overRows(1, (from, to) -> leaves.incrementAndGet());
            } else {
              ask(workers, depth - 1, width, leaves);
            }
          });
    }
    workers.all(tasks);
  }

  @Test
  void aFailureOfANestedTaskIsThrownAsItIs() {
    try (Workers workers = new Workers(2)) {
      Runnable fails =
          () -> {
            throw new IllegalArgumentException("leaf");
          };
      Runnable asks = () -> workers.all(List.of(() -> {}, fails));
      IllegalArgumentException e =
          assertThrows(IllegalArgumentException.class, () -> workers.all(List.of(asks, asks)));
      assertEquals("leaf", e.getMessage());
    }
  }

  /** The threads of another engine are not its own: their tasks run on its threads. */
  @Test
  void enginesMayAskEachOther() {
    AtomicInteger done = new AtomicInteger();
    try (Workers one = new Workers(1);
        Workers other = new Workers(1)) {
      Runnable asks = () -> other.overRows(200, (from, to) -> done.addAndGet(to - from));
      assertTimeoutPreemptively(LONG, () -> one.all(List.of(asks, asks)));
    }
    assertEquals(400, done.get());
  }
}
