package org.scarpway.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.scarpway.dem.DemProbe;
import org.scarpway.geodata.raster.RasterIos;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
    name = "probe",
    description =
        "Say what the program sees in an elevation model: CRS, body, cell size, voids, heights, warnings.",
    footer = {
      "",
      "Example:",
      "  scarpway probe sample-dem/orrel-bench.tif",
      "",
      ExitCode.WRITES_NOTHING
    },
    mixinStandardHelpOptions = true)
final class ProbeCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RASTER", description = "the elevation model")
  private Path raster;

  @Override
  public Integer call() {
    DemProbe.probe(real(), RasterIos.best()).lines().forEach(System.out::println);
    return ExitCode.OK;
  }

  /**
   * Returns the real path: companion files of a raster are beside the file itself, not beside a
   * link to it, and runs resolve links the same way.
   */
  private Path real() {
    try {
      return Files.isSymbolicLink(raster) ? raster.toRealPath() : raster;
    } catch (IOException e) {
      return raster;
    }
  }
}
