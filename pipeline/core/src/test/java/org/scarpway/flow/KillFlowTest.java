package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.cli.Main;

/**
 * The program is ended at seeded moments, by SIGKILL and by SIGTERM; the same command again gives
 * the products of an undisturbed run, byte for byte. -Dscarpway.kills=60 ends it more often than
 * the suite does.
 */
class KillFlowTest {
  private static final int KILLS = Integer.getInteger("scarpway.kills", 8);
  private static final long SEED = Long.getLong("scarpway.kills.seed", 20_260_711L);

  @TempDir Path dir;
  private final List<Path> jobs = new ArrayList<>();
  private final List<SortedMap<String, String>> undisturbed = new ArrayList<>();

  /** Two jobs of one name: each run over the other's products replaces all but the terrain. */
  @BeforeEach
  void undisturbedRuns() throws IOException {
    for (double marginM : new double[] {10, 14}) {
      Path folder = Files.createDirectories(dir.resolve("job-" + marginM));
      jobs.add(SmallJob.write(folder.resolve("job.yaml"), "small", marginM));
      Path out = dir.resolve("undisturbed-" + marginM);
      Flow.scarpway("run", jobs.get(jobs.size() - 1), "--out", out, "--quiet", "--no-store").ok();
      undisturbed.add(products(out));
    }
  }

  private static SortedMap<String, String> products(Path out) throws IOException {
    return Flow.digests(
        out.resolve("small"), n -> !n.matches("run.json|[.]lock") && !n.contains("mine"));
  }

  private Process start(Path err, List<Object> args) throws IOException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Xshare:auto",
                "-Djava.library.path=" + System.getProperty("java.library.path"),
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName()));
    args.forEach(a -> command.add(a.toString()));
    return new ProcessBuilder(command)
        .redirectError(err.toFile())
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  @Test
  void killedAtAnyMoment() throws Exception {
    SplittableRandom random = new SplittableRandom(SEED);
    Path out = dir.resolve("out");
    Path err = dir.resolve("err.txt");
    // How long a run takes in a process of its own, for moments spread over all of it.
    long startNs = System.nanoTime();
    Process whole = start(err, args(0, out, List.of("--fresh")));
    assertEquals(0, whole.waitFor(), () -> read(err));
    double wholeMs = (System.nanoTime() - startNs) * 1e-6;
    List<String> mine =
        List.of("terrain/mine.txt", "reach/day/mine.txt", "corridor/across/mine/x.txt", "mine.txt");
    for (String name : mine) {
      Path file = out.resolve("small").resolve(name);
      Files.createDirectories(file.getParent());
      Files.writeString(file, name);
    }
    SortedMap<String, Integer> struck = new TreeMap<>();
    int kills = 0;
    int ended = 0;
    while (kills < KILLS) {
      int variant = random.nextInt(2);
      List<Object> how =
          switch (random.nextInt(4)) {
            case 0 -> List.of("--no-store");
            case 1 -> List.of();
            default -> List.of("--fresh");
          };
      Process p = start(err, args(variant, out, how));
      long afterMs = (long) (random.nextDouble() * wholeMs);
      if (!p.waitFor(afterMs, TimeUnit.MILLISECONDS)) {
        p.destroyForcibly();
      }
      if (p.waitFor() == 0) {
        assertTrue(++ended <= 10 * KILLS, "runs end before they are killed");
        continue;
      }
      assertEquals(137, p.exitValue(), () -> "128 + SIGKILL; " + read(err));
      kills++;
      struck.merge(lastStage(read(err)), 1, Integer::sum);
      Flow.scarpway(args(variant, out, how).toArray()).ok();
      assertEquals(undisturbed.get(variant), products(out), "after " + afterMs + " ms " + how);
      List<String> names = Flow.files(out.resolve("small"));
      assertTrue(names.stream().noneMatch(n -> n.matches(".*[.](part|old|kept).*")), "" + names);
      for (String name : mine) {
        assertEquals(name, Files.readString(out.resolve("small").resolve(name)));
      }
    }
    System.out.printf(
        Locale.ROOT,
        "%d runs killed (seed %d) over %.0f ms, all products as undisturbed; %d runs ended before;"
            + " struck in %s%n",
        kills,
        SEED,
        wholeMs,
        ended,
        struck);
  }

  private List<Object> args(int variant, Path out, List<Object> how) {
    List<Object> args = new ArrayList<>(List.of("run", jobs.get(variant), "--out", out, "--json"));
    args.addAll(how);
    return args;
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static String lastStage(String events) {
    String last = "start";
    for (String line : events.lines().toList()) {
      if (line.contains("\"event\":\"stage\"")) {
        last = line.replaceFirst(".*\"stage\":\"([^\"]*)\".*", "$1");
      } else if (line.contains("\"event\":\"finished\"")) {
        last = "end";
      }
    }
    return last;
  }

  @Test
  void toldToStopItKeepsWhatIsFinished() throws Exception {
    Path out = dir.resolve("stopped");
    Path err = dir.resolve("stopped.txt");
    Process p = start(err, args(0, out, List.of("--no-store")));
    long until = System.nanoTime() + TimeUnit.MINUTES.toNanos(2);
    while (!read(err).contains("\"event\":\"stage-done\"")) {
      assertTrue(p.isAlive() && System.nanoTime() < until, () -> read(err));
      Thread.sleep(5);
    }
    p.destroy();
    assertEquals(143, p.waitFor(), "128 + SIGTERM");
    assertTrue(read(err).contains("finished stages are kept"), () -> read(err));
    Flow.Outcome again =
        Flow.scarpway("run", jobs.get(0), "--out", out, "--no-store", "--progress", "plain");
    assertTrue(again.ok().err().contains("[terrain] unchanged, reused"), again.err());
    assertEquals(undisturbed.get(0), products(out));
  }

  @Test
  void twoRunsInOneFolderNeverMix() throws Exception {
    Path out = dir.resolve("both");
    List<Process> running = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      running.add(start(dir.resolve("both-" + i), args(i, out, List.of())));
    }
    int refused = 0;
    int winner = -1;
    for (int i = 0; i < 2; i++) {
      int code = running.get(i).waitFor();
      String said = read(dir.resolve("both-" + i));
      if (code == 2) {
        refused++;
        assertTrue(said.contains("another run is writing here"), said);
      } else {
        assertEquals(0, code, said);
        winner = i;
      }
    }
    assertTrue(refused <= 1, "both were refused");
    if (refused == 1) {
      assertEquals(undisturbed.get(winner), products(out));
    } else {
      // They came one after the other: the folder is whole and of one of them.
      assertTrue(undisturbed.contains(products(out)));
    }
  }

  @Test
  void runsThatShareAStoreDoNotDisturbOneAnother() throws Exception {
    List<Process> running = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      List<Object> how = List.of("--store", dir.resolve("store"), "--store-gb", i == 0 ? "0" : "1");
      running.add(start(dir.resolve("err-" + i), args(i % 2, dir.resolve("out-" + i), how)));
    }
    for (int i = 0; i < 4; i++) {
      Path said = dir.resolve("err-" + i);
      assertEquals(0, running.get(i).waitFor(), () -> read(said));
      assertEquals(undisturbed.get(i % 2), products(dir.resolve("out-" + i)));
    }
  }
}
