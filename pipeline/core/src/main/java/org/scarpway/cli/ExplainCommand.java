package org.scarpway.cli;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
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
        "Explain one place: how each question reaches it or what ends it there, then every derivative and every limit with what it got and what is allowed.",
    footer = {
      "",
      "Example:",
      "  scarpway explain configs/jobs/demo.yaml lantern",
      "",
      ExitCode.WRITES_NOTHING
    },
    mixinStandardHelpOptions = true)
final class ExplainCommand implements Callable<Integer> {
  /** Bound on coordinates, the same as for places in a job. */
  private static final double FARTHEST = 1e9;

  @Parameters(index = "0", paramLabel = "JOB.yaml", description = "the job file")
  private Path job;

  @Parameters(
      index = "1..2",
      arity = "1..2",
      paramLabel = "PLACE",
      description =
          "a base, candidate, target or stop by its name; or X Y or X,Y: east and north coordinate in the"
              + " raster's own CRS and unit, or longitude and latitude with --lonlat")
  private List<String> place;

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
    if (place.size() == 1 && place.get(0).matches("[-+0-9.eE]+,[-+0-9.eE]+")) {
      place = List.of(place.get(0).split(","));
    }
    if (place.size() == 1) {
      if (lonLat) {
        throw UserError.of(
            "--lonlat",
            "one argument, '" + place.get(0) + "'",
            "a longitude and a latitude, or a name without --lonlat",
            "correct them");
      }
      ExplainPlace.explain(job, set, place.get(0), vehicle, out, System.out);
    } else {
      double x = coordinate("X", place.get(0));
      double y = coordinate("Y", place.get(1));
      ExplainPlace.explain(job, set, x, y, lonLat, vehicle, out, System.out);
    }
    return ExitCode.OK;
  }

  private static double coordinate(String which, String text) {
    double value = Double.NaN;
    try {
      value = Double.parseDouble(text);
    } catch (NumberFormatException e) {
      // Refused below, like any other text that is no coordinate.
    }
    if (!(Math.abs(value) <= FARTHEST)) {
      throw UserError.of(
          which,
          "got " + text,
          "a number in [-1000000000, 1000000000]",
          "correct it, or put a name with spaces in quotes");
    }
    return value;
  }
}
