package org.scarpway.geodata.raster;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayDeque;
import java.util.Iterator;
import java.util.function.Function;
import org.scarpway.geodata.file.RasterFiles;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/**
 * Pool of open raster files. Each is lent to one caller at a time and a few stay open between
 * calls, so that a file read strip by strip is opened and decoded once. A file that was replaced on
 * disk is reopened.
 */
final class OpenFiles {
  private static final int MAX_IDLE = 4;

  /** Identity of a file, to detect that it was replaced later. */
  private record Identity(Path file, long bytes, long changedMs, Object inode) {
    static Identity of(Path file) {
      try {
        BasicFileAttributes a = Files.readAttributes(file, BasicFileAttributes.class);
        return new Identity(file, a.size(), a.lastModifiedTime().toMillis(), a.fileKey());
      } catch (IOException e) {
        throw UserError.of(
            file.toString(),
            "cannot be read (" + Reason.of(e) + ")",
            "a raster file",
            "check the path");
      }
    }
  }

  private record Idle(Identity identity, OpenRaster raster) {}

  private final Function<Path, OpenRaster> opener;
  private final ArrayDeque<Idle> idle = new ArrayDeque<>();

  OpenFiles(Function<Path, OpenRaster> opener) {
    this.opener = opener;
  }

  /**
   * Opens or reuses the file for the duration of the call; {@code work} must not keep a reference
   * to it.
   */
  <T> T with(Path file, Function<OpenRaster, T> work) {
    Path plain = RasterFiles.requireReadable(file);
    Identity identity = Identity.of(plain);
    OpenRaster raster = take(identity);
    if (raster == null) {
      raster = opener.apply(plain);
    }
    boolean sound = false;
    try {
      T result = work.apply(raster);
      sound = true;
      return result;
    } finally {
      if (sound) {
        giveBack(new Idle(identity, raster));
      } else {
        raster.close();
      }
    }
  }

  /** Closes a pooled file that is about to be replaced. */
  void forget(Path file) {
    Path plain = file.toAbsolutePath().normalize();
    ArrayDeque<OpenRaster> old = new ArrayDeque<>();
    synchronized (idle) {
      for (Iterator<Idle> it = idle.iterator(); it.hasNext(); ) {
        Idle kept = it.next();
        if (kept.identity.file.equals(plain)) {
          it.remove();
          old.add(kept.raster);
        }
      }
    }
    old.forEach(OpenRaster::close);
  }

  private OpenRaster take(Identity identity) {
    synchronized (idle) {
      for (Iterator<Idle> it = idle.iterator(); it.hasNext(); ) {
        Idle kept = it.next();
        if (kept.identity.equals(identity)) {
          it.remove();
          return kept.raster;
        }
      }
    }
    return null;
  }

  private void giveBack(Idle back) {
    Idle oldest = null;
    synchronized (idle) {
      idle.addLast(back);
      if (idle.size() > MAX_IDLE) {
        oldest = idle.removeFirst();
      }
    }
    if (oldest != null) {
      oldest.raster.close();
    }
  }
}
