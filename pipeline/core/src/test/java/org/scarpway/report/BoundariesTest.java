package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class BoundariesTest {
  /** The middle of every side between cells of two kinds, and of no other, is close to a line. */
  @Test
  void linesRunAlongEverySideOfTheirKindAndAlongNoOther() {
    Random random = new Random(9);
    for (int trial = 0; trial < 40; trial++) {
      int rows = 2 + random.nextInt(12);
      int cols = 2 + random.nextInt(12);
      int[] zone = new int[rows * cols];
      for (int i = 0; i < zone.length; i++) {
        zone[i] = random.nextInt(trial % 2 == 0 ? 2 : 3);
      }
      Boundaries boundaries =
          new Boundaries(rows, cols, (a, b) -> zone[a] == zone[b] ? 0 : zone[a] + zone[b]);
      for (int kind = 1; kind <= 3; kind++) {
        List<int[]> sides = sides(zone, rows, cols, kind);
        List<int[]> lines = boundaries.lines(kind);
        assertEquals(sides.isEmpty(), lines.isEmpty());
        for (int[] side : sides) {
          double off =
              lines.stream().mapToDouble(l -> off(side, l)).min().orElse(Double.POSITIVE_INFINITY);
          assertTrue(off <= 1.3, "a side is " + off + " half cells from its line");
        }
        for (int[] line : lines) {
          for (int i = 0; i < line.length; i += 2) {
            int x = line[i];
            int y = line[i + 1];
            assertTrue(sides.stream().anyMatch(s -> s[0] == x && s[1] == y));
          }
        }
      }
    }
  }

  private static List<int[]> sides(int[] zone, int rows, int cols, int kind) {
    List<int[]> sides = new ArrayList<>();
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        int here = zone[r * cols + c];
        if (r > 0 && here != zone[(r - 1) * cols + c] && here + zone[(r - 1) * cols + c] == kind) {
          sides.add(new int[] {2 * c + 1, 2 * r});
        }
        if (c > 0 && here != zone[r * cols + c - 1] && here + zone[r * cols + c - 1] == kind) {
          sides.add(new int[] {2 * c, 2 * r + 1});
        }
      }
    }
    return sides;
  }

  private static double off(int[] p, int[] line) {
    double least = Math.hypot(p[0] - line[0], p[1] - line[1]);
    for (int i = 2; i < line.length; i += 2) {
      double dx = line[i] - line[i - 2];
      double dy = line[i + 1] - line[i - 1];
      double length2 = dx * dx + dy * dy;
      double t =
          length2 == 0 ? 0 : ((p[0] - line[i - 2]) * dx + (p[1] - line[i - 1]) * dy) / length2;
      t = Math.max(0, Math.min(1, t));
      least = Math.min(least, Math.hypot(p[0] - line[i - 2] - t * dx, p[1] - line[i - 1] - t * dy));
    }
    return least;
  }
}
