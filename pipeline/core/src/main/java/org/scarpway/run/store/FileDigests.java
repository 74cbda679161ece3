package org.scarpway.run.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * SHA-256 of files, each read once: a call with many jobs has one instance, so that what they share
 * is not read again. Thread-safe.
 */
public final class FileDigests {
  private final Map<Identity, String> known = new ConcurrentHashMap<>();

  /** Identifies a file's content, so that a rewritten file is recognised. */
  private record Identity(
      Path file, long bytes, FileTime changed, Object stateChanged, Object fileKey) {}

  /**
   * Returns the digest of a file, computed again only if the file was touched since the last time.
   */
  public String of(Path file) throws IOException {
    BasicFileAttributes a = Files.readAttributes(file, BasicFileAttributes.class);
    Identity id =
        new Identity(file, a.size(), a.lastModifiedTime(), stateChanged(file), a.fileKey());
    String found = known.get(id);
    if (found == null) {
      found = sha256(file);
      known.put(id, found);
    }
    return found;
  }

  /** Returns the inode change time, which nobody can set back, if the file system keeps one. */
  private static Object stateChanged(Path file) throws IOException {
    try {
      return Files.getAttribute(file, "unix:ctime");
    } catch (UnsupportedOperationException | IllegalArgumentException e) {
      return "";
    }
  }

  static String sha256(Path file) throws IOException {
    MessageDigest sha = StageKey.sha256();
    byte[] block = new byte[1 << 18];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(block); n >= 0; n = in.read(block)) {
        sha.update(block, 0, n);
      }
    }
    return HexFormat.of().formatHex(sha.digest());
  }
}
