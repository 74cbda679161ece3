package org.scarpway.run.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/** SHA-256 of every input file of a job. */
public final class InputDigests {
  private final FileDigests files;
  private final Map<Path, String> byFile = new TreeMap<>();

  /**
   * @param files digests of the call, which the job shares with others
   */
  public InputDigests(List<Path> inputs, FileDigests files) {
    this.files = files;
    for (Path f : inputs) {
      byFile.put(f, digest(f));
    }
  }

  public String of(Path file) {
    return byFile.computeIfAbsent(file, this::digest);
  }

  public String of(List<Path> files) {
    return String.join(" ", files.stream().map(this::of).toList());
  }

  /** The digests of the call. */
  public FileDigests files() {
    return files;
  }

  public Map<Path, String> all() {
    return byFile;
  }

  private String digest(Path file) {
    try {
      return files.of(file);
    } catch (IOException e) {
      throw UserError.of(
          file.toString(),
          "cannot be read (" + Reason.of(e) + ")",
          "a readable file",
          "check the path and its permissions");
    }
  }
}
