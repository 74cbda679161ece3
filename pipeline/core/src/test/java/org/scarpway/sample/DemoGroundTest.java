package org.scarpway.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

class DemoGroundTest {
  private static final DemoGround GROUND = new DemoGround(DemoScenario.spec());
  static final FloatGrid HEIGHTS = GROUND.heights();
  private static final int N = DemoGround.CELLS;
  private static final boolean[] DRIVABLE = drivable();

  private static String digest(FloatGrid grid) throws Exception {
    ByteBuffer bytes = ByteBuffer.allocate(4 * grid.values().length);
    for (float v : grid.values()) {
      bytes.putFloat(v);
    }
    return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes.array()));
  }

  /** A change of these says that the demo is another one: write sample-dem/ anew with it. */
  @Test
  void cellsAreTheSameOnEveryMachine() throws Exception {
    assertEquals(
        "749515e04919c9d89c731462ded8039c5be5f2db7f73f1dd75f854ddcea6a98c", digest(HEIGHTS));
    assertEquals(
        "9b459a77df72d5c666f7a1cbc2477ff2ef46bf0035e41427bbf3b4e725692ffe",
        digest(GROUND.rockCoverage()));
  }

  @Test
  void rocksAreAFraction() {
    float largest = 0;
    for (float k : GROUND.rockCoverage().values()) {
      assertTrue(k >= 0 && k <= 0.3f);
      largest = Math.max(largest, k);
    }
    assertTrue(largest > 0.15f);
  }

  @Test
  void mostOfTheGroundIsDrivable() {
    int flat = 0;
    for (boolean d : DRIVABLE) {
      flat += d ? 1 : 0;
    }
    assertTrue(flat > 0.9 * N * N, "drivable " + flat);
    assertTrue(flat < 0.98 * N * N, "drivable " + flat);
  }

  @Test
  void theScarpHasTwoGapsAndNoOther() {
    int lantern = cell(DemoPlaces.LANTERN.uM(), DemoPlaces.LANTERN.vM());
    assertTrue(fromHearth(true, false)[lantern]);
    assertTrue(fromHearth(false, true)[lantern]);
    assertFalse(fromHearth(true, true)[lantern]);
  }

  @Test
  void everyStopButTheFloorOfQuernCanBeReached() {
    boolean[] reached = fromHearth(false, false);
    for (DemoPlaces.Stop s : DemoPlaces.STOPS) {
      assertEquals(!s.name().equals("quern-floor"), reached[cell(s.uM(), s.vM())], s.name());
    }
  }

  private static int cell(double uM, double vM) {
    GridSpec g = DemoScenario.spec();
    return g.cellOf(g.westM() + uM, g.southM() + vM);
  }

  /** Cells reached under 20 degrees, by any of 8 neighbours, past gaps that may be closed. */
  private static boolean[] fromHearth(boolean wicketShut, boolean stairShut) {
    boolean[] seen = new boolean[N * N];
    int[] queue = new int[N * N];
    int end = 0;
    queue[end++] = cell(DemoPlaces.HEARTH.uM(), DemoPlaces.HEARTH.vM());
    seen[queue[0]] = true;
    for (int i = 0; i < end; i++) {
      for (int dr = -1; dr <= 1; dr++) {
        for (int dc = -1; dc <= 1; dc++) {
          int next = queue[i] + dr * N + dc;
          if (!seen[next] && DRIVABLE[next] && !shut(next, wicketShut, stairShut)) {
            seen[next] = true;
            queue[end++] = next;
          }
        }
      }
    }
    return seen;
  }

  private static boolean shut(int cell, boolean wicketShut, boolean stairShut) {
    double u = (cell % N + 0.5) * DemoGround.CELL_M;
    double v = (N - cell / N - 0.5) * DemoGround.CELL_M;
    boolean onLine = Math.abs(v - Scarp.lineM(u)) < 15;
    return onLine
        && ((wicketShut && Math.abs(u - Scarp.WICKET_U_M) < 300)
            || (stairShut && Math.abs(u - Scarp.STAIR_U_M) < 500));
  }

  /** Slope by Horn 1981 below 20 degrees; never on the outermost cells. */
  private static boolean[] drivable() {
    float[] h = HEIGHTS.values();
    double limit = 8 * DemoGround.CELL_M * Math.tan(Math.toRadians(20));
    boolean[] out = new boolean[N * N];
    for (int row = 1; row < N - 1; row++) {
      for (int col = 1; col < N - 1; col++) {
        int c = row * N + col;
        int n = c - N;
        int s = c + N;
        double east = h[n + 1] + 2 * h[c + 1] + h[s + 1] - h[n - 1] - 2 * h[c - 1] - h[s - 1];
        double north = h[n - 1] + 2 * h[n] + h[n + 1] - h[s - 1] - 2 * h[s] - h[s + 1];
        out[c] = east * east + north * north < limit * limit;
      }
    }
    return out;
  }
}
