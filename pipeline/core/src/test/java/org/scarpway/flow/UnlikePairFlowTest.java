package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.ByteGrid;

/** A pair of two kinds of vehicles through a whole job. */
class UnlikePairFlowTest {
  @TempDir Path dir;

  private Path job(String second, String seats) throws IOException {
    Path job = SmallJob.write(dir.resolve("job.yaml"), "small", 10);
    Path buggy = dir.resolve("open-buggy.yaml");
    Files.writeString(buggy, Files.readString(buggy).replace("rescue_seats: 3", "rescue_seats: 4"));
    Files.writeString(
        dir.resolve("carrier.yaml"),
        Files.readString(buggy)
            .replace("vehicle: open-buggy", "vehicle: carrier")
            .replace("speed_ms: 3.3", "speed_ms: 1.6")
            .replace("slope_deg: 12", "slope_deg: 5")
            .replace("climb_deg: 20", "climb_deg: 7")
            .replace("descend_deg: 20", "descend_deg: 8")
            .replace("battery_kwh: 9", "battery_kwh: 4")
            .replace("rescue_seats: 4", "rescue_seats: " + seats));
    String text = Files.readString(job);
    String alike = "{name: alike, from: hearth, budget: {drive_h: 0.6}, home: pair}";
    String other = "{name: unlike, from: hearth, budget: {drive_h: 0.6}, home: pair" + second + "}";
    return Files.writeString(
        job,
        text.replace("vehicles: [open-buggy.yaml]", "vehicles: [open-buggy.yaml, carrier.yaml]")
            .replace("corridors:", "  - " + alike + "\n  - " + other + "\ncorridors:"));
  }

  private ByteGrid codes(String raster) {
    return RasterIos.best().readBytes(dir.resolve("small").resolve(raster + ".tif"));
  }

  @Test
  void bothVehiclesHoldOnTheirOwnGround() throws IOException {
    Path job = job(", second: carrier", "4");
    Flow.Outcome run = Flow.scarpway("run", job, "--out", dir, "--quiet").ok();
    assertTrue(run.out().contains("whichever of 'open-buggy' and 'carrier'"), run.out());
    byte[] alike = codes("reach/alike/state").values();
    byte[] unlike = codes("reach/unlike/state").values();
    byte[] carrier = codes("mobility/carrier/class").values();
    int surely = 0;
    int lost = 0;
    for (int i = 0; i < unlike.length; i++) {
      if (unlike[i] == 1) {
        surely++;
        assertEquals(1, alike[i], "surely with the carrier, not without it: cell " + i);
        assertFalse(carrier[i] == 3, "no-go for the carrier: cell " + i);
      } else if (alike[i] == 1) {
        lost++;
      }
    }
    assertTrue(surely > 100 && lost > 100, surely + " surely, " + lost + " lost");
    Flow.Outcome told = Flow.scarpway("explain", job, "hearth", "--out", dir).ok();
    assertTrue(told.out().contains("with open-buggy and carrier"), told.out());
    String report = Files.readString(dir.resolve("small/index.html"));
    assertTrue(report.contains("unlike: open-buggy and carrier from hearth"));
    // Nothing has changed: nothing is solved again. Another carrier: its pair is.
    Flow.Outcome plan = Flow.scarpway("plan", job, "--out", dir).ok();
    assertFalse(plan.out().matches("(?s).*reach/unlike +compute.*"), plan.out());
    Path record = dir.resolve("small/reach/unlike/.stage.json");
    String before = Files.readString(record);
    Path file = dir.resolve("carrier.yaml");
    Files.writeString(
        file, Files.readString(file).replace("life_support_h: 8", "life_support_h: 7"));
    Flow.scarpway("run", job, "--out", dir, "--quiet").ok();
    assertNotEquals(before, Files.readString(record));
  }

  @Test
  void whatDoesNotFitIsRefused() throws IOException {
    String[][] wrong = {
      {", second: carrier", "3", "rescue_seats = 3"},
      {", second: nobody", "4", "no vehicle is called"},
    };
    for (String[] w : wrong) {
      Flow.Outcome o = Flow.scarpway("check", job(w[0], w[1]));
      assertEquals(2, o.code(), o.out());
      assertTrue(o.err().contains(w[2]), o.err());
    }
    Path job = job(", second: carrier", "4");
    Files.writeString(
        job, Files.readString(job).replace("home: pair, second", "home: drive-back, second"));
    Flow.Outcome o = Flow.scarpway("check", job);
    assertEquals(2, o.code(), o.out());
    assertTrue(o.err().contains("second without home: pair"), o.err());
  }
}
