package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.geodata.crs.LonLat;

class DegreeLinesTest {
  /** Radius of the Moon's sphere (m), and metres to a degree. */
  private static final double R = 1_737_400;

  private static final double M = R * Math.PI / 180;

  @Test
  void linesOfAPlateCarreeAreStraight() {
    LonLat map = (x, y) -> new double[] {178 + x / M, -12 + y / M};
    DegreeLines arcs = new DegreeLines(map, -0.2 * M, 0, 5.2 * M, 3 * M);
    List<String> top = arcs.top.stream().map(DegreeLines.Mark::text).toList();
    assertEquals(List.of("178°E", "179°E", "180°", "179°W", "178°W", "177°W"), top);
    for (int k = 0; k < top.size(); k++) {
      assertEquals((k + 0.2) / 5.4, arcs.top.get(k).at(), 1e-9);
    }
    List<String> right = arcs.right.stream().map(DegreeLines.Mark::text).toList();
    assertTrue(
        right.containsAll(List.of("10.0°S", "11.0°S")) || right.contains("10°S"), right::toString);
    for (double[] l : arcs.lines) {
      double east = l[0] / M;
      double north = l[1] / M;
      boolean meridian = Math.abs(east - Math.rint(east)) < 1e-6 && Math.abs(l[0] - l[2]) < 1e-3;
      boolean parallel =
          Math.abs(north * 2 - Math.rint(north * 2)) < 1e-6 && Math.abs(l[1] - l[3]) < 1e-3;
      assertTrue(meridian || parallel, east + " " + north);
    }
  }

  /** Stereographic map about a pole: every drawn point has a round longitude or latitude. */
  @Test
  void linesAboutAPoleAreAtRoundDegrees() {
    LonLat map =
        (x, y) ->
            new double[] {
              Math.toDegrees(Math.atan2(x, y)),
              -90 + 2 * Math.toDegrees(Math.atan(Math.hypot(x, y) / (2 * R)))
            };
    DegreeLines arcs = new DegreeLines(map, -40_000, -30_000, 60_000, 50_000);
    assertTrue(arcs.lines.size() > 500, () -> "lines: " + arcs.lines.size());
    for (double[] l : arcs.lines) {
      for (int e = 0; e < 4; e += 2) {
        double[] at = map.at(l[e], l[e + 1]);
        double far = Math.hypot(l[e], l[e + 1]);
        double onParallel = off(at[1], 0.5) * M;
        double onMeridian = Math.toRadians(off(at[0], 30)) * far;
        // A cell of the lattice is about a kilometre; beside the pole a line bends within it.
        assertTrue(
            Math.min(onParallel, onMeridian) < (far > 10_000 ? 30 : 400), at[0] + " " + at[1]);
      }
    }
    assertTrue(arcs.top.stream().anyMatch(m -> m.text().equals("30°E")));
    assertTrue(arcs.right.stream().anyMatch(m -> m.text().endsWith("S")));
  }

  private static double off(double v, double step) {
    return Math.abs(v / step - Math.rint(v / step)) * step;
  }

  @Test
  void unknownPositionsGiveNoLines() {
    DegreeLines arcs = new DegreeLines(LonLat.NONE, 0, 0, 10, 10);
    assertTrue(arcs.lines.isEmpty() && arcs.top.isEmpty() && arcs.right.isEmpty());
  }
}
