package org.scarpway.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.run.compare.CompareRuns;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "compare",
    description =
        "Compare finished runs: their answers side by side, the ground gained and lost, and the settings that differ.",
    footer = {
      "",
      "Example:",
      "  scarpway compare reports/orrel-bench trial/orrel-bench --out reports --name trial-compared",
      "",
      ExitCode.WRITES
    },
    mixinStandardHelpOptions = true)
final class CompareCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "RUN",
      arity = "1..*",
      description =
          "folders of finished runs on the same grid; the others are held against the first")
  private List<Path> runs;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "where the folder of the comparison goes (default: ${DEFAULT-VALUE})",
      defaultValue = "reports")
  private Path out;

  @Option(
      names = "--name",
      paramLabel = "NAME",
      description = "name of that folder (default: ${DEFAULT-VALUE})",
      defaultValue = "comparison")
  private String name;

  @Override
  public Integer call() {
    CompareRuns.run(runs, out, name, RasterIos.best(), System.out);
    return ExitCode.OK;
  }
}
