package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whatever is wrong with the input, a run ends with exit code 2, one line that says what, where and
 * what to do, no stack trace, and no output folder; a disk that fills up ends it with 3 and earlier
 * products as they were.
 */
class BadInputFlowTest {
  @TempDir Path dir;
  private Path job;
  private Path out;

  @BeforeEach
  void goodJob() throws IOException {
    job = DemoJob.write(dir);
    out = dir.resolve("out");
  }

  /** The job with one text replaced, and words that the one line must hold. */
  static Stream<Arguments> spoiltJobs() {
    String dem = Flow.ROOT.resolve("sample-dem/orrel-bench.tif").toString();
    return Stream.of(
        Arguments.of(dem, "no-such.tif", List.of("job.yaml:5:11", "no-such.tif", "does not exist")),
        Arguments.of(dem, "/usr/share", List.of("job.yaml:5:11", "is a folder")),
        Arguments.of(dem, "http://example.org/a.tif", List.of("is not the name of a local file")),
        Arguments.of(dem, "/vsimem/a.tif", List.of("is not the name of a local file")),
        Arguments.of(
            "[72150, 93950]", "[99999, 93950]", List.of("hearth", "outside the elevation")),
        Arguments.of("[72150, 93950]", "[72450, 94200]", List.of("hearth", "no-go ground for")),
        Arguments.of("  window:", "  windoe:", List.of("windoe", "window")),
        Arguments.of("budget: {drive_h: 1}", "budgte: {drive_h: 1}", List.of("budgte", "budget")),
        Arguments.of("bands: [10min, 1h]", "bands: [10kN, 1h]", List.of("10kN", "job.yaml:")),
        Arguments.of("margin_m: 10", "margin_m: -3", List.of("job.yaml:12:13", "-3", "margin_m")),
        Arguments.of("margin_m: 10", "margin_m: wide", List.of("job.yaml:12:13", "wide")),
        Arguments.of(
            "vertical_sigma_m: 0.3", "vertical_sigma_m: .nan", List.of("vertical_sigma_m")),
        Arguments.of(
            "[pressurised-rover.yaml, open-buggy.yaml]",
            "[]",
            List.of("job.yaml:13:11", "vehicles")),
        Arguments.of("open-buggy.yaml]", "no.yaml]", List.of("job.yaml:13:", "no.yaml")),
        Arguments.of("size_m: [700, 700]", "size_m: [0, 700]", List.of("job.yaml:6:", "0")),
        Arguments.of(
            "centre: [72300, 94050]", "centre: [500, 500]", List.of("window", "elevation model")),
        Arguments.of("body: moon", "body: mars", List.of("moon")),
        Arguments.of("body: moon", "body: mooon", List.of("mooon", "moon")),
        Arguments.of("from: hearth", "from: harth", List.of("harth", "hearth")),
        Arguments.of("vehicle: open-buggy", "vehicle: open-bugy", List.of("open-bugy")),
        Arguments.of("via: [hearth, far-corner]", "via: [hearth]", List.of("job.yaml:", "via")),
        Arguments.of("job: corner", "job: ../corner", List.of("job.yaml:2:6")),
        Arguments.of("scarpway: 1", "scarpway: 9", List.of("job.yaml:1:11", "9")),
        Arguments.of("body: moon", "body: [moon", List.of("job.yaml:")),
        Arguments.of("job: corner", "job: corner\njob: other", List.of("job.yaml:3", "job")),
        Arguments.of("home: walk-back", "home: walkback", List.of("walkback", "walk-back")));
  }

  /**
   * The least rate measured in a suit on the Moon, 248 kcal/h at 0.7 km/h (secondary source), 4184
   * J to the kcal: 288.2 W. No mean below it lets anybody walk.
   */
  @Test
  void aWalkerWhoCannotWalkIsRefused() throws IOException {
    String file = Files.readString(Flow.ROOT.resolve("configs/walkers/suited-lunar.yaml"));
    Path weak = dir.resolve("weak.yaml");
    Files.writeString(
        job,
        Files.readString(job)
            .replace(
                Flow.ROOT.resolve("configs/walkers/suited-lunar.yaml").toString(), "weak.yaml"));
    Files.writeString(weak, file.replace("mean_w: 293", "mean_w: 287"));
    refused(List.of("walker suited-lunar", "slowest walking takes 288 W", "mean_w"), run());
    Files.writeString(weak, file.replace("mean_w: 293", "mean_w: 289"));
    assertEquals(0, Flow.scarpway("check", job).code());
  }

