package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/**
 * Whole jobs over any ground, vehicles, questions and places end with 0, 2 or 3 and keep what
 * {@link JobTrial} holds. {@code -Dscarpway.job=SEED} runs the job of one seed alone;
 * pipeline/bin/fuzz looks for more of them.
 */
class RandomJobFlowTest {
  /** About half a minute on two cores. */
  private static final int JOBS = 75;

  private static final Path CORPUS =
      Flow.ROOT.resolve("pipeline/core/src/test/resources/fuzz/jobs");

  private final Path work = RandomJobs.scratch();

  @AfterEach
  void clear() throws IOException {
    RandomJobs.remove(work);
  }

  @Test
  void randomJobsKeepTheirWord() throws IOException {
    Long one = Long.getLong("scarpway.job");
    List<String> faults = new ArrayList<>();
    int done = 0;
    for (long seed :
        LongStream.rangeClosed(one == null ? 1 : one, one == null ? JOBS : one).toArray()) {
      JobTrial.Ended ended = RandomJobs.trial(seed, work);
      done += ended.code() == 0 ? 1 : 0;
      ended.faults().forEach(f -> faults.add("-Dscarpway.job=" + seed + ": " + f));
    }
    assertEquals("", String.join("\n", faults));
    assertTrue(
        one != null || done > JOBS / 3, "only " + done + " of " + JOBS + " jobs are answered");
  }

  /** Jobs that once broke the program, made small. */
  @Test
  void jobsThatOnceBrokeKeepTheirWord() throws IOException {
    List<Path> folders;
    try (Stream<Path> all = Files.list(CORPUS)) {
      folders = all.sorted().toList();
    }
    List<String> faults = new ArrayList<>();
    for (Path folder : folders) {
      String name = folder.getFileName().toString();
      JobTrial.Ended ended = RandomJobs.trial(JobFiles.read(folder), work.resolve(name), true);
      ended.faults().forEach(f -> faults.add(name + ": " + f));
    }
    assertEquals("", String.join("\n", faults));
    assertTrue(folders.size() >= 3, "corpus of " + folders.size());
  }

  /** The same seed is the same job. */
  @Test
  void aSeedIsOneJob() throws IOException {
    for (long seed = 1; seed <= 20; seed++) {
      assertEquals(RandomJob.of(seed), RandomJob.of(seed));
    }
  }
}
