package org.scarpway.run.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.util.Set;
import java.util.TreeSet;

/** A stage with two products, for tests of what becomes of folders. */
public final class SmallStage {
  public static final String MAP = "map.tif";
  public static final String TABLE = "tables/cells.csv";

  private SmallStage() {}

  public static StageKey key(int version) {
    return StageKey.of("reach", version).build();
  }

  /** Finished products of {@link #key} in the folder. */
  public static StageFolder finish(StageFolder folder, int version) {
    folder.replace(key(version), aside -> products(aside, version));
    return folder;
  }

  public static StageFolder finish(Path jobFolder, String id, int version) {
    return finish(new StageFolder(jobFolder, id), version);
  }

  static void products(Path folder, int version) {
    put(folder.resolve(MAP), "map " + version);
    put(folder.resolve(TABLE), "table " + version);
  }

  public static void put(Path file, String content) {
    try {
      Files.createDirectories(file.getParent());
      Files.writeString(file, content);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** One bit of the file turns over; length and time of change stay. */
  static void damage(Path file) throws IOException {
    FileTime changed = Files.getLastModifiedTime(file);
    byte[] bytes = Files.readAllBytes(file);
    bytes[bytes.length / 2] ^= 1;
    Files.write(file, bytes);
    Files.setLastModifiedTime(file, changed);
  }

  /** Everything below the folder but folders, by its path there. */
  public static Set<String> files(Path folder) throws IOException {
    Set<String> names = new TreeSet<>();
    if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      return names;
    }
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes a) {
            names.add(folder.relativize(file).toString());
            return FileVisitResult.CONTINUE;
          }
        });
    return names;
  }
}
