package org.scarpway.fuzz;

import java.util.Map;
import org.scarpway.config.JobReader;

/** A job file of any bytes. */
public final class JobFuzz {
  private JobFuzz() {}

  public static void fuzzerTestOneInput(byte[] content) {
    Target.read("job.yaml", content, file -> JobReader.readAll(file, Map.of()));
  }
}
