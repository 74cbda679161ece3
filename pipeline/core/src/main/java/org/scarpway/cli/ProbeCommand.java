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
    mixinStandardHelpOptions = true)
final class ProbeCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RASTER", description = "the elevation model")
  private Path raster;

  @Override
  public Integer call() {
    DemProbe.probe(real(), RasterIos.best()).lines().forEach(System.out::println);
    return ExitCode.OK;
  }

  /** Partners of a raster lie beside the file itself, not beside a link to it; runs see it so. */
  private Path real() {
    try {
      return Files.isSymbolicLink(raster) ? raster.toRealPath() : raster;
    } catch (IOException e) {
      return raster;
    }
  }
}
