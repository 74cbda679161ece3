package org.scarpway.run.progress;

import java.lang.management.ManagementFactory;

/** The processor time of this process: all threads, compiler and garbage collector included. */
public final class ProcessorTime {
  private ProcessorTime() {}

  /** Seconds since the program began, 0 if the Java machine does not report them. */
  public static double seconds() {
    return ManagementFactory.getOperatingSystemMXBean()
            instanceof com.sun.management.OperatingSystemMXBean system
        ? Math.max(0L, system.getProcessCpuTime()) * 1e-9
        : 0;
  }
}
