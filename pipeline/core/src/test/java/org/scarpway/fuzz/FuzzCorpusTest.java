package org.scarpway.fuzz;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Every file of the fuzzing corpus, seeds and inputs that once broke a reader alike, is read or
 * refused. pipeline/bin/fuzz looks for new ones with a coverage-guided fuzzer.
 */
class FuzzCorpusTest {
  private static final Path CORPUS =
      Path.of(System.getProperty("scarpway.root"), "pipeline/core/src/test/resources/fuzz");
  private static final Map<String, Consumer<byte[]>> TARGETS =
      Map.of(
          "job", JobFuzz::fuzzerTestOneInput,
          "csv", CsvFuzz::fuzzerTestOneInput,
          "geojson", GeoJsonFuzz::fuzzerTestOneInput,
          "tiff", TiffFuzz::fuzzerTestOneInput,
          "grid", GridFuzz::fuzzerTestOneInput,
          "wkt", WktFuzz::fuzzerTestOneInput);

  @ParameterizedTest
  @ValueSource(strings = {"job", "csv", "geojson", "tiff", "grid", "wkt"})
  void isReadOrRefused(String kind) throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.list(CORPUS.resolve(kind))) {
      files = all.sorted().toList();
    }
    assertTrue(files.size() >= 2, kind);
    for (Path file : files) {
      TARGETS.get(kind).accept(Files.readAllBytes(file));
    }
  }
}
