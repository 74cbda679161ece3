package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard.Cause;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/** Hazards of random ground, cell by cell by their definition; rocks by sums over their sizes. */
class HazardSumsTest {
  private static final GridSpec SPEC = new GridSpec(70, 9, 1, 1, 0, 70, "");
  private static final double SWATH_M = 3;
  private static final double CLEARANCE_M = 0.35;
  private static final double[] COVERAGES = {0, 0.06, 0.05, 0.07, 0.1, 0.4, Double.NaN};

  /** Rocks of 0.7 m or more that a swath of 3 m meets per km (Golombek and Rapp 1997). */
  private static double hitsPerKm(double k) {
    return k == 0 ? 0 : 1000 * RockModelTest.sum(k, 0.7, d -> SWATH_M + d);
  }

  private static double blocked(double k) {
    double touching = k == 0 ? 0 : RockModelTest.discs(k, SWATH_M, 0.7);
    return touching >= 0.8 ? 1 : 1 - Math.exp(-touching);
  }

  private static FloatGrid layer(Random random, double most) {
    FloatGrid grid = FloatGrid.empty(SPEC);
    for (int i = 0; i < SPEC.cells(); i++) {
      boolean unknown = random.nextInt(40) == 0;
      grid.values()[i] = unknown ? Float.NaN : (float) (most * random.nextDouble());
    }
    return grid;
  }

  private static HazardParams params(Double rocks) {
    return new HazardParams(
        new RockParams(rocks, null, CLEARANCE_M, SWATH_M), List.of(), 0, 20, 0.3, 0.2, 5, null);
  }

  private static Hazard compute(Double rocks, FloatGrid coverage, Terrain t, Progress progress) {
    try (Workers workers = new Workers(2)) {
      return new HazardStrips(SPEC, params(rocks)).strip(t, 0, coverage, workers, progress);
    }
  }

  private static Terrain ground(Random random) {
    FloatGrid none = FloatGrid.empty(SPEC);
    FloatGrid slope = layer(random, 18);
    FloatGrid step = layer(random, 0.25);
    FloatGrid roughness = layer(random, 0.25);
    return new Terrain(none, slope, none, none, roughness, step, none);
  }

  @Test
  void everyCauseOfEveryCell() {
    Random random = new Random(5);
    Terrain t = ground(random);
    int[] which = new int[SPEC.cells()];
    FloatGrid coverage = FloatGrid.empty(SPEC);
    double[] blocked = new double[COVERAGES.length];
    double[] hits = new double[COVERAGES.length];
    for (int k = 0; k < COVERAGES.length - 1; k++) {
      blocked[k] = blocked(COVERAGES[k]);
      hits[k] = hitsPerKm(COVERAGES[k]);
    }
    hits[COVERAGES.length - 1] = Double.NaN;
    for (int i = 0; i < which.length; i++) {
      which[i] = random.nextInt(COVERAGES.length);
      coverage.values()[i] = (float) COVERAGES[which[i]];
    }
    AtomicLong steps = new AtomicLong();
    Progress counted =
        new Progress() {
          @Override
          public void begin(String what, long total) {}

          @Override
          public void advance(long more) {
            steps.addAndGet(more);
          }

          @Override
          public void end() {}
        };
    Hazard h = compute(null, coverage, t, counted);
    assertEquals(SPEC.cells(), steps.get());
    for (int i = 0; i < which.length; i++) {
      double[] shares = {
        t.slopeDeg().values()[i] / 20.0,
        t.stepM().values()[i] / 0.3,
        t.roughnessM().values()[i] / 0.2,
        blocked[which[i]]
      };
      boolean unknown = Double.isNaN(COVERAGES[which[i]]);
      double most = 0;
      int bits = 0;
      for (int c = 0; c < 4; c++) {
        unknown |= Double.isNaN(shares[c]);
        most = Math.max(most, Double.isNaN(shares[c]) ? 0 : Math.min(1, shares[c]));
        bits |= shares[c] >= 0.5 ? 1 << c : 0;
      }
      String where = "cell " + i + " " + Arrays.toString(shares);
      assertEquals(unknown ? 1 : most, h.hazard01().values()[i], 1e-5, where);
      assertEquals(unknown ? bits | Cause.VOID.bit() : bits, h.causes().values()[i] & 255, where);
      assertEquals(hits[which[i]], h.boulders().orElseThrow().hitsPerKm().values()[i], 1e-3, where);
    }
    assertTrue(h.notes().get(0).startsWith("Coverage counts all rocks"));
    assertEquals(1, h.notes().size());
  }

  @Test
  void oneCoverageEverywhere() {
    Terrain t = ground(new Random(6));
    Hazard h = compute(0.07, null, t, Progress.NONE);
    for (float hits : h.boulders().orElseThrow().hitsPerKm().values()) {
      assertEquals(hitsPerKm(0.07), hits, 1e-3);
    }
    // 27.465 rocks per km and 36.41 m between them are published figures.
    assertEquals(27.465, h.boulders().orElseThrow().hitsPerKm().values()[0], 5e-4);
    String note = h.notes().get(0);
    assertTrue(
        note.startsWith(
            "Rocks cover 0.07 of the ground: a swath of 3 m meets 27.5 rocks per km wider than"
                + " 0.7 m (mean free path 36.4 m), detour factor "),
        note);
    assertTrue(blocked(0.4) == 1);
    String closed = compute(0.4, null, t, Progress.NONE).notes().get(0);
    assertTrue(closed.endsWith(" m), too many to find a way through."), closed);
    assertEquals(2, h.notes().size(), h.notes().toString());
    assertTrue(h.notes().get(1).startsWith("Coverage counts all rocks"), h.notes().toString());
  }

  @Test
  void groundWithoutRocksHasNoFigureForThem() {
    Terrain t = ground(new Random(7));
    for (Double none : new Double[] {null, 0.0}) {
      Hazard h = compute(none, null, t, Progress.NONE);
      assertTrue(h.boulders().isEmpty());
      assertEquals(List.of(), h.notes());
      assertEquals(1, h.detourFactor().values()[3]);
    }
  }

  @Test
  void aCoverageThatIsNoFractionIsRefusedWhereItStands() {
    Terrain t = ground(new Random(8));
    for (float wrong : new float[] {-0.01f, 1, 40}) {
      FloatGrid coverage = FloatGrid.empty(SPEC);
      coverage.values()[5 * 9 + 7] = wrong;
      String message =
          assertThrows(UserError.class, () -> compute(null, coverage, t, Progress.NONE))
              .getMessage();
      assertTrue(message.contains("row 5, column 7"), message);
      try (Workers workers = new Workers(1)) {
        GridSpec large = new GridSpec(200, 9, 1, 1, 0, 200, "");
        HazardStrips strips = new HazardStrips(large, params(null));
        String below =
            assertThrows(
                    UserError.class, () -> strips.strip(t, 100, coverage, workers, Progress.NONE))
                .getMessage();
        assertTrue(below.contains("row 105, column 7"), below);
      }
    }
  }
}
