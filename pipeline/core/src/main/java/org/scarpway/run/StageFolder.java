package org.scarpway.run;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.scarpway.stage.StageFailure;

/**
 * The folder that holds one stage's products, whole or not at all: products are written into a
 * hidden neighbour first, which then takes the folder's place. A small file inside names the key
 * that made them, so that a later run knows whether they are still true.
 */
final class StageFolder {
  private static final String KEY_FILE = ".stage.json";
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final Path folder;
  private final Path aside;
  private final Path old;

  /**
   * @param id slash-separated, such as mobility/buggy
   */
  StageFolder(Path jobFolder, String id) {
    this.folder = jobFolder.resolve(id);
    String name = folder.getFileName().toString();
    this.aside = folder.resolveSibling("." + name + ".part");
    this.old = folder.resolveSibling("." + name + ".old");
  }

  Path path() {
    return folder;
  }

  /** Whether finished products of exactly this key are here. */
  boolean holds(StageKey key) {
    Path file = folder.resolve(KEY_FILE);
    if (!Files.isRegularFile(file)) {
      return false;
    }
    try {
      JsonNode said = JSON.readTree(file.toFile());
      if (!key.hex().equals(said.path("key").asText())) {
        return false;
      }
      for (JsonNode name : said.path("files")) {
        if (!Files.isRegularFile(folder.resolve(name.asText()))) {
          return false;
        }
      }
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  /** Puts back what a killed run had moved away, and removes what it left half-written. */
  void recover() {
    try {
      if (Files.isDirectory(old)) {
        if (Files.exists(folder)) {
          remove(old);
        } else {
          Files.move(old, folder, StandardCopyOption.ATOMIC_MOVE);
        }
      }
      remove(aside);
    } catch (IOException e) {
      throw new StageFailure("cannot clean up " + folder + ": " + e.getMessage(), e);
    }
  }

  /** Writes new products aside and puts them in the folder's place. */
  void replace(StageKey key, Consumer<Path> writer) {
    try {
      remove(aside);
      Files.createDirectories(aside);
      writer.accept(aside);
      writeKey(key);
      remove(old);
      if (Files.exists(folder)) {
        Files.move(folder, old, StandardCopyOption.ATOMIC_MOVE);
      }
      Files.move(aside, folder, StandardCopyOption.ATOMIC_MOVE);
      remove(old);
    } catch (IOException e) {
      throw new StageFailure("cannot write " + folder + ": " + e.getMessage(), e);
    } finally {
      removeQuietly(aside);
    }
  }

  private void writeKey(StageKey key) throws IOException {
    ObjectNode said = JSON.createObjectNode();
    said.put("stage", key.stage());
    said.put("key", key.hex());
    ObjectNode made = said.putObject("made_from");
    key.ingredients().forEach(made::put);
    var files = said.putArray("files");
    try (Stream<Path> all = Files.walk(aside)) {
      List<String> names =
          all.filter(Files::isRegularFile)
              .map(p -> aside.relativize(p).toString())
              .sorted()
              .toList();
      names.forEach(files::add);
    }
    Files.writeString(aside.resolve(KEY_FILE), JSON.writeValueAsString(said) + "\n");
  }

  private static void remove(Path tree) throws IOException {
    if (!Files.exists(tree)) {
      return;
    }
    List<Path> all;
    try (Stream<Path> walk = Files.walk(tree)) {
      all = walk.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path p : all) {
      Files.delete(p);
    }
  }

  private static void removeQuietly(Path tree) {
    try {
      remove(tree);
    } catch (IOException e) {
      // The failure that led here is the one to report; the next run cleans up.
    }
  }
}
