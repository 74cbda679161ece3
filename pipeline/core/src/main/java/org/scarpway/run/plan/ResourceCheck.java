package org.scarpway.run.plan;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Digits;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.UserError;

/** Refuses a job, before anything is written, if the estimates say that it will not fit. */
public final class ResourceCheck {
  private ResourceCheck() {}

  /**
   * @throws UserError if it will not fit
   */
  public static void require(JobPlan plan, GridSpec spec, Path out) {
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
          Digits.text(
              "set SCARPWAY_JAVA_OPTS=-Xmx%dm, or dem.cell_size_m to %s or more, or a dem.window"
                  + " with %s of the sides; --try-anyway runs it as it is",
              plan.heapMb() + plan.heapMb() / 8, spec.cellM() * coarser, 1 / coarser));
    }
    long freeMb = freeMb(out);
    if (plan.scratchMb() > 0) {
      requireScratch(plan, out, freeMb);
    }
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

  private static void requireScratch(JobPlan plan, Path out, long freeForProductsMb) {
    Path folder = ScratchFile.folder();
    boolean shared = store(out).equals(store(folder));
    long needMb = plan.scratchMb() + (shared ? plan.diskMb() : 0);
    long freeMb = shared ? freeForProductsMb : freeMb(folder);
    if (needMb > freeMb) {
      throw UserError.of(
          plan.job(),
          String.format(
              Locale.ROOT,
              "scratch files%s need up to %,d MB on the disk of %s, %,d MB are free",
              shared ? " and products" : "",
              needMb,
              folder,
              freeMb),
          "what fits",
          "free space, set SCARPWAY_JAVA_OPTS=-Djava.io.tmpdir=DIR for another folder, or set a"
              + " coarser dem.cell_size_m or a smaller dem.window; --try-anyway runs it as it is");
    }
  }

  private static String store(Path path) {
    try {
      return Files.getFileStore(existing(path)).name();
    } catch (IOException e) {
      // File systems are then distinguished by their folders.
      return path.toString();
    }
  }

  private static Path existing(Path path) {
    Path there = path.toAbsolutePath();
    while (there.getParent() != null && !Files.exists(there)) {
      there = there.getParent();
    }
    return there;
  }

  private static long freeMb(Path path) {
    try {
      return Files.getFileStore(existing(path)).getUsableSpace() >> 20;
    } catch (IOException e) {
      // Whether it can be written is found out later; this check only avoids a failure late in a
      // run.
      return Long.MAX_VALUE;
    }
  }
}
