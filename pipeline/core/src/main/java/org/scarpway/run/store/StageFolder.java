package org.scarpway.run.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * The folder that holds one stage's products, whole or not at all: products are written into a
 * hidden neighbour first, which then takes the folder's place. What was in it and was not of a run
 * is carried over. Every step is forced to disk before the next one relies on it, so that a loss of
 * power leaves the old products or the new ones.
 */
public final class StageFolder {
  private final Path folder;
  private final Path aside;
  private final Path old;
  private final List<String> kept = new ArrayList<>();

  /**
   * @param id slash-separated, such as mobility/buggy
   */
  public StageFolder(Path jobFolder, String id) {
    this.folder = jobFolder.resolve(id);
    String name = folder.getFileName().toString();
    this.aside = folder.resolveSibling("." + name + ".part");
    this.old = folder.resolveSibling("." + name + ".old");
  }

  public Path path() {
    return folder;
  }

  /** What is finished here, or null. */
  public StageRecord record() {
    return StageRecord.read(folder);
  }

  /** Whether finished products of exactly this key are here, every byte as it was written. */
  public boolean holds(StageKey key) {
    StageRecord found = record();
    return found != null && found.key().equals(key.hex()) && found.isIntactIn(folder);
  }

  /**
   * Finishes what a killed run had begun: puts back what it had moved away, or carries over what
   * was not of a run, and removes what it left half-written.
   */
  public void recover() {
    try {
      if (Files.exists(old, LinkOption.NOFOLLOW_LINKS)) {
        if (Files.isSymbolicLink(folder) && !Files.isSymbolicLink(old)) {
          Files.delete(folder);
        }
        if (Files.exists(folder) || Files.isSymbolicLink(old)) {
          kept.addAll(CarriedOver.carry(old, folder));
        } else {
          Files.move(old, folder, StandardCopyOption.ATOMIC_MOVE);
        }
      }
      removeAside();
    } catch (IOException e) {
      throw new StageFailure("cannot clean up " + folder + ": " + Reason.of(e), e);
    }
  }

  /**
   * Whether something stands at the names that this folder is replaced by way of and no run put it
   * there.
   */
  public List<Path> foreign() {
    return Stream.of(aside, old)
        .filter(p -> Files.exists(p, LinkOption.NOFOLLOW_LINKS) && !Files.isSymbolicLink(p))
        .filter(p -> !Files.isDirectory(p) || (p.equals(aside) && !isOurs(p)))
        .toList();
  }

  /** A folder for half-written products holds their mark from the first moment to the last. */
  private static boolean isOurs(Path aside) {
    try (Stream<Path> entries = Files.list(aside)) {
      List<String> names = entries.map(p -> p.getFileName().toString()).toList();
      return names.isEmpty()
          || names.contains(StageRecord.FILE)
          || names.contains(StageRecord.FILE + ".part");
    } catch (IOException e) {
      return false;
    }
  }

  /** What was no run's and could not keep its name, a line each. */
  public List<String> kept() {
    return kept;
  }

  /** Writes new products aside and puts them in the folder's place. */
  public void replace(StageKey key, Consumer<Path> writer) {
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
      removeAside();
      Files.createDirectories(aside);
      StageRecord.writeUnfinished(aside);
      filling.fillAside();
      if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
        Files.move(folder, old, StandardCopyOption.ATOMIC_MOVE);
      }
      Files.move(aside, folder, StandardCopyOption.ATOMIC_MOVE);
      AtomicFileWrite.forceFolder(folder.getParent());
      if (Files.exists(old, LinkOption.NOFOLLOW_LINKS)) {
        kept.addAll(CarriedOver.carry(old, folder));
      }
    } catch (IOException e) {
      throw new StageFailure(
          "cannot write " + folder + ": " + Reason.of(e) + "; free space on that disk", e);
    } finally {
      clearAside();
    }
  }

  /** The mark goes last, so that what is left of it after a kill is known as the run's. */
  private void removeAside() throws IOException {
    if (Files.isDirectory(aside, LinkOption.NOFOLLOW_LINKS)) {
      List<Path> entries;
      try (Stream<Path> list = Files.list(aside)) {
        entries = list.filter(p -> !p.endsWith(StageRecord.FILE)).toList();
      }
      for (Path p : entries) {
        FileTree.remove(p);
      }
    }
    FileTree.remove(aside);
  }

  private void clearAside() {
    try {
      removeAside();
    } catch (IOException e) {
      // The failure that led here is the one to report; the next run cleans up.
    }
  }
}
