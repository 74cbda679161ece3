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
 * The folder of one stage's products, replaced atomically: products are first written to a hidden
 * sibling folder, which then takes the folder's place. Files in it that no run wrote are carried
 * over. Every step is forced to disk before the next one relies on it, so that a power failure
 * leaves either the old products or the new ones.
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

  /** Returns the record of the finished products, or null if there are none. */
  public StageRecord record() {
    return StageRecord.read(folder);
  }

  /** True if finished products of exactly this key are here, every byte as it was written. */
  public boolean holds(StageKey key, FileDigests digests) {
    StageRecord found = record();
    return found != null && found.key().equals(key.hex()) && found.isIntactIn(folder, digests);
  }

  /**
   * Completes what a killed run had begun: restores what it had moved aside, or carries over files
   * that no run wrote, and removes its partly written files.
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
   * Returns the paths, of those needed to replace this folder, that hold something no run put
   * there.
   */
  public List<Path> foreign() {
    return Stream.of(aside, old)
        .filter(p -> Files.exists(p, LinkOption.NOFOLLOW_LINKS) && !Files.isSymbolicLink(p))
        .filter(p -> !Files.isDirectory(p) || (p.equals(aside) && !isOurs(p)))
        .toList();
  }

  /**
   * True if a run made the folder: a folder of unfinished products carries their mark from the
   * first moment to the last.
   */
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

  /** Returns the files that no run wrote and that could not keep their name, one line each. */
  public List<String> kept() {
    return kept;
  }

  /** Writes new products to the sibling folder and puts it in this folder's place. */
  public void replace(StageKey key, Consumer<Path> writer) {
    fill(
        () -> {
          writer.accept(aside);
          StageRecord.of(key, aside).write(aside);
        });
  }

  /**
   * Takes the finished products of another folder unchanged, record included.
   *
   * @return false, with this folder untouched, if they are not what their record says
   */
  boolean takeFrom(Path other, StageRecord record, FileDigests digests) {
    if (!record.isIntactIn(other, digests)) {
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

  /** Removes the mark last, so that the remains after a kill are recognised as the run's. */
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
