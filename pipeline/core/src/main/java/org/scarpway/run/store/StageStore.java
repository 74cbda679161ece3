package org.scarpway.run.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * Finished stages by their key, for all jobs that share an output folder: {@code
 * OUT/.store/STAGE/KEY/}. Entries are further names of the products' own files where the file
 * system can, so they take no room of their own until the products are replaced. They are taken
 * only if every digest still holds. Runs add and remove entries while others read: an entry appears
 * whole by one rename, and one that vanishes is a stage to compute.
 *
 * <p>Who deletes: a run, at its end, the entries that were not used for the longest time, until
 * what only the store still holds is within its bound. The folder may be deleted at any time.
 */
public final class StageStore {
  /** Half-made entries older than this belong to no living run. */
  private static final Duration STALE = Duration.ofHours(1);

  private static final String PART = ".part";

  /** Entries in the making, so that no two of this program have one name. */
  private static final AtomicLong MADE = new AtomicLong();

  private final Path root;
  private final long maxBytes;

  /**
   * @param root null for no store
   */
  public StageStore(Path root, long maxBytes) {
    this.root = root;
    this.maxBytes = maxBytes;
  }

  private Path entry(StageKey key) {
    return root.resolve(key.stage()).resolve(key.hex());
  }

  /** Whether there is an entry; its content is looked at when it is taken. */
  private boolean has(StageKey key) {
    return root != null && Files.isRegularFile(entry(key).resolve(StageRecord.FILE));
  }

  /** Whether there is an entry with every byte as it was written. */
  public boolean holds(StageKey key) {
    if (!has(key)) {
      return false;
    }
    StageRecord record = StageRecord.read(entry(key));
    return record != null && record.key().equals(key.hex()) && record.isIntactIn(entry(key));
  }

  /** Puts the stage's products into the folder's place if intact ones are here. */
  public boolean give(StageKey key, StageFolder folder) {
    if (!has(key)) {
      return false;
    }
    Path entry = entry(key);
    StageRecord record = StageRecord.read(entry);
    if (record == null || !record.key().equals(key.hex()) || !folder.takeFrom(entry, record)) {
      discard(entry);
      return false;
    }
    touch(entry);
    return true;
  }

  /**
   * Keeps finished products under their key. A store that cannot be written costs later time only.
   *
   * @return why nothing was kept, or null
   */
  public String keep(StageKey key, StageFolder folder) {
    if (root == null) {
      return null;
    }
    Path entry = entry(key);
    if (has(key)) {
      touch(entry);
      return null;
    }
    if (Files.isSymbolicLink(entry.getParent())) {
      return entry.getParent() + " is a link";
    }
    String maker = ProcessHandle.current().pid() + "-" + MADE.incrementAndGet();
    Path part = entry.resolveSibling("." + key.hex() + "." + maker + PART);
    try {
      FileTree.remove(part);
      Files.createDirectories(part);
      FileTree.link(folder.path(), folder.record(), part);
      if (!Files.exists(entry)) {
        Files.move(part, entry, StandardCopyOption.ATOMIC_MOVE);
      }
      return null;
    } catch (IOException | StageFailure | FileTree.Gone e) {
      return has(key) ? null : Reason.of(e);
    } finally {
      discard(part);
    }
  }

  private record Entry(Path folder, FileTime used, long bytes) {}

  /** Removes what no living run is making, and the oldest entries beyond the bound. */
  public void trim() {
    if (root == null || !Files.isDirectory(root)) {
      return;
    }
    List<Entry> entries = new ArrayList<>();
    long total = 0;
    for (Path folder : folders()) {
      Entry e = look(folder);
      if (e == null) {
        continue;
      }
      if (folder.getFileName().toString().endsWith(PART)) {
        if (e.used.toInstant().isBefore(Instant.now().minus(STALE))) {
          discard(folder);
        }
      } else {
        entries.add(e);
        total += e.bytes;
      }
    }
    entries.sort(Comparator.comparing(Entry::used).thenComparing(Entry::folder));
    for (Entry e : entries) {
      if (total <= maxBytes) {
        return;
      }
      if (e.bytes > 0) {
        discard(e.folder);
        total -= e.bytes;
      }
    }
  }

  private List<Path> folders() {
    try (Stream<Path> walk = Files.walk(root, 2)) {
      return walk.filter(p -> root.relativize(p).getNameCount() == 2 && Files.isDirectory(p))
          .sorted()
          .toList();
    } catch (IOException | UncheckedIOException e) {
      // Another run removes entries at the same time; it or the next one trims.
      return List.of();
    }
  }

  /** An entry with the bytes that only it holds, or null where it vanished. */
  private static Entry look(Path folder) {
    try (Stream<Path> walk = Files.walk(folder)) {
      long bytes = 0;
      for (Path p : walk.filter(Files::isRegularFile).toList()) {
        bytes += names(p) > 1 ? 0 : Files.size(p);
      }
      return new Entry(folder, Files.getLastModifiedTime(folder), bytes);
    } catch (IOException | UncheckedIOException e) {
      return null;
    }
  }

  private static int names(Path file) throws IOException {
    try {
      return ((Number) Files.getAttribute(file, "unix:nlink")).intValue();
    } catch (UnsupportedOperationException | IllegalArgumentException e) {
      return 1;
    }
  }

  private static void touch(Path entry) {
    try {
      Files.setLastModifiedTime(entry, FileTime.from(Instant.now()));
    } catch (IOException e) {
      // It vanished or may not be touched: it only seems older than it is.
    }
  }

  /** The record goes first, so that nobody takes an entry that is being removed. */
  private static void discard(Path entry) {
    try {
      Files.deleteIfExists(entry.resolve(StageRecord.FILE));
      FileTree.remove(entry);
    } catch (IOException | UncheckedIOException e) {
      // Another run removes it at the same time; without its record it counts for nothing.
    }
  }
}
