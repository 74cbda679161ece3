package org.scarpway.run;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.StepCodes;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;

/** The quickest ways from the base to a place and home again, followed through finished rasters. */
final class QuickestWays {
  /** Rows of a raster that are held at once. */
  private static final int HELD = 64;

  private QuickestWays() {}

  /** Returns a line for each way that there is. */
  static List<String> of(OpenJob open, Job.ReachEntry question, Path folder, int cell) {
    GridSpec spec = open.spec();
    Places.Spot base = open.places().stop(question.from(), question.where());
    int source = spec.cellOf(base.xM(), base.yM());
    List<String> lines = new ArrayList<>();
    Map<String, String> ways = new LinkedHashMap<>();
    ways.put("out", "quickest way out");
    ways.put("home", "quickest way home");
    ways.put("walk", "walk home");
    ways.put("fetch", "way of the vehicle that fetches the crew");
    ways.put("ride", "its ride home");
    for (Map.Entry<String, String> e : ways.entrySet()) {
      Path raster = folder.resolve(e.getKey() + "_step.tif");
      int[] way = Files.exists(raster) ? follow(raster, spec, cell, source) : new int[0];
      if (way.length > 1) {
        lines.add(
            String.format(
                Locale.ROOT,
                "%s: %.2f km on the map, %d steps",
                e.getValue(),
                StepCodes.lengthM(spec, way) / 1000,
                way.length - 1));
      }
    }
    return lines;
  }

  /** Follows a raster of steps, which may be larger than memory. */
  static int[] follow(Path raster, GridSpec spec, int cell, int source) {
    Map<Integer, byte[]> held =
        new LinkedHashMap<>() {
          @Override
          protected boolean removeEldestEntry(Map.Entry<Integer, byte[]> eldest) {
            return size() > HELD;
          }
        };
    try (RasterRows<byte[]> rows = RasterRows.open(raster, CellKind.UINT8)) {
      return StepCodes.follow(
          spec,
          c -> {
            byte[] row =
                held.computeIfAbsent(
                    c / spec.cols(),
                    r -> {
                      byte[] cells = new byte[spec.cols()];
                      rows.read(r, 1, cells);
                      return cells;
                    });
            return row[c % spec.cols()];
          },
          cell,
          source);
    }
  }
}
