package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.vehicle.RollingAgainstSoil;

/** Every file in configs/ is one that the program reads, and its name is what it holds. */
class ShippedConfigsTest {
  private static final Path CONFIGS =
      Path.of(System.getProperty("scarpway.root", "../..")).resolve("configs");

  private static List<Path> files(String kind) throws IOException {
    try (var all = Files.list(CONFIGS.resolve(kind))) {
      List<Path> files = all.filter(p -> p.toString().endsWith(".yaml")).sorted().toList();
      assertFalse(files.isEmpty(), kind);
      return files;
    }
  }

  private static void named(String kind, Function<Path, String> nameIn) throws IOException {
    for (Path file : files(kind)) {
      assertEquals(file.getFileName().toString(), nameIn.apply(file) + ".yaml");
    }
  }

  @Test
  void vehicles() throws IOException {
    named("vehicles", f -> VehicleReader.read(f).name());
  }

  /** On the Moon, where their soils are from. */
  @Test
  void rollingIsNotBelowThatOfTheirOwnSoil() throws IOException {
    for (Path file : files("vehicles")) {
      assertEquals(Optional.empty(), RollingAgainstSoil.note(VehicleReader.read(file), Body.MOON));
    }
  }

  @Test
  void walkers() throws IOException {
    named("walkers", f -> WalkerReader.read(f).name());
  }

  @Test
  void soils() throws IOException {
    named("soils", f -> SoilReader.read(f).name());
  }

  @Test
  void bodies() throws IOException {
    named("bodies", f -> BodyReader.read(f).name());
  }

  @Test
  void jobs() throws IOException {
    Set<String> names = new HashSet<>();
    for (Path file : files("jobs")) {
      for (Job job : JobReader.readAll(file, Map.of())) {
        assertTrue(names.add(job.name()), "two jobs write to the folder " + job.name());
      }
    }
  }

  private static void addKeys(JsonNode schema, Set<String> keys) {
    schema.path("properties").fieldNames().forEachRemaining(keys::add);
    schema.forEach(inner -> addKeys(inner, keys));
  }

  /** Who reads it has seen every key there is, and none that there is not. */
  @Test
  void demonstrationShowsEveryKeyLiveOrAsAComment() throws IOException {
    Set<String> keys = new TreeSet<>();
    try (var in = ShippedConfigsTest.class.getResourceAsStream("/schema/job.schema.json")) {
      addKeys(new ObjectMapper().readTree(in), keys);
    }
    assertTrue(keys.containsAll(Set.of("job", "voids", "sure", "above_m", "lon", "matrix")));
    String demo = Files.readString(CONFIGS.resolve("jobs/demo.yaml"));
    List<String> missing =
        keys.stream()
            .filter(k -> !Pattern.compile("(?<![a-z0-9_])" + k + ":").matcher(demo).find())
            .toList();
    assertEquals(List.of(), missing);
    Matcher shown = Pattern.compile("(?m)^ *# *(?:- )?([a-z][a-z0-9_]*): ").matcher(demo);
    Set<String> unknown = new TreeSet<>();
    while (shown.find()) {
      unknown.add(shown.group(1));
    }
    assertFalse(unknown.isEmpty(), "comments with keys");
    unknown.removeAll(keys);
    assertEquals(Set.of(), unknown);
  }
}
