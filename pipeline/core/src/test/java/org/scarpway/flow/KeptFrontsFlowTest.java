package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A job asked again with other numbers takes wavefronts of earlier runs, and no byte differs. */
class KeptFrontsFlowTest {
  private static final String DAY = "{name: day, from: hearth, budget: {drive_h: 1}, ";
  private static final String SHORT =
      "{name: day, from: hearth, stay: 1min, budget: {drive_h: 0.06, energy_kwh: 0.03}, ";

  @TempDir Path dir;

  private Path job(String... changes) throws IOException {
    String more = "walker: " + Flow.ROOT.resolve("configs/walkers/suited-lunar.yaml") + "\n";
    Path job = SmallJob.write(dir.resolve("job.yaml"), "small", 10, more);
    String text =
        Files.readString(job)
            .replace(DAY, SHORT)
            .replace("bands: [10min, 1h]", "bands: [1min]")
            .replace(
                "corridors:",
                """
                  - {name: afoot, from: corner, budget: {drive_h: 0.08}, home: walk-back}
                  - {name: away, from: corner, budget: {drive_h: 0.02}, home: none}
                corridors:""");
    for (int i = 0; i < changes.length; i += 2) {
      assertTrue(text.contains(changes[i]), changes[i]);
      text = text.replace(changes[i], changes[i + 1]);
    }
    return Files.writeString(job, text);
  }

  private Path run(String out, Object... options) throws IOException {
    Object[] words =
        Stream.concat(
                Stream.of("run", dir.resolve("job.yaml"), "--out", dir.resolve(out)),
                Stream.of(options))
            .toArray();
    Flow.scarpway(words).ok();
    return dir.resolve(out);
  }

  private Set<String> fronts() throws IOException {
    try (Stream<Path> list = Files.list(dir.resolve("out/.store/fronts"))) {
      return list.map(p -> p.getFileName().toString())
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }

  /** Every product; records of times, keys and what was reused are none. */
  private static SortedMap<String, String> products(Path out) throws IOException {
    SortedMap<String, String> all = new TreeMap<>();
    try (Stream<Path> walk = Files.walk(out)) {
      for (Path p : walk.filter(Files::isRegularFile).toList()) {
        String name = out.relativize(p).toString();
        if (!name.startsWith(".store") && !name.endsWith("run.json")) {
          all.put(name, Flow.sha256(p));
        }
      }
    }
    return all;
  }

  /** What the plan says of a question. */
  private String planned(String question) {
    Flow.Outcome plan =
        Flow.scarpway("plan", dir.resolve("job.yaml"), "--out", dir.resolve("out")).ok();
    return plan.out()
        .lines()
        .filter(l -> l.startsWith("  reach/" + question + " "))
        .findFirst()
        .orElseThrow();
  }

  private void assertAsAnew(String what) throws IOException {
    Path kept = run("out");
    Path anew = run("anew-" + what, "--no-store");
    assertEquals(products(anew), products(kept), what);
  }

  @Test
  void otherNumbersAskForNoOtherBytes() throws IOException {
    job();
    assertFalse(planned("day").contains("wavefronts"), planned("day"));
    assertAsAnew("first");
    Set<String> first = fronts();
    assertTrue(first.size() >= 8, first.toString());
    job("stay: 1min", "stay: 20s");
    assertTrue(planned("day").matches(".*; up to [0-9]+ wavefronts kept.*"), planned("day"));
    assertFalse(planned("away").contains("wavefronts"), planned("away"));
    job("bands: [1min]", "bands: [30s, 1min]");
    assertTrue(planned("day").endsWith("; all but its bands kept from an earlier run"));
    assertAsAnew("bands");
    job("name: day", "name: other");
    assertTrue(planned("other").endsWith(" kept from an earlier run"), planned("other"));
    assertAsAnew("name");
    assertTrue(fronts().containsAll(first), "what was kept is still there");
    for (List<String> change :
        List.of(
            List.of("energy_kwh: 0.03", "energy_kwh: 0.02"),
            List.of("energy_kwh: 0.03", "energy_kwh: 0.05"),
            List.of("drive_h: 0.06", "drive_h: 0.2"),
            List.of("drive_h: 0.02", "drive_h: 0.03"),
            List.of("stay: 1min", "stay: 20s"),
            List.of("margin_m: 10", "margin_m: 14"))) {
      job(change.get(0), change.get(1));
      assertAsAnew(change.get(1).replaceAll("[^a-z0-9]+", "-"));
    }
  }

  /** Times with kept wavefronts tell nothing of those without, and the other way round. */
  @Test
  void timesAreLearntByWhatWasThereAlready() throws IOException {
    job();
    run("out");
    job("stay: 1min", "stay: 20s");
    run("out");
    job("margin_m: 10", "margin_m: 14");
    assertFalse(planned("day").contains("kept"), planned("day"));
    run("out");
    job("margin_m: 10", "margin_m: 14", "bands: [1min]", "bands: [30s, 1min]");
    run("out");
    JsonNode kinds =
        new ObjectMapper()
            .readTree(dir.resolve("out/.store/stage-times.json").toFile())
            .path("kinds");
    Map<String, Integer> samples = new TreeMap<>();
    kinds
        .properties()
        .forEach(
            k ->
                k.getValue()
                    .forEach(
                        sample -> {
                          if (sample.path("stage").asText().equals("small reach/day")) {
                            samples.merge(k.getKey(), 1, Integer::sum);
                          }
                        }));
    assertEquals(
        Map.of(
            "reach drive_back 2", 2, "reach drive_back 2 kept", 1, "reach drive_back 2 bands", 1),
        samples);
  }

  @Test
  void damagedFrontsAreMadeAnew() throws IOException {
    job();
    run("out");
    int k = 0;
    for (String name : fronts()) {
      Path file = dir.resolve("out/.store/fronts").resolve(name);
      byte[] bytes = Files.readAllBytes(file);
      bytes[(int) (k * 7919L % bytes.length)] ^= 1;
      Files.write(file, k % 3 == 0 ? new byte[k] : bytes, StandardOpenOption.TRUNCATE_EXISTING);
      k++;
    }
    job("bands: [1min]", "bands: [30s, 1min]");
    assertAsAnew("damaged");
    assertFalse(fronts().isEmpty());
  }
}
