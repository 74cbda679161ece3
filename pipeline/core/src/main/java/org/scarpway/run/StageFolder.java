package org.scarpway.run;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.function.Consumer;
import org.scarpway.geodata.WriteAside;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * The folder that holds one stage's products, whole or not at all: products are written into a
 * hidden neighbour first, which then takes the folder's place. Every step is forced to disk before
 * the next one relies on it, so that a loss of power leaves the old products or the new ones.
 */
final class StageFolder {
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

  /** What is finished here, or null. */
  StageRecord record() {
    return StageRecord.read(folder);
  }

  /** Whether finished products of exactly this key are here, every byte as it was written. */
  boolean holds(StageKey key) {
    StageRecord found = record();
    return found != null && found.key().equals(key.hex()) && found.isIntactIn(folder);
  }

  /** Puts back what a killed run had moved away, and removes what it left half-written. */
  void recover() {
    try {
      if (Files.isDirectory(old, LinkOption.NOFOLLOW_LINKS)) {
        if (Files.exists(folder)) {
          FileTree.remove(old);
        } else {
          Files.move(old, folder, StandardCopyOption.ATOMIC_MOVE);
        }
      }
      FileTree.remove(old);
      FileTree.remove(aside);
    } catch (IOException e) {
      throw new StageFailure("cannot clean up " + folder + ": " + Reason.of(e), e);
    }
  }

  /** Writes new products aside and puts them in the folder's place. */
  void replace(StageKey key, Consumer<Path> writer) {
    fill(
        () -> {
          writer.accept(aside);
          StageRecord.of(key, aside).write(aside);
        });
  }

  /**
   * Takes finished products of another folder as they are, record included.
   *
   * @return false, with this folder untouched, where they are not what their record says
   */
  boolean takeFrom(Path other, StageRecord record) {
    if (!record.isIntactIn(other)) {
      return false;
    }
    try {
      fill(() -> FileTree.link(other, record, aside));
      return true;
    } catch (FileTree.Gone e) {
      return false;
    }
  }

  private interface Filling {
    void fillAside() throws IOException;
  }

  private void fill(Filling filling) {
    try {
      FileTree.remove(aside);
      Files.createDirectories(aside);
      filling.fillAside();
      FileTree.remove(old);
      if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
        Files.move(folder, old, StandardCopyOption.ATOMIC_MOVE);
      }
      Files.move(aside, folder, StandardCopyOption.ATOMIC_MOVE);
      WriteAside.forceFolder(folder.getParent());
      FileTree.remove(old);
    } catch (IOException e) {
      throw new StageFailure(
          "cannot write " + folder + ": " + Reason.of(e) + "; free space on that disk", e);
    } finally {
      removeAside();
    }
  }

  private void removeAside() {
    try {
      FileTree.remove(aside);
    } catch (IOException e) {
      // The failure that led here is the one to report; the next run cleans up.
    }
  }
}
