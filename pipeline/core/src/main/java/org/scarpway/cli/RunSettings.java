package org.scarpway.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.run.plan.ProgressStyle;
import org.scarpway.run.plan.RunOptions;
import org.scarpway.stage.UserError;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The options that run and plan share. */
final class RunSettings {
  /** Upper bound on threads; machines with more cores allow as many threads as they have cores. */
  private static final int LEAST_MOST_THREADS = 256;

  private static final double MOST_STORE_GB = 1e9;

  @Parameters(paramLabel = "JOB.yaml", arity = "1..*", description = "one or more job files")
  List<Path> jobs;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "where the jobs' folders go (default: ${DEFAULT-VALUE})",
      defaultValue = "reports")
  private Path out;

  @Option(
      names = "--fresh",
      description = "compute everything, even where finished products are there")
  private boolean fresh;

  @Option(
      names = "--store",
      paramLabel = "DIR",
      description = "finished stages that jobs share by their content (default: .store in --out)")
  private Path store;

  @Option(names = "--no-store", description = "share nothing between jobs")
  private boolean noStore;

  @Option(
      names = "--store-gb",
      paramLabel = "GB",
      description =
          "what the store may hold that no job folder holds any more, and four times what it may hold"
              + " of wavefronts; the longest unused goes first"
              + " (default: ${DEFAULT-VALUE})",
      defaultValue = "20")
  private double storeGb;

  @Option(
      names = "--try-anyway",
      description = "run even what will not fit in memory or on the disk by the estimates")
  private boolean tryAnyway;

  @Option(
      names = "--set",
      paramLabel = "key=value",
      description = "override one setting of the job, such as dem.cell_size_m=10; may be repeated")
  private Map<String, String> set = new LinkedHashMap<>();

  static int mostThreads() {
    return Math.max(LEAST_MOST_THREADS, Runtime.getRuntime().availableProcessors());
  }

  RunOptions options(int threads, ProgressStyle style, boolean debug) {
    int most = mostThreads();
    if (threads < 1 || threads > most) {
      throw UserError.of(
          "--threads", "got " + threads, "1 to " + most, "leave it out for all cores");
    }
    if (!(storeGb >= 0 && storeGb <= MOST_STORE_GB)) {
      throw UserError.of(
          "--store-gb", "got " + storeGb, "0 to " + (long) MOST_STORE_GB, "leave it out for 20");
    }
    Path shared = store == null ? out.resolve(".store") : store;
    if (store == null && !noStore && Files.isSymbolicLink(shared)) {
      throw UserError.of(
          shared.toString(),
          "is a link",
          "a folder of its own for finished stages",
          "remove the link, or name where it leads with --store");
    }
    return new RunOptions(
        out,
        threads,
        fresh,
        style,
        noStore ? null : shared,
        Math.round(storeGb * 1e9),
        tryAnyway,
        debug,
        set);
  }
}
