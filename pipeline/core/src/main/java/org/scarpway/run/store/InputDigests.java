package org.scarpway.run.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/** SHA-256 of every input file. A call with many jobs reads a file that they share once. */
public final class InputDigests {
  private static final Map<Identity, String> KNOWN = new ConcurrentHashMap<>();

  private final Map<Path, String> byFile = new TreeMap<>();

  public InputDigests(List<Path> files) {
    for (Path f : files) {
      byFile.put(f, digest(f));
    }
  }

  public String of(Path file) {
    return byFile.computeIfAbsent(file, InputDigests::digest);
  }

  public String of(List<Path> files) {
    return String.join(" ", files.stream().map(this::of).toList());
  }

  public Map<Path, String> all() {
    return byFile;
  }

  /** Identifies a file's content, so that a rewritten file is recognised. */
  private record Identity(
      Path file, long bytes, FileTime changed, Object stateChanged, Object fileKey) {}

  /**
   * Returns the digest of a file, computed again only if the file was touched since the last time.
   */
  static String known(Path file) throws IOException {
    BasicFileAttributes a = Files.readAttributes(file, BasicFileAttributes.class);
    Identity id =
        new Identity(file, a.size(), a.lastModifiedTime(), stateChanged(file), a.fileKey());
    String known = KNOWN.get(id);
    if (known == null) {
      known = sha256(file);
      KNOWN.put(id, known);
    }
    return known;
  }

  /** Returns the inode change time, which nobody can set back, if the file system keeps one. */
  private static Object stateChanged(Path file) throws IOException {
    try {
      return Files.getAttribute(file, "unix:ctime");
    } catch (UnsupportedOperationException | IllegalArgumentException e) {
      return "";
    }
  }

  private static String digest(Path file) {
    try {
      return known(file);
    } catch (IOException e) {
      throw UserError.of(
          file.toString(),
          "cannot be read (" + Reason.of(e) + ")",
          "a readable file",
          "check the path and its permissions");
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
