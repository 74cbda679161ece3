package org.scarpway.run.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/** Keeps two runs out of one output folder. The lock ends with the process, however it ends. */
public final class JobLock implements AutoCloseable {
  public static final String FILE = ".lock";

  private final Path folder;
  private final FileChannel channel;
  private final FileLock lock;

  private JobLock(Path folder, FileChannel channel, FileLock lock) {
    this.folder = folder;
    this.channel = channel;
    this.lock = lock;
  }

  public static JobLock take(Path jobFolder) {
    try {
      Files.createDirectories(jobFolder);
      FileChannel channel =
          FileChannel.open(
              jobFolder.resolve(FILE),
              StandardOpenOption.CREATE,
              StandardOpenOption.WRITE,
              LinkOption.NOFOLLOW_LINKS);
      FileLock lock;
      try {
        lock = channel.tryLock();
      } catch (OverlappingFileLockException e) {
        lock = null;
      }
      if (lock == null) {
        channel.close();
        throw UserError.of(
            jobFolder.toString(),
            "another run is writing here",
            "one run for each output folder",
            "wait until it ends or give another --out");
      }
      return new JobLock(jobFolder, channel, lock);
    } catch (IOException e) {
      throw UserError.of(
          jobFolder.toString(),
          "the output folder cannot be written (" + Reason.of(e) + ")",
          "a folder that can be created and written",
          "give another --out");
    }
  }

  /** Returns the locked folder. */
  public Path folder() {
    return folder;
  }

  @Override
  public void close() {
    try {
      lock.release();
      channel.close();
    } catch (IOException e) {
      throw new StageFailure("cannot release the lock: " + Reason.of(e), e);
    }
  }
}
