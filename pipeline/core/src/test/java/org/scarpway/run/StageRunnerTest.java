package org.scarpway.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.run.plan.ProgressStyle;
import org.scarpway.run.progress.ConsoleLog;
import org.scarpway.run.progress.RunLog;
import org.scarpway.run.progress.StageOrigin;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageKey;
import org.scarpway.run.store.StageStore;
import org.scarpway.run.unit.StageNode;
import org.scarpway.run.unit.StageTask;
import org.scarpway.stage.Memory;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/** A fault in a question ends that question and those that rest on it, whatever the fault is. */
class StageRunnerTest {
  @TempDir Path dir;

  /** Writes a file, or throws while it computes or writes. */
  private record Fake(String id, boolean isQuestion, String fault, boolean writing)
      implements StageTask<String> {
    @Override
    public StageKey key() {
      return StageKey.of(id, 1).build();
    }

    @Override
    public long cells() {
      return 1;
    }

    private void strike(boolean here) {
      if (!here || fault == null) {
        return;
      }
      switch (fault) {
        case "user" -> throw UserError.of("stop", "no way", "a way", "move it");
        case "disk" -> throw new StageFailure("no space");
        case "index" -> throw new ArrayIndexOutOfBoundsException("Index 32");
        case "nothing" -> throw new NullPointerException();
        case "state" -> throw new IllegalStateException("no straight way leads on");
        case "memory" -> throw new OutOfMemoryError("heap");
        case "deep" -> strike(true, 0);
        case "page" -> throw new InternalError("a fault occurred");
        default -> throw new IllegalArgumentException(fault);
      }
    }

    private int strike(boolean deeper, int depth) {
      return deeper ? strike(true, depth + 1) + 1 : depth;
    }

    @Override
    public void make(Path folder) {
      strike(!writing);
      try {
        Files.writeString(folder.resolve("half.txt"), id);
        strike(writing);
        Files.writeString(folder.resolve("whole.txt"), id);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public String load(Path folder) {
      return id;
    }
  }

  private static Fake sound(String id, boolean question) {
    return new Fake(id, question, null, false);
  }

  @ParameterizedTest
  @ValueSource(strings = {"user", "disk", "index", "nothing", "state", "memory", "deep", "page"})
  void endsItsOwnQuestionOnly(String fault) {
    for (boolean writing : List.of(false, true)) {
      Path folder = dir.resolve(fault + writing);
      try (JobLock lock = JobLock.take(folder)) {
        StageRunner runner = runner(lock);
        StageNode<String> ground = new StageNode<>(sound("ground", false));
        StageNode<String> bad =
            new StageNode<>(new Fake("reach/bad", true, fault, writing), ground);
        StageNode<String> other = new StageNode<>(sound("reach/other", true), ground);
        StageNode<String> resting = new StageNode<>(sound("sites", true), bad, other);
        List.of(ground, bad, other, resting).forEach(runner::finish);
        assertTrue(ground.isFinished() && other.isFinished());
        assertNull(other.failure());
        assertTrue(bad.failure().startsWith("reach/bad: "), bad.failure());
        assertEquals(1, bad.failure().lines().count(), bad.failure());
        assertEquals("sites: rests on reach/bad, which failed", resting.failure());
        assertEquals(2, runner.failures().size());
        assertTrue(Files.notExists(folder.resolve("reach/bad")), "nothing half-written stays");
        assertTrue(Files.exists(folder.resolve("reach/other/whole.txt")));
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"user", "disk", "index", "nothing", "memory", "deep", "page"})
  void endsTheRunWhereOthersRestOnIt(String fault) {
    try (JobLock lock = JobLock.take(dir.resolve(fault))) {
      StageNode<String> ground = new StageNode<>(new Fake("ground", false, fault, false));
      StageRunner runner = runner(lock);
      StageFailure e = assertThrows(StageFailure.class, () -> runner.finish(ground));
      assertTrue(e.getMessage().startsWith("ground: "), e.getMessage());
    }
  }

  @Test
  void damageIsFoundAndComputedAnew() throws IOException {
    Path folder = dir.resolve("damaged");
    try (JobLock lock = JobLock.take(folder)) {
      runner(lock).finish(new StageNode<>(sound("ground", false)));
      Path file = folder.resolve("ground/whole.txt");
      var before = Files.getLastModifiedTime(file);
      Files.writeString(file, "groumd");
      Files.setLastModifiedTime(file, before);
      StageRunner again = runner(lock);
      again.finish(new StageNode<>(sound("ground", false)));
      assertEquals("ground", Files.readString(file));
      assertEquals(StageOrigin.COMPUTED, again.done().get("ground").from());
    }
  }

  private static StageRunner runner(JobLock lock) {
    RunLog silent =
        new ConsoleLog(new PrintStream(PrintStream.nullOutputStream()), ProgressStyle.quiet);
    return new StageRunner(
        lock, new StageStore(null, 0, new FileDigests()), silent, false, new Memory());
  }
}
