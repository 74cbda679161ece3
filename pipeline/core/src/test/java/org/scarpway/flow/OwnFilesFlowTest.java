package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a user puts into an output folder, or changes in it, is still there after every run. */
class OwnFilesFlowTest {
  private static final String MORE = "sites: {candidates: [hearth, corner], ellipse_m: [60, 40]}\n";

  @TempDir Path dir;
  private Path job;
  private Path out;
  private Path folder;

  @BeforeEach
  void write() throws IOException {
    job = SmallJob.write(dir.resolve("job.yaml"), "small", 10, MORE);
    out = dir.resolve("out");
    folder = out.resolve("small");
  }

  private static boolean product(String name) {
    return !name.contains("mine") && !name.contains(".kept") && !name.matches("run.json|.lock");
  }

  private Flow.Outcome run(Object... more) {
    List<Object> args = new ArrayList<>(List.of("run", job, "--out", out, "--quiet"));
    args.addAll(List.of(more));
    return Flow.scarpway(args.toArray());
  }

  /** Adds entries of every kind to every stage and to what stands for the job; changes products. */
  private SortedMap<String, String> addMine() throws IOException {
    SortedMap<String, String> mine = new TreeMap<>();
    List<String> at = new ArrayList<>(List.of("stac", "reach", "."));
    new ObjectMapper()
        .readTree(folder.resolve("run.json").toFile())
        .path("stages")
        .fieldNames()
        .forEachRemaining(at::add);
    assertEquals(10, at.size(), at.toString());
    for (String stage : at) {
      for (String name : List.of("mine.txt", "mine/photo.jpg", "class.tif.mine.xml", ".mine")) {
        Path file = folder.resolve(stage).resolve(name).normalize();
        Files.createDirectories(file.getParent());
        Files.writeString(file, stage + name);
        mine.put(folder.relativize(file).toString(), stage + name);
      }
    }
    for (String name : List.of("corridor/across/profile.csv", "index.html", "stac/terrain.json")) {
      Files.writeString(folder.resolve(name), "changed by hand");
      mine.put(name + ".kept", "changed by hand");
    }
    return mine;
  }

  private void holds(SortedMap<String, String> mine) throws IOException {
    for (var e : mine.entrySet()) {
      assertTrue(Files.isRegularFile(folder.resolve(e.getKey())), e.getKey());
      assertEquals(e.getValue(), Files.readString(folder.resolve(e.getKey())));
    }
  }

  @Test
  void outlivesEveryWayOfReplacingProducts() throws IOException {
    run().ok();
    SortedMap<String, String> sound = Flow.digests(folder, OwnFilesFlowTest::product);
    SortedMap<String, String> mine = addMine();
    run("--fresh").ok();
    assertEquals(sound, Flow.digests(folder, OwnFilesFlowTest::product));
    holds(mine);

    // Other settings, then the first ones out of the store.
    run("--set", "hazard.margin_m=12").ok();
    holds(mine);
    run().ok();
    assertEquals(sound, Flow.digests(folder, OwnFilesFlowTest::product));
    holds(mine);

    // Questions that are dropped and asked again.
    String text = Files.readString(job);
    Files.writeString(job, text.replaceAll("corridors:\\s+.*", "").replace(MORE, ""));
    run("--no-store").ok();
    assertFalse(Files.exists(folder.resolve("corridor/across/route.csv")));
    holds(mine);
    Files.writeString(job, text);
    run("--no-store").ok();
    assertEquals(sound, Flow.digests(folder, OwnFilesFlowTest::product));
    holds(mine);
    run("--no-store").ok();
    holds(mine);
  }

