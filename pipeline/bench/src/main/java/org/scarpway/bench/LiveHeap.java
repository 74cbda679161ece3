package org.scarpway.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.MemoryMXBean;
import org.scarpway.cli.Main;

/**
 * Runs a command of the program and tells on stderr the most heap that was live after a collection,
 * with a collection every tenth of a second: about the least heap with which the command runs, and
 * at most that. To be run with {@code -XX:SoftRefLRUPolicyMSPerMB=0}, so that what can be loaded
 * again does not count.
 */
public final class LiveHeap {
  static final String TOLD = "live heap at most, MB: ";
  private static final long PAUSE_MS = 100;
  private static volatile long mostBytes;

  private LiveHeap() {}

  public static void main(String[] args) {
    Thread look = new Thread(LiveHeap::look, "live-heap");
    look.setDaemon(true);
    look.start();
    int code = Main.execute(args);
    System.err.println(TOLD + (mostBytes >> 20));
    System.exit(code);
  }

  private static void look() {
    MemoryMXBean memory = ManagementFactory.getMemoryMXBean();
    try {
      while (true) {
        memory.gc();
        mostBytes = Math.max(mostBytes, memory.getHeapMemoryUsage().getUsed());
        Thread.sleep(PAUSE_MS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
