package org.scarpway.cli;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.scarpway.run.ExplainPlace;
import org.scarpway.stage.UserError;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "explain",
    description =
        "Explain one place: every derivative, every limit with what it got and what is allowed, and how the place is reached.",
    mixinStandardHelpOptions = true)
final class ExplainCommand implements Callable<Integer> {
  /** Bound on coordinates, the same as for places in a job. */
  private static final double FARTHEST = 1e9;

  @Parameters(index = "0", paramLabel = "JOB.yaml", description = "the job file")
  private Path job;

  @Parameters(
      index = "1",
      paramLabel = "X",
      description = "east coordinate in the raster's own CRS and unit, or longitude with --lonlat")
  private double x;

  @Parameters(
      index = "2",
      paramLabel = "Y",
      description = "north coordinate, or latitude with --lonlat")
  private double y;

  @Option(
      names = "--lonlat",
      description = "X and Y are degrees of longitude and latitude, WGS 84 on Earth")
  private boolean lonLat;

  @Option(
      names = "--vehicle",
      paramLabel = "NAME",
      description = "which vehicle (default: every one of the job)")
  private String vehicle;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "where runs were written (default: ${DEFAULT-VALUE})",
      defaultValue = "reports")
  private Path out;

  @Option(
      names = "--set",
      paramLabel = "key=value",
      description = "override one setting of the job")
  private Map<String, String> set = new LinkedHashMap<>();

  @Override
  public Integer call() {
    if (!(Math.abs(x) <= FARTHEST) || !(Math.abs(y) <= FARTHEST)) {
      throw UserError.of(
          "X Y", "got " + x + " " + y, "numbers in [-1000000000, 1000000000]", "correct them");
    }
    ExplainPlace.explain(job, set, x, y, lonLat, vehicle, out, System.out);
    return ExitCode.OK;
  }
}