  /** Mistakes of every kind together, and places outside the ground: each is told, at once. */
  @Test
  void checkTellsEveryMistakeAtOnce() throws IOException {
    StringBuilder outside = new StringBuilder();
    for (int k = 1; k <= 7; k++) {
      outside.append("\n  far").append(k).append(": [").append(90000 + k).append(", 93950]");
    }
    Files.writeString(
        job,
        """
        scarpway: 1
        job: wrong
        body: moon
        dem: {source: %s, window: {centre: [72300, 94050], size_m: [700, 700]}}
        hazard: {margin_m: wide}
        vehicles: [pressurised-rover.yaml]
        bases:
          hearth: [72150, 93950]%s
        reach:
          - {name: a, from: harth, vehicle: rovr, budget: {drive_h: many}, home: walk-back}
          - {name: b, from: hearth, budget: {drive_h: 1}, home: drive-back, stay: 2h, bands: 7}
        corridors:
          - {name: c, via: [hearth, nowhere], cost: speed, within_pct: [5, 2]}
        """
            .formatted(Flow.ROOT.resolve("sample-dem/orrel-bench.tif"), outside));
    Flow.Outcome told = Flow.scarpway("check", job);
    assertEquals(2, told.code(), told.err());
    for (String word :
        List.of(
            "wide",
            "harth",
            "rovr",
            "many",
            "without a walker",
            "stay is 2h",
            "nowhere",
            "speed",
            "within_pct 2",
            "far1",
            "far2",
            "far3",
            "far4",
            "far5",
            "far6",
            "far7")) {
      assertTrue(told.err().contains(word), word + " in " + told.err());
    }
  }

  @ParameterizedTest
  @MethodSource("spoiltJobs")
  void spoiltJob(String good, String bad, List<String> words) throws IOException {
    String text = Files.readString(job);
    assertTrue(text.contains(good), good);
    Files.writeString(job, text.replaceFirst(Pattern.quote(good), bad));
    refused(words, run());
    // What a run refuses is promised by neither check nor plan.
    refused(words, Flow.scarpway("check", job));
    refused(words, Flow.scarpway("plan", job, "--out", out));
  }

  @Test
  void placesThatOnlyTheErrorOfTheHeightsShutsSayAtWhatConfidence() throws IOException {
    String text = Files.readString(job);
    Files.writeString(job, text.replace("vertical_sigma_m: 0.3", "vertical_sigma_m: 3"));
    Flow.Outcome check = Flow.scarpway("check", job);
    assertEquals(2, check.code(), check.err());
    List<String> lines = check.err().lines().toList();
    assertEquals(2, lines.size(), check.err());
    for (String line : lines) {
      assertTrue(line.contains("no-go ground for"), line);
      assertTrue(line.contains(" at confidence 0.9;"), line);
    }
    // Shut as measured too: the error is not what shuts it.
    Files.writeString(job, text.replace("[72150, 93950]", "[72450, 94200]"));
    String steep = Flow.scarpway("check", job).err();
    assertTrue(steep.contains("no-go ground for") && !steep.contains("at confidence"), steep);
  }

  /** What stands in place of the elevation model. */
  private static byte[] spoilt(String how) throws IOException {
    byte[] whole = Files.readAllBytes(Flow.ROOT.resolve("sample-dem/orrel-bench.tif"));
    return switch (how) {
      case "empty" -> new byte[0];
      case "text" -> "north,south\n1,2\n".getBytes(StandardCharsets.US_ASCII);
      case "header-only" -> Arrays.copyOf(whole, 8);
      case "cut-in-header" -> Arrays.copyOf(whole, 200);
      case "cut-in-half" -> Arrays.copyOf(whole, whole.length / 2);
      case "bomb" -> bomb();
      case "list-of-others" ->
          ("<VRTDataset rasterXSize=\"9\" rasterYSize=\"9\"><VRTRasterBand dataType=\"Float32\""
                  + " band=\"1\"><SimpleSource><SourceFilename>/etc/passwd</SourceFilename>"
                  + "</SimpleSource></VRTRasterBand></VRTDataset>")
              .getBytes(StandardCharsets.US_ASCII);
      default -> throw new IllegalArgumentException(how);
    };
  }

