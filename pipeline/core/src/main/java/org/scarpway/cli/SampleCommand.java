package org.scarpway.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.sample.DemoScenario;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
    name = "sample",
    description =
        "Write the invented demo scenario anew from its seed; the same bytes as sample-dem/.",
    footer = {"", "Example:", "  scarpway sample sample-dem", "", ExitCode.WRITES},
    mixinStandardHelpOptions = true)
final class SampleCommand implements Callable<Integer> {
  @Parameters(paramLabel = "DIR", description = "where to write it")
  private Path dir;

  @Override
  public Integer call() {
    DemoScenario.write(dir, RasterIos.best());
    System.out.println("demo scenario written to " + dir);
    return ExitCode.OK;
  }
}
