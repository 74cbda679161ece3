package org.scarpway.run.store;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.security.DigestInputStream;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.scarpway.stage.ContentStore;

/**
 * A folder with one file per result, {@code DIGEST.sealed}: the digest that names it, the result's
 * bytes, then the SHA-256 of both. A file appears complete by one rename, and is used only if it
 * holds the name under which it lies and its seal matches; any other is removed and its result
 * computed again. Files are therefore not forced to disk: a crash loses time, not correctness. When
 * a file is added, and when a run ends, those used longest ago are dropped until the bound is kept.
 */
public final class ContentFiles implements ContentStore {
  private static final String SEALED = ".sealed";
  private static final String PART = ".part";
  private static final int BUFFER = 1 << 18;
  private static final int SHA_BYTES = 32;

  /** Raised whenever the layout of a file changes. */
  private static final int FORMAT = 2;

  /**
   * A result larger than the bound divided by this is not kept, so that it drives out no others.
   */
  private static final int LARGEST_SHARE = 4;

  /** Incomplete files older than this belong to no living run. */
  private static final Duration STALE = Duration.ofHours(1);

  private final Path folder;
  private final long maxBytes;
  private final boolean fresh;
  private final AtomicInteger damaged = new AtomicInteger();

  /**
   * @param folder null to keep nothing
   * @param fresh true to read nothing
   */
  public ContentFiles(Path folder, long maxBytes, boolean fresh) {
    this.folder = folder;
    this.maxBytes = maxBytes;
    this.fresh = fresh;
  }

  /** Results of another version of the program count as missing. */
  private static String name(String key) {
    return StageKey.of("content", FORMAT).add("key", key).build().hex();
  }

  private Path file(String name) {
    return folder.resolve(name + SEALED);
  }

  private boolean linked() {
    return Files.isSymbolicLink(folder);
  }

  @Override
  public boolean keeps(long bytes) {
    return folder != null && bytes <= maxBytes / LARGEST_SHARE && !linked();
  }

  @Override
  public boolean holds(String key) {
    return !fresh
        && folder != null
        && !linked()
        && Files.isRegularFile(file(name(key)), LinkOption.NOFOLLOW_LINKS);
  }

  @Override
  public <T> T read(String key, Reader<T> reader) {
    if (!holds(key)) {
      return null;
    }
    String name = name(key);
    Path file = file(name);
    try {
      T result = readSealed(name, reader);
      if (result != null) {
        Files.setLastModifiedTime(file, FileTime.from(Instant.now()));
        return result;
      }
    } catch (NoSuchFileException e) {
      // Another run dropped it.
      return null;
    } catch (IOException | RuntimeException e) {
      // Not what was written: computed again.
    }
    damaged.incrementAndGet();
    discard(file);
    return null;
  }

  /** Number of results that were read and were not as they had been written. */
  public int damaged() {
    return damaged.get();
  }

  /** Like {@link #read}, but leaves the file untouched. */
  <T> T look(String key, Reader<T> reader) {
    try {
      return holds(key) ? readSealed(name(key), reader) : null;
    } catch (IOException | RuntimeException e) {
      return null;
    }
  }

  private <T> T readSealed(String name, Reader<T> reader) throws IOException {
    Path file = file(name);
    MessageDigest sha = StageKey.sha256();
    long content = Files.size(file) - SHA_BYTES;
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file), BUFFER)) {
      Bounded bounded = new Bounded(in, content);
      DigestInputStream digested = new DigestInputStream(bounded, sha);
      byte[] own = name.getBytes(StandardCharsets.US_ASCII);
      if (!Arrays.equals(own, digested.readNBytes(own.length))) {
        return null;
      }
      T result = reader.readFrom(digested);
      boolean whole = content >= 0 && digested.read() < 0;
      return whole && MessageDigest.isEqual(sha.digest(), in.readNBytes(SHA_BYTES)) ? result : null;
    }
  }

  /** The first bytes of a stream. */
  private static final class Bounded extends InputStream {
    private final InputStream in;
    private long left;

    private Bounded(InputStream in, long left) {
      this.in = in;
      this.left = left;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int at, int n) throws IOException {
      int got = left <= 0 ? -1 : in.read(into, at, (int) Math.min(n, left));
      left -= Math.max(0, got);
      return got;
    }
  }

  @Override
  public void write(String key, long bytes, Writer writer) {
    if (!keeps(bytes)) {
      return;
    }
    // A thread writes one file at a time.
    String maker = ProcessHandle.current().pid() + "-" + Thread.currentThread().getId();
    Path part = folder.resolve("." + key + "." + maker + PART);
    String name = name(key);
    try {
      Files.createDirectories(folder);
      MessageDigest sha = StageKey.sha256();
      try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(part), BUFFER)) {
        OutputStream digested = new DigestOutputStream(out, sha);
        digested.write(name.getBytes(StandardCharsets.US_ASCII));
        writer.writeTo(digested);
        out.write(sha.digest());
      }
      Files.move(
          part, file(name), StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      trim();
    } catch (IOException | UncheckedIOException e) {
      // The disk is full or the folder may not be written: nothing is kept.
      discard(part);
    }
  }

  private record Entry(Path file, FileTime used, long bytes) {}

  /** Drops the files used longest ago until the bound is kept. */
  public synchronized void trim() {
    List<Entry> entries = new ArrayList<>();
    long total = 0;
    for (Path file : folder == null || linked() ? List.<Path>of() : list(folder)) {
      String name = file.getFileName().toString();
      if (name.endsWith(PART) && name.startsWith(".")) {
        if (used(file).toInstant().isBefore(Instant.now().minus(STALE))) {
          discard(file);
        }
      } else if (name.endsWith(SEALED)) {
        Entry e = new Entry(file, used(file), bytes(file));
        entries.add(e);
        total += e.bytes;
      }
    }
    entries.sort(Comparator.comparing(Entry::used).thenComparing(Entry::file));
    for (Entry e : entries) {
      if (total <= maxBytes) {
        return;
      }
      discard(e.file);
      total -= e.bytes;
    }
  }

  /** Returns the bytes of all results in a folder; 0 if there is none. */
  public static long bytesIn(Path folder) {
    return list(folder).stream()
        .filter(f -> f.getFileName().toString().endsWith(SEALED))
        .mapToLong(ContentFiles::bytes)
        .sum();
  }

  private static List<Path> list(Path folder) {
    try (Stream<Path> list = Files.list(folder)) {
      return list.sorted().toList();
    } catch (IOException | UncheckedIOException e) {
      // There is none, or it may not be read.
      return List.of();
    }
  }

  private static FileTime used(Path file) {
    try {
      return Files.getLastModifiedTime(file, LinkOption.NOFOLLOW_LINKS);
    } catch (IOException e) {
      // Another run removed it.
      return FileTime.from(Instant.now());
    }
  }

  private static long bytes(Path file) {
    try {
      return Files.size(file);
    } catch (IOException e) {
      return 0;
    }
  }

  private static void discard(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      // Another run removes it at the same time, or it may not be removed; it is never trusted.
    }
  }
}
