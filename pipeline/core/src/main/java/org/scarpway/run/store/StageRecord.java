package org.scarpway.run.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The record of a folder of finished products: the key and ingredients that they were made from,
 * and every file with its length and digest. It is written last, so a folder without it is not
 * finished.
 */
public record StageRecord(
    String stage, String key, SortedMap<String, String> madeFrom, List<FileEntry> files) {
  public static final String FILE = ".stage.json";
  private static final String UNFINISHED = "unfinished";

  /** A file below the folder. */
  public record FileEntry(String name, long bytes, String sha256) {
    /** True if the file exists with this content. */
    public boolean isThere(Path file, FileDigests digests) throws IOException {
      return Files.isRegularFile(file)
          && Files.size(file) == bytes
          && digests.of(file).equals(sha256);
    }
  }

  public StageRecord {
    files = List.copyOf(files);
  }

  /** Makes the record of products that were just written to the folder. */
  public static StageRecord of(StageKey key, Path folder) throws IOException {
    List<String> names;
    try (Stream<Path> all = Files.walk(folder)) {
      names =
          all.filter(Files::isRegularFile)
              .map(p -> folder.relativize(p).toString())
              .filter(n -> !n.equals(FILE) && !n.equals(FILE + ".part"))
              .sorted()
              .toList();
    }
    return new StageRecord(key.stage(), key.hex(), key.ingredients(), products(folder, names));
  }

  /** Makes the record of a key with the files listed by {@link #list}. */
  public static StageRecord of(StageKey key, JsonNode listed) {
    return new StageRecord(key.stage(), key.hex(), key.ingredients(), files(listed));
  }

  /** Returns the files as they are on disk. */
  public static List<FileEntry> products(Path folder, List<String> names) throws IOException {
    List<FileEntry> files = new ArrayList<>();
    for (String name : names) {
      Path file = folder.resolve(name);
      files.add(new FileEntry(name, Files.size(file), FileDigests.sha256(file)));
    }
    return files;
  }

  public static void list(ObjectNode node, List<FileEntry> files) {
    ArrayNode list = node.putArray("files");
    for (FileEntry p : files) {
      list.addObject().put("name", p.name).put("bytes", p.bytes).put("sha256", p.sha256);
    }
  }

  /**
   * Reads the list of files; names that lead out of the folder cannot come from this program and
   * count as missing.
   */
  private static List<FileEntry> files(JsonNode node) {
    List<FileEntry> files = new ArrayList<>();
    for (JsonNode f : node.path("files")) {
      String name = f.path("name").asText();
      boolean inside = !name.isEmpty() && !name.startsWith("/") && !name.contains("..");
      files.add(
          new FileEntry(name, inside ? f.path("bytes").asLong(-1) : -1, f.path("sha256").asText()));
    }
    return files;
  }

  /** Returns the record in the folder, or null if there is none that is as it was written. */
  public static StageRecord read(Path folder) {
    JsonNode said = SealedJson.read(folder.resolve(FILE));
    if (said == null || said.has(UNFINISHED)) {
      return null;
    }
    SortedMap<String, String> madeFrom = new TreeMap<>();
    said.path("made_from")
        .properties()
        .forEach(e -> madeFrom.put(e.getKey(), e.getValue().asText()));
    return new StageRecord(
        said.path("stage").asText(), said.path("key").asText(), madeFrom, files(said));
  }

  /**
   * Returns the files that a record names, even if the record is damaged: the digest of each file
   * decides whether it is the run's.
   */
  static List<FileEntry> listed(Path folder) {
    JsonNode said = SealedJson.readUnproven(folder.resolve(FILE));
    return said == null ? List.of() : files(said).stream().filter(p -> p.bytes >= 0).toList();
  }

  /** Marks a folder into which products are being written as the run's own. */
  public static void writeUnfinished(Path folder) {
    SealedJson.write(
        folder.resolve(FILE), JsonNodeFactory.instance.objectNode().put(UNFINISHED, true));
  }

  void write(Path folder) {
    ObjectNode said = JsonNodeFactory.instance.objectNode();
    said.put("stage", stage);
    said.put("key", key);
    ObjectNode made = said.putObject("made_from");
    madeFrom.forEach(made::put);
    list(said, files);
    SealedJson.write(folder.resolve(FILE), said);
  }

  /**
   * Removes files that are still as they were written; files that somebody changed or added stay.
   */
  public static void removeFrom(Path folder, List<FileEntry> files, Predicate<FileEntry> unwanted) {
    FileDigests digests = new FileDigests();
    for (FileEntry p : files) {
      Path file = folder.resolve(p.name);
      try {
        if (unwanted.test(p)
            && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
            && p.isThere(file, digests)) {
          Files.delete(file);
        }
      } catch (IOException e) {
        // The file stays; nothing depends on it.
      }
    }
  }

  /** True if every file exists with its length. */
  private boolean isWholeIn(Path folder) {
    for (FileEntry p : files) {
      Path file = folder.resolve(p.name);
      try {
        if (!Files.isRegularFile(file) || Files.size(file) != p.bytes) {
          return false;
        }
      } catch (IOException e) {
        return false;
      }
    }
    return true;
  }

  /** True if every file exists with its content. */
  public boolean isIntactIn(Path folder, FileDigests digests) {
    if (!isWholeIn(folder)) {
      return false;
    }
    for (FileEntry p : files) {
      try {
        if (!p.isThere(folder.resolve(p.name), digests)) {
          return false;
        }
      } catch (IOException e) {
        return false;
      }
    }
    return true;
  }
}