  /** A digit changed in any record is found, and nothing is told that the products do not say. */
  @Test
  void changedRecordsAreNotBelieved() throws IOException {
    String told = answers(run().ok());
    SortedMap<String, String> sound = Flow.digests(folder, OwnFilesFlowTest::product);
    SplittableRandom random = new SplittableRandom(5);
    List<String> records =
        sound.keySet().stream().filter(n -> n.matches("(.*/)?[.](stage|job)[.]json")).toList();
    assertEquals(8, records.size(), records.toString());
    for (int round = 0; round < 3; round++) {
      for (String name : records) {
        String text = Files.readString(folder.resolve(name));
        List<Integer> digits = new ArrayList<>();
        for (int i = 0; i < text.length(); i++) {
          if (Character.isDigit(text.charAt(i))) {
            digits.add(i);
          }
        }
        int at = digits.get(random.nextInt(digits.size()));
        char other = text.charAt(at) == '7' ? '3' : '7';
        Files.delete(folder.resolve(name));
        Files.writeString(
            folder.resolve(name), text.substring(0, at) + other + text.substring(at + 1));
      }
      assertEquals(told, answers(run().ok()));
      assertEquals(sound, Flow.digests(folder, n -> !n.matches("run.json|.lock")), "and no more");
    }
    String record = Files.readString(folder.resolve(".job.json"));
    assertTrue(record.contains(": go "), record);
    Files.writeString(folder.resolve(".job.json"), record.replaceAll(": go \\d", ": go 9"));
    assertEquals(told, answers(run().ok()));
    assertEquals(record, Files.readString(folder.resolve(".job.json")));
  }

  private static String answers(Flow.Outcome run) {
    return String.join("\n", run.out().lines().filter(l -> !l.contains(" stages in ")).toList());
  }

  /** What stands where a run would write is named before anything is written, and stays. */
  @ParameterizedTest
  @CsvSource({
    "terrain, file",
    "sites, file",
    "mobility, file",
    "mobility/open-buggy, file",
    "reach, file",
    "reach/day, file",
    "corridor, file",
    "corridor/across, file",
    "stac, file",
    ".terrain.part, file",
    ".terrain.old, file",
    "reach/.day.part, folder",
    ".lock, folder",
    "index.html, folder",
    "index.html, file",
    "index.html.part, folder",
    "run.json, folder",
    "run.json, file",
    "prov.json, folder",
    ".job.json, folder",
    "stac/catalog.json, folder",
    "stac/reach-day.json, folder",
    "stac/reach-day.json, file"
  })
  void whatStandsInTheWayIsNamed(String name, String kind) throws IOException {
    Path at = folder.resolve(name);
    Path mine = kind.equals("file") ? at : at.resolve("mine.txt");
    Files.createDirectories(mine.getParent());
    Files.writeString(mine, "mine");
    Flow.Outcome o = run();
    assertEquals(2, o.code(), o.err());
    assertEquals(1, o.errLines().size(), o.err());
    assertTrue(o.err().startsWith(at + ": "), o.err());
    assertTrue(o.err().contains("move it elsewhere or give another --out"), o.err());
    assertEquals(List.of(folder.relativize(mine).toString()), Flow.files(folder));
    assertEquals(List.of("small/" + folder.relativize(mine)), Flow.files(out));
    assertEquals("mine", Files.readString(mine));
  }

  /** Names that a run has no use for, and folders of the user where it finds products later. */
  @Test
  void otherNamesAreLeftAlone() throws IOException {
    SortedMap<String, String> mine = new TreeMap<>();
    for (String name :
        List.of(
            "reach/day.part",
            "notes.part",
            "notes/.draft.old/a.txt",
            "notes/.draft.part/b.txt",
            "reach/day/notes.txt")) {
      mine.put(name, name);
    }
    mine.put("hazard/hazard.tif.kept/c.txt", "c");
    mine.put("reach/day/summary.csv.kept", "mine");
    for (var e : mine.entrySet()) {
      Path file = folder.resolve(e.getKey().replace(".kept", ""));
      Files.createDirectories(file.getParent());
      Files.writeString(file, e.getValue());
    }
    run().ok();
    holds(mine);
    run("--fresh").ok();
    holds(mine);
  }
}
