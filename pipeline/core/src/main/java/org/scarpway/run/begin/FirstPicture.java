package org.scarpway.run.begin;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.Dem;
import org.scarpway.dem.DemProbe;
import org.scarpway.dem.DemRequest;
import org.scarpway.dem.DemRows;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.SlopePicture;
import org.scarpway.run.product.ShownCells;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/** Draws the slope of an elevation model that nobody has made a job for. */
public final class FirstPicture {
  /** Heights that a picture is drawn from; of larger models every so many. */
  private static final long MOST_CELLS = 4_000_000;

  private FirstPicture() {}

  /**
   * @param picture ends in .png or .svg and must not exist yet
   * @throws UserError for a name that cannot be written to, or a model that cannot be measured
   */
  public static void draw(Path raster, Path picture, DemProbe probe, RasterIo io) {
    requireFree(picture);
    Body body = probe.body().orElse(Body.EARTH);
    DemRequest request =
        new DemRequest(
            List.of(raster),
            body,
            null,
            null,
            DemRequest.VoidRule.NO_GO,
            0,
            null,
            null,
            Long.MAX_VALUE,
            probe.body().isEmpty());
    try (Workers workers = new Workers(Runtime.getRuntime().availableProcessors())) {
      DemRows rows = DemRows.open(request, io, workers);
      GridSpec spec = rows.spec();
      int step = 1;
      while (spec.cells() / ((long) step * step) > MOST_CELLS) {
        step++;
      }
      Dem dem =
          step == 1
              ? rows.whole(Progress.NONE)
              : rows.spread(ShownCells.spec(spec, step), step, Progress.NONE);
      WorldMap world = WorldMap.of(spec);
      LonLat lonLat = world.known() ? world::toLonLat : LonLat.NONE;
      SlopePicture.write(picture, dem, raster.getFileName().toString(), probe.crsName(), lonLat);
    }
  }

  private static void requireFree(Path picture) {
    Path name = picture.getFileName();
    String ending = name == null ? "" : name.toString().toLowerCase(Locale.ROOT);
    if (!ending.endsWith(".png") && !ending.endsWith(".svg")) {
      throw UserError.of(
          "--picture", "'" + picture + "'", "a name that ends in .png or .svg", "rename it");
    }
    if (Files.exists(picture)) {
      throw UserError.of(
          "--picture",
          picture + " exists",
          "a file that does not exist yet",
          "name another; nothing is overwritten");
    }
    Path folder = picture.toAbsolutePath().getParent();
    if (!Files.isDirectory(folder)) {
      throw UserError.of(
          "--picture", "there is no folder " + folder, "a folder that exists", "make it first");
    }
  }
}
