package org.scarpway.run.progress;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/** The peak memory use (MB), garbage not yet collected included. */
public final class PeakMemory {
  private static long mostHeapMb;

  private PeakMemory() {}

  /** Resets the peak that {@link #heapMb()} returns. */
  public static synchronized void startAnew() {
    mostHeapMb = Math.max(mostHeapMb, heapMb());
    for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
      pool.resetPeakUsage();
    }
  }

  /**
   * Peak of the heap since the last reset. The peaks of its pools need not coincide, so this is at
   * most too large, never too small.
   */
  public static long heapMb() {
    long peak = 0;
    for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
      if (pool.getType() == MemoryType.HEAP) {
        peak += pool.getPeakUsage().getUsed();
      }
    }
    return Math.min(peak, Runtime.getRuntime().maxMemory()) >> 20;
  }

  /** Peak of the heap since the program began. */
  public static synchronized long mostHeapMb() {
    return Math.max(mostHeapMb, heapMb());
  }

  /** Peak resident memory of the process if the system reports it, else 0. */
  public static long residentMb() {
    Path status = Path.of("/proc/self/status");
    if (!Files.isReadable(status)) {
      return 0;
    }
    try {
      for (String line : Files.readAllLines(status, StandardCharsets.UTF_8)) {
        if (line.startsWith("VmHWM:")) {
          return Long.parseLong(line.replaceAll("\\D", "")) >> 10;
        }
      }
      return 0;
    } catch (IOException e) {
      throw new StageFailure("cannot read " + status + ": " + Reason.of(e), e);
    }
  }
}
