package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Lengths;
import org.scarpway.terrain.Terrain;

/** What goes along with the hazard: ways around rocks, outlines, lengths and refusals. */
class HazardLayersTest {
  private static final GridSpec SPEC = new GridSpec(2, 6, 10, 10, 0, 20, "");

  private static FloatGrid filled(double value) {
    float[] v = new float[SPEC.cells()];
    java.util.Arrays.fill(v, (float) value);
    return new FloatGrid(SPEC, v);
  }

  private static Terrain terrain(double roughnessM, Lengths lengths) {
    FloatGrid zero = filled(0);
    return new Terrain(zero, zero, zero, zero, filled(roughnessM), zero, zero, null, lengths);
  }

  private static HazardParams params(List<Geometry> keepOut) {
    return new HazardParams(new RockParams(null, null, 0.35, 3), keepOut, 0, 20, 0.3, 0.2, 5, null);
  }

  private static Hazard compute(Terrain t, FloatGrid coverage) {
    try (Workers workers = new Workers(1)) {
      return new HazardStrips(SPEC, params(List.of()))
          .strip(t, 0, coverage, workers, Progress.NONE);
    }
  }

  /**
   * Out of the way of a rock a quarter of its width and the vehicle's, weighed by how many meet.
   */
  @Test
  void theWayAroundARock() {
    FloatGrid coverage = filled(0.1);
    coverage.values()[1] = 0;
    Hazard h = compute(terrain(0, null), coverage);
    RockBody body = new RockBody(3, 0.35, Double.POSITIVE_INFINITY, 0, 0);
    RockModel model = RockModel.of(RockCount.ALL, 0.1);
    double sidestepM = model.density(body) / Math.PI / model.hitsPerM(body);
    // Rocks of 0.7 m or more and a swath of 3 m: between 3.7 / 4 and twice that.
    assertTrue(sidestepM > 0.92 && sidestepM < 1.85, "" + sidestepM);
    assertEquals(sidestepM, h.boulders().orElseThrow().sidestepM().at(0, 0), 1e-5);
    assertEquals(
        1000 * model.hitsPerM(body), h.boulders().orElseThrow().hitsPerKm().at(0, 0), 1e-3);
    assertEquals(0, h.boulders().orElseThrow().sidestepM().at(0, 1));
    assertEquals(0, h.boulders().orElseThrow().hitsPerKm().at(0, 1));
    assertEquals(1, h.detourFactor().at(0, 1));
  }

  /** Roughness over 300 m says nothing of what a vehicle of 5 m stands on. */
  @Test
  void roughnessOverMuchLongerGround() {
    for (double givenM : new double[] {5, 300}) {
      Lengths lengths =
          new Lengths(5, new Lengths.Length(givenM, givenM), new Lengths.Length(5, 5), 5, 5);
      Hazard h = compute(terrain(0.15, lengths), null);
      assertEquals(givenM > 100 ? 0 : 0.75, h.hazard01().at(1, 3), 1e-6);
    }
    assertEquals(0.75, compute(terrain(0.15, null), null).hazard01().at(1, 3), 1e-6);
  }

  @Test
  void theOutlineOfKeepOutGround() {
    Geometry box = new GeometryFactory().toGeometry(new Envelope(0, 20, 0, 10));
    HazardStrips strips = new HazardStrips(SPEC, params(List.of(box)));
    assertEquals(200, strips.keepOut().outline().getArea(), 1e-9);
    Hazard given = new Hazard(filled(0), ByteGrid.empty(SPEC), box, filled(1));
    assertEquals(200, given.keepOut().getArea(), 1e-9);
  }

  @Test
  void percentagesAndOtherCountsOfRocks() {
    for (double coverage : new double[] {0.9, 1, 20}) {
      String told =
          assertThrows(UserError.class, () -> compute(terrain(0, null), filled(coverage)))
              .getMessage();
      assertEquals(coverage >= 1, told.contains("divide percentages by 100"), told);
      assertEquals(coverage < 1, told.contains("hazard.rock_counts"), told);
    }
  }

  /** The note tells the law of the sizes and whether a way is left. */
  @Test
  void notesOnRocks() {
    RockCount power = new RockCount(0.2, 2.5);
    for (double noGoM : new double[] {0, 1e6}) {
      RockBody body = new RockBody(3, 0.35, Double.POSITIVE_INFINITY, 0, 0);
      RockParams rocks = new RockParams(power, "rocks", 0.02, null, body, 0, noGoM);
      HazardParams p = new HazardParams(rocks, List.of(), 0, 20, 0.3, 0.2, 5, null);
      try (Workers workers = new Workers(1)) {
        List<String> notes =
            new HazardStrips(SPEC, p)
                .strip(terrain(0, null), 0, null, workers, Progress.NONE)
                .notes();
        assertEquals(noGoM > 0, notes.get(0).contains("too many to find a way through"));
        assertEquals(noGoM == 0, notes.get(0).contains("detour factor"));
        assertEquals(
            "Coverage counts rocks of 0.2 m or more; their number goes with diameter to -2.5.",
            notes.get(1));
      }
    }
  }
}
