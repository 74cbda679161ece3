package org.scarpway.run.unit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.JobReader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.store.FileDigests;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * A base on a block of level ground 1 m above the level ground around it. Both cells at a step are
 * closed to a walker who climbs 0.6 m, so that a block of s x s cells leaves (s - 2)^2 cells.
 */
class BaseOnFootTest {
  private static final Path ROOT =
      Path.of(System.getProperty("scarpway.root", "../..")).toAbsolutePath().normalize();
  private static final GridSpec SPEC = new GridSpec(50, 50, 8, 8, 500, 90_000, "");

  @TempDir Path dir;

  private List<String> notes(int side, double highM, String home, Workers workers)
      throws IOException {
    float[] z = new float[SPEC.cells()];
    for (int row = 20; row < 20 + side; row++) {
      for (int col = 20; col < 20 + side; col++) {
        z[row * SPEC.cols() + col] = (float) highM;
      }
    }
    RasterIo io = RasterIos.pureJava();
    io.write(dir.resolve("z.tif"), new FloatGrid(SPEC, z), BandInfo.of("height", "m"));
    Path file =
        Files.writeString(
            dir.resolve("job.yaml"),
            """
            scarpway: 1
            job: block
            body: moon
            dem: {source: z.tif, units: metres}
            vehicles: [%1$s/configs/vehicles/open-buggy.yaml]
            walker: %1$s/configs/walkers/suited-lunar.yaml
            bases: {camp: [%2$s, %3$s]}
            reach: [{name: out, from: camp, budget: {drive_h: 1}, home: %4$s}]
            """
                .formatted(ROOT, SPEC.xM(21), SPEC.yM(21), home));
    OpenJob open =
        OpenJob.open(JobReader.read(file, Map.of()), io, new FileDigests(), workers, Progress.NONE);
    return BaseOnFoot.notes(open, new PlaceGround(open));
  }

  @Test
  void aBaseThatWithLittleGroundOnFootIsTold() throws IOException {
    try (Workers workers = new Workers(1)) {
      for (int side = 3; side <= 9; side++) {
        List<String> notes = notes(side, 1, "walk-back", workers);
        int inside = (side - 2) * (side - 2);
        if (inside > BaseOnFoot.FEW_CELLS) {
          assertEquals(List.of(), notes, "side " + side);
          continue;
        }
        assertEquals(1, notes.size(), "side " + side);
        String cells = inside == 1 ? "1 cell" : inside + " cells";
        int beside = 4 * (side - 2);
        assertEquals(
            String.format(
                Locale.ROOT,
                "'camp': its ground on foot is %s (%d m2); of the %d cells beside it the walker's"
                    + " limits close %d by a step of more than 0.60 m (max_step_m). Nobody walks"
                    + " there from farther away.",
                cells,
                64 * inside,
                beside,
                beside),
            notes.get(0));
      }
    }
  }

  @Test
  void whoDrivesHomeOrStepsOverIsNotWarned() throws IOException {
    try (Workers workers = new Workers(1)) {
      assertEquals(List.of(), notes(3, 1, "drive-back", workers));
      assertEquals(List.of(), notes(3, 0.5, "walk-back", workers));
    }
  }
}
