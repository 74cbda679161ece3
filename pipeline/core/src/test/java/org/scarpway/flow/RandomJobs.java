package org.scarpway.flow;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * Random whole jobs for as long as is asked, each from a seed of its own. Prints every seed whose
 * job breaks what {@link JobTrial} holds, how often each cause came, and leaves the first job of
 * each cause, made small.
 */
final class RandomJobs {
  private static final double LONG_S = 60;

  private final Path left;
  private final Path work = scratch();
  private final Map<String, Integer> causes = new LinkedHashMap<>();
  private final Map<String, Integer> endings = new TreeMap<>();

  private RandomJobs(Path left) {
    this.left = left;
  }

  /**
   * @param args seconds, first seed, folder that failing jobs are left in
   */
  public static void main(String[] args) throws IOException {
    RandomJobs jobs = new RandomJobs(Path.of(args[2]));
    jobs.run(Long.parseLong(args[1]), System.nanoTime() + Long.parseLong(args[0]) * 1_000_000_000L);
    System.exit(jobs.causes.isEmpty() ? 0 : 1);
  }

  private void run(long firstSeed, long until) throws IOException {
    long seed = firstSeed;
    for (; System.nanoTime() < until; seed++) {
      long from = System.nanoTime();
      JobTrial.Ended ended = trial(seed, work);
      double s = (System.nanoTime() - from) / 1e9;
      String said = ended.said().replaceAll("^\\S*/", "");
      endings.merge(ended.code() + " " + cause(said), 1, Integer::sum);
      if (s > LONG_S) {
        note(seed, String.format(Locale.ROOT, "takes more than %.0f s", LONG_S));
      }
      for (String fault : ended.faults()) {
        note(seed, fault);
      }
    }
    remove(work);
    System.out.println(seed - firstSeed + " jobs, from seed " + firstSeed);
    endings.forEach((ending, n) -> System.out.println(n + " x exit " + ending));
    causes.forEach((cause, n) -> System.out.println(n + " x BROKEN " + cause));
  }

  private void note(long seed, String fault) throws IOException {
    System.out.println("seed " + seed + ": " + fault);
    if (causes.merge(cause(fault), 1, Integer::sum) == 1) {
      JobFiles small = SmallerJob.of(RandomJob.of(seed), cause(fault), work.resolve("small"));
      System.out.println("  made small in " + small.write(left.resolve("job-" + seed)));
    }
  }

  /** One seed's job in a scratch folder that is gone afterwards; every fifth is run again. */
  static JobTrial.Ended trial(long seed, Path work) throws IOException {
    return trial(RandomJob.of(seed), work.resolve("seed-" + seed), seed % 5 == 0);
  }

  static JobTrial.Ended trial(JobFiles job, Path folder, boolean thorough) throws IOException {
    try {
      return JobTrial.run(job, folder, thorough);
    } finally {
      remove(folder);
    }
  }

  /** What faults of one cause share: no numbers, no names. */
  static String cause(String fault) {
    String words =
        fault
            .replaceAll("\\b(base|mark)\\d+", "place")
            .replaceAll("-?\\d+([.,]\\d+)*(E-?\\d+)?", "#");
    return words.substring(0, Math.min(words.length(), 160));
  }

  static Path scratch() {
    try {
      Path memory = Path.of("/dev/shm");
      return Files.isWritable(memory)
          ? Files.createTempDirectory(memory, "scarpway-jobs")
          : Files.createTempDirectory("scarpway-jobs");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static void remove(Path folder) throws IOException {
    if (!Files.exists(folder)) {
      return;
    }
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path p : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(p);
      }
    }
  }
}
