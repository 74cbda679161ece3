package org.scarpway.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.scarpway.run.replan.ReplanOptions;
import org.scarpway.run.replan.ReplanRun;
import org.scarpway.stage.UserError;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "replan",
    description =
        "Answer a crew underway: does it come home from here with what is left, which stops of the plan still fit, and where must it turn.",
    footer = {
      "",
      "Example:",
      "  scarpway replan configs/jobs/demo.yaml --question rover-sortie --at 73500,94400 --left time_h=1.2,energy_kwh=4,life_support_h=60",
      "",
      ExitCode.ANSWERS
    },
    mixinStandardHelpOptions = true)
final class ReplanCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "JOB.yaml", description = "the job file")
  private Path job;

  @Option(
      names = "--at",
      required = true,
      paramLabel = "X,Y",
      description =
          "where the crew stands, in the raster's own CRS and unit, or longitude and latitude with --lonlat")
  private String at;

  @Option(
      names = "--lonlat",
      description = "X,Y are degrees of longitude and latitude, WGS 84 on Earth")
  private boolean lonLat;

  @Option(
      names = "--left",
      required = true,
      split = ",",
      paramLabel = "KEY=VALUE",
      description =
          "what is left, reserves included: time_h, energy_kwh, distance_km, life_support_h; all that the question limits, at most its budgets")
  private List<String> left = new ArrayList<>();

  @Option(
      names = "--done",
      split = ",",
      paramLabel = "STOP",
      description = "stops of the plan that are done or given up")
  private List<String> done = new ArrayList<>();

  @Option(
      names = "--lost",
      paramLabel = "FILE",
      description = "areas that may no longer be entered, as GeoJSON or GeoPackage")
  private Path lost;

  @Option(
      names = "--question",
      paramLabel = "NAME",
      description =
          "reach question whose base, home rule, limits and reserves hold (default: the only one)")
  private String question;

  @Option(
      names = "--corridor",
      paramLabel = "NAME",
      description =
          "corridor whose stops are the plan (default: the targets in the order of their file)")
  private String corridor;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "where the job's folder lies (default: ${DEFAULT-VALUE})",
      defaultValue = "reports")
  private Path out;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "threads to use (default: all cores); results do not depend on it")
  private int threads = Runtime.getRuntime().availableProcessors();

  @Option(
      names = "--set",
      paramLabel = "key=value",
      description = "override one setting of the job")
  private Map<String, String> set = new LinkedHashMap<>();

  @Override
  public Integer call() {
    double[] place = PlaceOption.parse("--at", at);
    int most = RunSettings.mostThreads();
    if (threads < 1 || threads > most) {
      throw UserError.of(
          "--threads", "got " + threads, "1 to " + most, "leave it out for all cores");
    }
    ReplanRun.run(
        new ReplanOptions(
            job,
            set,
            out,
            threads,
            place[0],
            place[1],
            lonLat,
            amounts(left),
            done,
            lost,
            question,
            corridor),
        System.out);
    return ExitCode.OK;
  }

  /** The amounts by key; two amounts of one quantity are refused, since either may be the slip. */
  private static Map<String, String> amounts(List<String> given) {
    Map<String, String> amounts = new LinkedHashMap<>();
    for (String pair : given) {
      int equals = pair.indexOf('=');
      if (equals < 1) {
        throw UserError.of("--left", "got '" + pair + "'", "KEY=VALUE", "write time_h=1.5");
      }
      String key = pair.substring(0, equals);
      if (amounts.put(key, pair.substring(equals + 1)) != null) {
        throw UserError.of(
            "--left", "'" + key + "' is given twice", "one amount of each", "remove the wrong one");
      }
    }
    return amounts;
  }
}
