package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Questions asked and sites compared again after random changes of the job take what earlier runs
 * kept where nothing it depends on changed, and no byte differs from a run without a store.
 */
class KeptAnswersFlowTest {
  private static final long SEED = 20_261_129;
  private static final int CHANGES = 10;

  /** A figure kept is this small; no wavefront of the job is. */
  private static final int SMALL_BYTES = 1500;

  /** Every part of the questions that a change may set, with what it may be set to. */
  private static final Map<String, List<String>> PARTS =
      new TreeMap<>(
          Map.of(
              "NAME", List.of("day", "other", "far"),
              "BANDS", List.of("[1min]", "[30s, 1min]", "[0.01kWh]", "[0.02kWh]", "[200m]", "[]"),
              "STAY", List.of("1min", "20s"),
              "HOURS", List.of("0.06", "0.05", "0.1"),
              "KWH", List.of("0.03", "0.02", "0.05"),
              "HOME", List.of("drive-back", "none", "base-rescue"),
              "PCT", List.of("10", "15"),
              "TRIPS", List.of("24", "5"),
              "TARGET", List.of("near", "edge"),
              "X", List.of("72180", "72230")));

  @TempDir Path dir;

  private Path job(Map<String, String> parts) throws IOException {
    Path csv = dir.resolve("targets.csv");
    String more =
        """
        targets: targets.csv
        reserves: {time_pct: PCT, life_support_pct: 10, energy_pct: 10, distance_pct: 10}
        rescue: {alarm_min: 0.1, transfer_min: 0.1, load_min: 0.1, person_kg: 90}
        sites: {candidates: [hearth, corner], ellipse_m: [60, 40], weights: {reach_km2: 1, targets: 1, single_gap_pct: 1}}
        """;
    Path job = SmallJob.write(dir.resolve("job.yaml"), "small", 10, more);
    String text = Files.readString(job);
    int from = text.indexOf("reach:");
    text =
        text.substring(0, from)
            + """
              reach:
                - {name: NAME, from: hearth, stay: STAY, budget: {drive_h: HOURS, energy_kwh: KWH}, home: HOME, bands: BANDS, audit_trips: TRIPS}
                - {name: steady, from: corner, budget: {drive_h: 0.04}, home: drive-back}
              corridors:
                - {name: across, via: [hearth, corner], cost: time, within_pct: [5]}
              """
            + text.substring(text.indexOf("targets: targets.csv"));
    String targets = "name,x,y,weight\nTARGET,X,93960,2\nmid,72160,93990,1\n";
    for (Map.Entry<String, String> p : parts.entrySet()) {
      text = text.replaceAll("\\b" + p.getKey() + "\\b", p.getValue());
      targets = targets.replaceAll("\\b" + p.getKey() + "\\b", p.getValue());
    }
    Files.writeString(csv, targets);
    return Files.writeString(job, text);
  }

  private Flow.Outcome run(String out, String... options) {
    Object[] words =
        Stream.concat(
                Stream.<Object>of("run", dir.resolve("job.yaml"), "--out", dir.resolve(out)),
                Stream.of(options))
            .toArray();
    return Flow.scarpway(words).ok();
  }

  private SortedMap<String, String> products(String out) throws IOException {
    SortedMap<String, String> all = new TreeMap<>();
    Path folder = dir.resolve(out);
    for (String name : Flow.files(folder)) {
      if (!name.startsWith(".store") && !name.endsWith("run.json")) {
        all.put(name, Flow.sha256(folder.resolve(name)));
      }
    }
    return all;
  }

  private List<Path> figures() throws IOException {
    Path fronts = dir.resolve("out/.store/fronts");
    List<Path> small = new ArrayList<>();
    for (String name : new TreeSet<>(Flow.files(fronts))) {
      Path file = fronts.resolve(name);
      if (Files.size(file) < SMALL_BYTES && text(file).contains("\"surelyM2\"")) {
        small.add(file);
      }
    }
    return small;
  }

  private static String text(Path file) throws IOException {
    return new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
  }

  private void assertAsAnew(String what) throws IOException {
    run("out");
    run("anew", "--no-store", "--fresh");
    assertEquals(products("anew"), products("out"), what);
  }

