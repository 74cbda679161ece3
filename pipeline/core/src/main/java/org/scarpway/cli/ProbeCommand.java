package org.scarpway.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.scarpway.dem.DemProbe;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.run.begin.FirstPicture;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
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
      "Writes nothing but the picture that --picture names.",
      ExitCode.WRITES
    },
    mixinStandardHelpOptions = true)
final class ProbeCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RASTER", description = "the elevation model")
  private Path raster;

  @Option(
      names = "--picture",
      paramLabel = "FILE",
      description = "draw its slope on a page with scale, north and legend, to a new .png or .svg")
  private Path picture;

  @Override
  public Integer call() {
    RasterIo io = RasterIos.best();
    DemProbe probe = DemProbe.probe(real(), io);
    if (picture != null) {
      FirstPicture.draw(real(), picture, probe, io);
    }
    probe.lines().forEach(System.out::println);
    if (picture != null) {
      System.out.println("slope drawn in " + picture);
    }
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
