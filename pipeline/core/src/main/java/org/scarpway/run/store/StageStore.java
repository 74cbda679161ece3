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
 * Finished stages by their key, shared by all jobs with one output folder: {@code
 * OUT/.store/STAGE/KEY/}. Entries are hard links to the products' own files if the file system
 * supports them, so they need no space of their own until the products are replaced. An entry is
 * used only if every digest still matches. Runs add and remove entries while others read: an entry
 * appears complete by one rename, and a stage whose entry vanished is computed.
 *
 * <p>Eviction: at its end, a run deletes the least recently used entries until the bytes that only
 * the store holds are within its bound. The folder may be deleted at any time.
 */
public final class StageStore {
  /** Incomplete entries older than this belong to no living run. */
  private static final Duration STALE = Duration.ofHours(1);

  private static final String PART = ".part";

  /** Counts the entries being made, so that no two of this process have one name. */
  private static final AtomicLong MADE = new AtomicLong();

  private final Path root;
  private final long maxBytes;
  private final FileDigests digests;

  /**
   * @param root null for no store
   */
  public StageStore(Path root, long maxBytes, FileDigests digests) {
    this.root = root;
    this.maxBytes = maxBytes;
    this.digests = digests;
  }

  /** The digests of the call. */
  public FileDigests digests() {
    return digests;
  }

  private Path entry(StageKey key) {
    return root.resolve(key.stage()).resolve(key.hex());
  }

  /** True if there is an entry; its content is checked when it is used. */
  private boolean has(StageKey key) {
    return root != null && Files.isRegularFile(entry(key).resolve(StageRecord.FILE));
  }

  /** True if there is an entry with every byte as it was written. */
  public boolean holds(StageKey key) {
    if (!has(key)) {
      return false;
    }
    StageRecord record = StageRecord.read(entry(key));
    return record != null
        && record.key().equals(key.hex())
        && record.isIntactIn(entry(key), digests);
  }

  /** Puts the stage's products into the folder if the store holds them intact. */
  public boolean restore(StageKey key, StageFolder folder) {
    if (!has(key)) {
      return false;
    }
    Path entry = entry(key);
    StageRecord record = StageRecord.read(entry);
    if (record == null
        || !record.key().equals(key.hex())
        || !folder.takeFrom(entry, record, digests)) {
      discard(entry);
      return false;
    }
    touch(entry);
    return true;
  }

  /**
   * Stores finished products under their key. A store that cannot be written only costs time later.
   *
   * @return why nothing was stored, or null
   */
  public String put(StageKey key, StageFolder folder) {
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

  /** Removes incomplete entries of dead runs, and the oldest entries beyond the bound. */
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
      // Another run removes entries at the same time; that run or the next one trims.
      return List.of();
    }
  }

  /** Returns an entry with the number of bytes that only it holds, or null if it vanished. */
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
      // The entry vanished or may not be touched; at worst it seems older than it is.
    }
  }

  /** Removes the record first, so that nobody uses an entry that is being removed. */
  private static void discard(Path entry) {
    try {
      Files.deleteIfExists(entry.resolve(StageRecord.FILE));
      FileTree.remove(entry);
    } catch (IOException | UncheckedIOException e) {
      // Another run removes it at the same time; without its record it is not an entry.
    }
  }
}