  @Test
  void randomChangesAskForNoOtherBytes() throws IOException {
    Random random = new Random(SEED);
    Map<String, String> parts = new TreeMap<>();
    PARTS.forEach((part, values) -> parts.put(part, values.get(0)));
    job(parts);
    assertAsAnew("first");
    List<String> order = new ArrayList<>(PARTS.keySet());
    for (int i = 0; i < CHANGES; i++) {
      if (i % order.size() == 0) {
        Collections.shuffle(order, random);
      }
      String part = order.get(i % order.size());
      List<String> values = PARTS.get(part);
      String other = values.get(1 + random.nextInt(values.size() - 1));
      parts.put(part, other);
      job(parts);
      assertAsAnew(part + " " + other);
    }
  }

  @Test
  void namesAndBandsOfOneQuantityAskNothingAnew() throws IOException {
    Map<String, String> parts = new TreeMap<>();
    PARTS.forEach((part, values) -> parts.put(part, values.get(0)));
    job(parts);
    run("out");
    List<Path> first = figures();
    assertEquals(4, first.size(), "two questions from two candidates");
    parts.put("NAME", "other");
    parts.put("BANDS", "[30s, 1min]");
    job(parts);
    assertAsAnew("name and bands");
    assertEquals(first, figures());
    parts.put("BANDS", "[0.01kWh]");
    job(parts);
    assertAsAnew("bands of energy");
    assertEquals(6, figures().size(), "one question with other ways, from two candidates");
  }

  @Test
  void damagedOrExchangedFiguresAreNotBelieved() throws IOException {
    Map<String, String> parts = new TreeMap<>();
    PARTS.forEach((part, values) -> parts.put(part, values.get(0)));
    job(parts);
    run("out");
    List<Path> kept = figures();
    byte[] exchanged = Files.readAllBytes(kept.get(0));
    for (int i = 1; i < kept.size(); i++) {
      byte[] next = Files.readAllBytes(kept.get(i));
      byte[] damaged =
          text(kept.get(i))
              .replaceFirst("\"surelyM2\":[0-9]", "\"surelyM2\":9")
              .getBytes(StandardCharsets.ISO_8859_1);
      Files.write(
          kept.get(i), i % 2 == 0 ? damaged : exchanged, StandardOpenOption.TRUNCATE_EXISTING);
      assertFalse(i % 2 != 0 && Arrays.equals(next, exchanged));
    }
    assertTrue(kept.size() > 2);
    parts.put("NAME", "other");
    job(parts);
    assertAsAnew("damaged");
  }

  @Test
  void aPlanTellsThatOnlyBandsAreMadeAnew() throws IOException {
    Map<String, String> parts = new TreeMap<>();
    PARTS.forEach((part, values) -> parts.put(part, values.get(0)));
    job(parts);
    run("out");
    parts.put("BANDS", "[30s, 1min]");
    job(parts);
    String kept = "all but its bands kept from an earlier run";
    assertTrue(plan().contains(kept), plan());
    parts.put("STAY", "20s");
    job(parts);
    assertFalse(plan().contains(kept), plan());
  }

  private String plan() {
    return Flow.scarpway("plan", dir.resolve("job.yaml"), "--out", dir.resolve("out")).ok().out();
  }

  @Test
  void bandsInNoOrderAreRefusedThoughTheRestIsKept() throws IOException {
    Map<String, String> parts = new TreeMap<>();
    PARTS.forEach((part, values) -> parts.put(part, values.get(0)));
    job(parts);
    run("out");
    parts.put("BANDS", "[1min, 30s]");
    job(parts);
    assertEquals(
        2, Flow.scarpway("run", dir.resolve("job.yaml"), "--out", dir.resolve("out")).code());
  }

  @Test
  void whatIsDamagedInTheStoreIsMadeAnew() throws IOException {
    Map<String, String> parts = new TreeMap<>();
    PARTS.forEach((part, values) -> parts.put(part, values.get(0)));
    job(parts);
    run("out");
    Random random = new Random(SEED);
    Path fronts = dir.resolve("out/.store/fronts");
    int n = 0;
    for (String name : new TreeSet<>(Flow.files(fronts))) {
      byte[] bytes = Files.readAllBytes(fronts.resolve(name));
      if (n++ % 2 == 0) {
        bytes = Arrays.copyOf(bytes, random.nextInt(bytes.length));
      } else {
        bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
      }
      Files.write(fronts.resolve(name), bytes);
    }
    parts.put("BANDS", "[30s, 1min]");
    job(parts);
    String told = "made anew: ";
    Flow.Outcome again = run("out");
    assertTrue(again.err().contains(told), again.err());
    assertAsAnew("all damaged");
    parts.put("BANDS", "[20s, 1min]");
    job(parts);
    Flow.Outcome third = run("out");
    assertFalse(third.err().contains(told), third.err());
  }
}
