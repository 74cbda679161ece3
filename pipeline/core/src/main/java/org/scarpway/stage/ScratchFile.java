package org.scarpway.stage;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Storage outside the heap: pieces of a memory-mapped temporary file, which the operating system
 * writes to disk when memory is short. The file is unlinked once it is open, so nothing is left
 * behind however the process ends; its space is freed when no piece is referenced any more.
 */
public final class ScratchFile {
  private static final int SEGMENT = 1 << 28;

  private final FileChannel channel;

  /** Bytes allocated in all scratch files of the engine. */
  private final AtomicLong taken;

  private ByteBuffer current;
  private long end;

  private ScratchFile(FileChannel channel, AtomicLong taken) {
    this.channel = channel;
    this.taken = taken;
  }

  /** The folder for temporary files. */
  public static Path folder() {
    return Path.of(System.getProperty("java.io.tmpdir"));
  }

  /**
   * Creates a scratch file in the folder for temporary files.
   *
   * @param taken counter to which the allocated bytes are added
   */
  static ScratchFile create(AtomicLong taken) {
    try {
      Path path = Files.createTempFile(folder(), "scarpway-", ".scratch");
      FileChannel channel =
          FileChannel.open(
              path,
              Set.of(
                  StandardOpenOption.READ,
                  StandardOpenOption.WRITE,
                  StandardOpenOption.DELETE_ON_CLOSE));
      return new ScratchFile(channel, taken);
    } catch (IOException e) {
      throw new StageFailure("cannot make a scratch file: " + Reason.of(e), e);
    }
  }

  /** Allocates a piece of {@code bytes}, filled with zeros, in native byte order. */
  public synchronized ByteBuffer take(int bytes) {
    int padded = Math.addExact(bytes, 7) & -8;
    taken.addAndGet(padded);
    if (current == null || current.remaining() < padded) {
      try {
        int size = Math.max(SEGMENT, padded);
        current = channel.map(FileChannel.MapMode.READ_WRITE, end, size);
        end += size;
      } catch (IOException e) {
        throw new StageFailure("no room for a scratch file: " + Reason.of(e), e);
      }
    }
    ByteBuffer b = current;
    ByteBuffer piece = b.slice(b.position(), bytes).order(ByteOrder.nativeOrder());
    b.position(b.position() + padded);
    return piece;
  }
}
