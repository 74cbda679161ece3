package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
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
}
