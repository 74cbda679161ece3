package org.scarpway.reach.question;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;

/** The figures of a reach, counted by hand on a dozen cells of 200 x 300 m (0.06 km2). */
class ReachSummaryTest {
  private static final GridSpec SPEC = new GridSpec(3, 4, 200, 300, 0, 900, "");
  private static final byte NO_GO = ReachEnd.NO_GO.code();
  private static final byte CUT_OFF = ReachEnd.CUT_OFF.code();
  private static final byte TIME = ReachEnd.TIME.code();

  private static double of(List<ReachFigure> figures, String name) {
    ReachFigure found =
        figures.stream().filter(f -> f.name().equals(name)).findFirst().orElseThrow();
    assertTrue(List.of("km2", "km", "%", "m").contains(found.unit()));
    return found.value();
  }

  @Test
  void figuresAreCounted() {
    // The base in the first cell; four surely, two perhaps, one no-go, two cut off, three too far.
    byte[] state = {1, 1, 2, 0, 1, 2, 0, 0, 1, 0, 0, 0};
    byte[] ends = {0, 0, 0, TIME, 0, 0, NO_GO, CUT_OFF, 0, CUT_OFF, TIME, TIME};
    float nan = Float.NaN;
    float[] gapM = {9, 8, 1, nan, 6, 1, nan, nan, 7, nan, nan, nan};
    List<ReachFigure> f =
        ReachSummary.of(SPEC, 0, Bytes.of(state), Bytes.of(ends), Floats.of(gapM), 12.5);
    assertEquals(4 * 0.06, of(f, ReachFigure.SURELY), 1e-12);
    assertEquals(2 * 0.06, of(f, ReachFigure.POSSIBLY), 1e-12);
    assertEquals(100 * 2 / 6.0, of(f, "undecided share of reachable area"), 1e-12);
    assertEquals(12.5, of(f, "undecided share before limits were weighed"));
    assertEquals(100 * 4 / 11.0, of(f, "share of driveable ground surely reachable"), 1e-12);
    // Two rows down, 600 m away: within that are its own row, three of the next, one of the last.
    assertEquals(0.6, of(f, "furthest surely reachable point, straight"), 1e-12);
    assertEquals(100 * 4 / 8.0, of(f, "share of ground within that distance"), 1e-12);
    assertEquals(0, of(f, "driveable but cut off within that distance"), 1e-12);
    assertEquals(2 * 0.06, of(f, "driveable but cut off"), 1e-12);
    assertEquals(6, of(f, "narrowest passage that reach depends on"));
    // The cell of width 6 is the first of the second row, beside those of width 9 and 8.
    assertEquals(SPEC.xM(0), of(f, "east coordinate of the one nearest to the base"));
    assertEquals(SPEC.yM(1), of(f, "north coordinate of the one nearest to the base"));
    assertEquals(0.06, of(f, "reach behind passages so narrow"), 1e-12);
    assertEquals(100 * 2 / 6.0, ReachSummary.undecidedPct(Bytes.of(state)), 1e-12);
  }

  @Test
  void aBaseInTheMiddle() {
    byte[] state = {0, 0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0};
    byte[] ends = {TIME, CUT_OFF, TIME, TIME, TIME, 0, 0, CUT_OFF, TIME, TIME, TIME, TIME};
    float[] gapM = new float[12];
    List<ReachFigure> f =
        ReachSummary.of(SPEC, 6, Bytes.of(state), Bytes.of(ends), Floats.of(gapM), 0);
    assertEquals(0.2, of(f, "furthest surely reachable point, straight"), 1e-12);
    // Its own row of three within 200 m, the one to the east of them cut off.
    assertEquals(100 * 2 / 3.0, of(f, "share of ground within that distance"), 1e-12);
    assertEquals(0.06, of(f, "driveable but cut off within that distance"), 1e-12);
    assertEquals(2 * 0.06, of(f, "driveable but cut off"), 1e-12);
    assertEquals(0, of(f, "undecided share of reachable area"));
  }

  @Test
  void reservesOfOneSizeAreToldTogether() {
    List<ReachFigure> all =
        List.of(
            new ReachFigure(ReachFigure.SURELY, 10, "km2"),
            new ReachFigure("reserve kept of the time", 10, "%"),
            new ReachFigure("reserve kept of the life support", 12.5, "%"),
            new ReachFigure("reserve kept of the energy", 10, "%"),
            new ReachFigure("reserve kept of the distance", 10, "%"));
    assertEquals(
        "10 % of time, energy and distance, 12.5 % of life support", ReachSummary.reserveText(all));
    assertEquals("10 % of time", ReachSummary.reserveText(all.subList(0, 2)));
    assertEquals("10 % of energy and distance", ReachSummary.reserveText(all.subList(3, 5)));
    assertEquals("", ReachSummary.reserveText(all.subList(0, 1)));
  }

  @Test
  void nothingAtAll() {
    byte[] none = new byte[12];
    byte[] ends = new byte[12];
    Arrays.fill(ends, NO_GO);
    float[] gapM = new float[12];
    List<ReachFigure> f =
        ReachSummary.of(SPEC, 0, Bytes.of(none), Bytes.of(ends), Floats.of(gapM), 0);
    assertEquals(0, of(f, "share of driveable ground surely reachable"));
    assertEquals(0, ReachSummary.undecidedPct(Bytes.of(none)));
    assertTrue(Double.isNaN(of(f, "narrowest passage that reach depends on")));
  }
}
