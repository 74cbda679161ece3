package org.scarpway.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.run.begin.FirstJob;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "new",
    description =
        "Write a first job for an elevation model, with a vehicle and a walker, commented and ready to run: what would reach from a base on its open ground look like?",
    footer = {
      "",
      "Example:",
      "  scarpway new orrel --dem sample-dem/orrel-bench.tif",
      "",
      ExitCode.WRITES
    },
    mixinStandardHelpOptions = true)
final class NewCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "DIR",
      description = "folder to write; it must not exist or be empty, nothing is overwritten")
  private Path dir;

  @Option(
      names = "--dem",
      required = true,
      paramLabel = "FILE",
      description = "the elevation model")
  private Path dem;

  @Option(
      names = "--body",
      paramLabel = "BODY",
      description =
          "moon, mars, earth or a body file (default: the body of the file's reference system)")
  private String body;

  @Option(
      names = "--at",
      paramLabel = "X,Y",
      description =
          "near where the base is wished, in the raster's own CRS and unit (default: the middle)")
  private String at;

  @Override
  public Integer call() {
    double[] wish = at == null ? null : PlaceOption.parse("--at", at);
    new FirstJob(dir, real(dem), body, wish == null ? null : new FirstJob.Wish(wish[0], wish[1]))
        .write(RasterIos.best(), System.out);
    return ExitCode.OK;
  }

  /** Companion files of a raster are beside the file itself, not beside a link to it. */
  private static Path real(Path file) {
    try {
      return Files.isSymbolicLink(file) ? file.toRealPath() : file;
    } catch (IOException e) {
      return file;
    }
  }
}
