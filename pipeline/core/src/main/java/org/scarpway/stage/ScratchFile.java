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
 * Room outside the heap: pieces of a mapped temporary file, which the system writes to disk when
 * memory is short. The file has no name once it is open, so nothing is left behind however the
 * process ends; its room is given back when no piece is used any more.
 */
public final class ScratchFile {
  private static final int SEGMENT = 1 << 28;

  /** What takes more than one part in so many of the heap is kept outside it. */
  private static final int HEAP_SHARE = 8;

  /** Bytes taken for which room is looked for again. */
  private static final long WORTH_WHILE = 1L << 28;

  private static final AtomicLong TAKEN = new AtomicLong();

  private final FileChannel channel;
  private ByteBuffer current;
  private long end;

  private ScratchFile(FileChannel channel) {
    this.channel = channel;
  }

  /** A new file if the heap has no room for so many bytes, else null. */
  public static ScratchFile beyondHeap(long bytes) {
    return bytes > Runtime.getRuntime().maxMemory() / HEAP_SHARE ? create() : null;
  }

  /** The folder for temporary files. */
  public static Path folder() {
    return Path.of(System.getProperty("java.io.tmpdir"));
  }

  /** In the folder for temporary files. */
  public static ScratchFile create() {
    try {
      Path path = Files.createTempFile(folder(), "scarpway-", ".scratch");
      FileChannel channel =
          FileChannel.open(
              path,
              Set.of(
                  StandardOpenOption.READ,
                  StandardOpenOption.WRITE,
                  StandardOpenOption.DELETE_ON_CLOSE));
      return new ScratchFile(channel);
    } catch (IOException e) {
      throw new StageFailure("cannot make a scratch file: " + Reason.of(e), e);
    }
  }

  /**
   * Gives back the room of files that nothing uses any more. That happens when what used them is
   * collected, and the heap, which may hardly be used, would not ask for that by itself. Where
   * little was taken since the last time nothing is done.
   */
  public static void giveBack() {
    if (TAKEN.get() >= WORTH_WHILE) {
      TAKEN.set(0);
      System.gc();
    }
  }

  /** A piece of {@code bytes}, zero at first, in the order of the machine. */
  public synchronized ByteBuffer take(int bytes) {
    int padded = Math.addExact(bytes, 7) & -8;
    TAKEN.addAndGet(padded);
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