  /** A TIFF header of a few hundred bytes that claims 2 000 000 x 2 000 000 float cells. */
  private static byte[] bomb() {
    int[][] tags = {
      {256, 4, 2_000_000}, {257, 4, 2_000_000}, {258, 3, 32}, {259, 3, 1}, {262, 3, 1},
      {273, 4, 8}, {277, 3, 1}, {278, 4, 2_000_000}, {279, 4, 64}, {339, 3, 3}
    };
    ByteBuffer b = ByteBuffer.allocate(400).order(ByteOrder.LITTLE_ENDIAN);
    b.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(8);
    b.putShort((short) tags.length);
    for (int[] t : tags) {
      b.putShort((short) t[0]).putShort((short) t[1]).putInt(1).putInt(t[2]);
    }
    b.putInt(0);
    return b.array();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "empty",
        "text",
        "header-only",
        "cut-in-header",
        "cut-in-half",
        "bomb",
        "list-of-others"
      })
  void spoiltRaster(String name) throws IOException {
    Path file = Files.write(dir.resolve(name + ".tif"), spoilt(name));
    source(file);
    refused(List.of(name + ".tif"), run());
    Flow.Outcome probe = Flow.scarpway("probe", file);
    assertEquals(2, probe.code(), probe.err());
    assertEquals(1, probe.errLines().size(), probe.err());
  }

  @Test
  void gridWithoutReferenceSystemOrWithOneThatIsNoMap() throws IOException {
    Path grid = Files.writeString(dir.resolve("grid.asc"), grid());
    source(grid);
    refused(List.of("grid.asc", "units: metres"), run());
    Files.writeString(
        dir.resolve("grid.prj"),
        "GEOCCS[\"centred\",DATUM[\"d\",SPHEROID[\"s\",1737400,0]],PRIMEM[\"p\",0],UNIT[\"metre\",1]]");
    refused(List.of("grid.asc"), run());
    Files.writeString(dir.resolve("grid.prj"), "PROJCS[\"half\",GEOGCS[");
    refused(List.of("grid"), run());
    Files.writeString(
        dir.resolve("grid.prj"), "LOCAL_CS[\"site\",UNIT[\"furlong\",201.168],AXIS[\"x\",EAST]]");
    Flow.Outcome o = run();
    assertTrue(o.code() == 2 && o.errLines().size() == 1, o.err());
  }

  private static String grid() {
    StringBuilder s =
        new StringBuilder("ncols 40\nnrows 40\nxllcorner 72000\nyllcorner 93800\ncellsize 10\n");
    s.append("1 ".repeat(40).strip().concat("\n").repeat(40));
    return s.toString();
  }

  @Test
  void severalProblemsAreToldAtOnce() throws IOException {
    Files.writeString(
        job,
        Files.readString(job)
            .replace("margin_m: 10", "margin_m: -3")
            .replace("from: hearth", "from: harth")
            .replace("body: moon", "body: mooon"));
    Flow.Outcome o = run();
    assertEquals(2, o.code());
    assertEquals(4, o.errLines().size(), o.err());
    assertTrue(o.errLines().stream().allMatch(l -> l.contains("job.yaml:")), o.err());
    assertFalse(Files.exists(out));
  }

  @Test
  void commandLineMistakes() {
    for (Object[] args :
        new Object[][] {
          {"run"}, {"run", job, "--threads", "many"}, {"walk"}, {"run", job, "--sett", "a=b"}, {}
        }) {
      Flow.Outcome o = Flow.scarpway(args);
      assertEquals(2, o.code(), o.err());
      assertEquals(2, o.errLines().size(), o.err());
      assertTrue(o.errLines().get(1).startsWith("try: scarpway"), o.err());
    }
    refused(List.of("--threads", "0"), Flow.scarpway("run", job, "--out", out, "--threads", "0"));
    refused(
        List.of("missing.yaml"), Flow.scarpway("run", dir.resolve("missing.yaml"), "--out", out));
    refused(List.of(dir.toString()), Flow.scarpway("run", dir, "--out", out));
    refused(
        List.of("--set", "dem.cel_size_m"),
        Flow.scarpway("run", job, "--out", out, "--set", "dem.cel_size_m=10"));
    refused(List.of("--vehicle", "tank"), explain("72150", "--vehicle", "tank"));
    refused(List.of("outside the elevation model"), explain("1"));
  }

  private Flow.Outcome explain(String x, Object... more) {
    return Flow.scarpway(
        Stream.concat(Stream.of("explain", job, x, "93950"), Stream.of(more)).toArray());
  }

  @Test
  void outputThatCannotBeWritten() throws IOException {
    Files.writeString(out, "a file");
    Flow.Outcome o = run();
    assertEquals(2, o.code(), o.err());
    assertEquals(1, o.errLines().size(), o.err());
    assertTrue(o.err().contains("cannot be written"), o.err());
    assertEquals("a file", Files.readString(out));
    for (String place : List.of("/proc/scarpway", "/dev/null/scarpway")) {
      Flow.Outcome p = Flow.scarpway("run", job, "--out", place, "--quiet");
      assertEquals(2, p.code(), p.err());
      assertEquals(1, p.errLines().size(), p.err());
    }
  }

  /** A limit on the size of files stands for a full disk where nothing may be mounted. */
  @Test
  void earlierProductsSurviveWrongInputAndAFullDisk() throws Exception {
    // Without polygons to read, nothing but products is written.
    String good = Files.readString(job).replaceFirst("  keep_out: .*\n", "");
    Files.writeString(job, good);
    assertEquals(0, run().code());
    Path folder = out.resolve(DemoJob.NAME);
    SortedMap<String, String> before = Flow.digests(folder, n -> true);

    Files.writeString(job, good.replace("[72150, 93950]", "[99999, 93950]"));
    assertEquals(2, run().code());
    assertEquals(before, Flow.digests(folder, n -> true));

    Files.writeString(job, good.replace("vertical_sigma_m: 0.3", "vertical_sigma_m: 0.5"));
    failedWriting(
        Flow.scarpwayApart(
            List.of("/bin/sh", "-c", "ulimit -f 16; exec \"$@\"", "limited"),
            List.of(),
            "run",
            job,
            "--out",
            out,
            "--quiet"));
    assertEquals(before, Flow.digests(folder, n -> true));

    Path small = Files.createDirectories(dir.resolve("small"));
    if (Flow.tool("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", small).code() == 0) {
      try {
        failedWriting(Flow.scarpway("run", job, "--out", small, "--quiet", "--try-anyway"));
        List<String> left = Flow.files(small);
        assertTrue(left.stream().noneMatch(n -> n.contains(".part")), left::toString);
        assertFalse(left.contains(DemoJob.NAME + "/index.html"), left::toString);
        for (String name : left) {
          if (name.endsWith(".tif")) {
            assertEquals(0, Flow.tool("gdalinfo", "-checksum", small.resolve(name)).code(), name);
          }
        }
      } finally {
        Flow.tool("umount", small).ok();
      }
    }
  }

  private static void failedWriting(Flow.Outcome o) {
    assertEquals(3, o.code(), o.err());
    assertEquals(1, o.errLines().size(), o.err());
    assertTrue(o.err().contains("cannot"), o.err());
  }

  private void source(Path dem) throws IOException {
    Files.writeString(
        job,
        Files.readString(job)
            .replace(Flow.ROOT.resolve("sample-dem/orrel-bench.tif").toString(), dem.toString())
            .replaceFirst("  window: .*\n", ""));
  }

  private Flow.Outcome run() {
    return Flow.scarpway("run", job, "--out", out, "--quiet");
  }

  private void refused(List<String> words, Flow.Outcome o) {
    assertEquals(2, o.code(), o.err());
    assertEquals(1, o.errLines().size(), o.err());
    assertFalse(o.err().contains("Exception"), o.err());
    for (String word : words) {
      assertTrue(o.err().contains(word), () -> word + " in " + o.err());
    }
    assertEquals("", o.out());
    assertFalse(Files.exists(out), "output folder was made");
  }
}
