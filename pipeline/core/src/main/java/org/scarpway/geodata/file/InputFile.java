package org.scarpway.geodata.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/**
 * Checks made on every user-supplied file before parsing: it is a readable regular file and not
 * larger than a limit.
 */
public final class InputFile {
  private InputFile() {}

  /** Refuses anything but a readable regular file of at most {@code maxBytes}. */
  public static void require(Path file, long maxBytes, String kind) {
    if (!Files.exists(file)) {
      throw UserError.of(file.toString(), "no such file", kind, "check the path in the job file");
    }
    if (!Files.isRegularFile(file)) {
      throw UserError.of(file.toString(), "not a regular file", kind, "name the file itself");
    }
    if (!Files.isReadable(file)) {
      throw UserError.of(file.toString(), "may not be read", kind, "change its permissions");
    }
    long bytes;
    try {
      bytes = Files.size(file);
    } catch (IOException e) {
      throw unreadable(file, kind, e);
    }
    if (bytes > maxBytes) {
      throw UserError.of(
          file.toString(),
          "has " + bytes + " bytes",
          "at most " + maxBytes + " bytes for " + kind,
          "cut it to the ground that matters");
    }
    if (bytes == 0) {
      throw UserError.of(file.toString(), "is empty", kind, "write it again");
    }
  }

  public static UserError unreadable(Path file, String kind, Exception e) {
    return UserError.of(
        file.toString(), "cannot be read (" + Reason.of(e) + ")", kind, "check or write it again");
  }
}
