package org.scarpway.run;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.stage.UserError;

/** SHA-256 of every input file, taken once. */
final class InputDigests {
  private final Map<Path, String> byFile = new TreeMap<>();

  InputDigests(List<Path> files) {
    for (Path f : files) {
      byFile.put(f, digest(f));
    }
  }

  String of(Path file) {
    return byFile.computeIfAbsent(file, InputDigests::digest);
  }

  String of(List<Path> files) {
    return String.join(" ", files.stream().map(this::of).toList());
  }

  Map<Path, String> all() {
    return byFile;
  }

  private static String digest(Path file) {
    MessageDigest sha = StageKey.sha256();
    try (InputStream in = new DigestInputStream(Files.newInputStream(file), sha)) {
      in.transferTo(java.io.OutputStream.nullOutputStream());
    } catch (IOException e) {
      throw UserError.of(
          file.toString(),
          "cannot be read (" + e.getMessage() + ")",
          "a readable file",
          "check the path and its permissions");
    }
    return HexFormat.of().formatHex(sha.digest());
  }
}
