package org.scarpway.run;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** Refuses, before anything is written, what the estimates say will not fit. */
final class Fit {
  private Fit() {}

  static void require(JobPlan plan, GridSpec spec, Path out) {
    if (plan.runsNothing()) {
      return;
    }
    if (plan.heapMb() > plan.heapLimitMb()) {
      double coarser = Math.sqrt((double) plan.heapMb() / plan.heapLimitMb());
      throw UserError.of(
          plan.job(),
          String.format(
              Locale.ROOT,
              "%d x %d cells need about %,d MB of heap, the limit is %,d MB",
              spec.rows(),
              spec.cols(),
              plan.heapMb(),
              plan.heapLimitMb()),
          "what fits",
          String.format(
              Locale.ROOT,
              "set SCARPWAY_JAVA_OPTS=-Xmx%dm, or dem.cell_size_m to %.3g or more, or a dem.window"
                  + " with %.3g of the sides; --try-anyway runs it as it is",
              plan.heapMb() + plan.heapMb() / 8,
              spec.cellM() * coarser,
              1 / coarser));
    }
    long freeMb = freeMb(out);
    if (plan.diskMb() > freeMb) {
      throw UserError.of(
          plan.job(),
          String.format(
              Locale.ROOT,
              "products need about %,d MB on the disk of %s, %,d MB are free",
              plan.diskMb(),
              out,
              freeMb),
          "what fits",
          "free space, give another --out, or set a coarser dem.cell_size_m or a smaller"
              + " dem.window; --try-anyway runs it as it is");
    }
  }

  private static long freeMb(Path out) {
    Path there = out.toAbsolutePath();
    while (there != null && !Files.exists(there)) {
      there = there.getParent();
    }
    try {
      return there == null ? Long.MAX_VALUE : Files.getFileStore(there).getUsableSpace() >> 20;
    } catch (IOException e) {
      // Whether it can be written is found out when it is; this only guards against a late end.
      return Long.MAX_VALUE;
    }
  }
}
