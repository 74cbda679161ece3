package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard.Cause;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

class HazardStripsTest {
  private static final GridSpec SPEC = new GridSpec(2, 6, 10, 10, 0, 20, "");

  private static FloatGrid row(double... values) {
    float[] v = new float[12];
    for (int i = 0; i < 12; i++) {
      v[i] = (float) values[i % 6];
    }
    return new FloatGrid(SPEC, v);
  }

  private static Terrain terrain() {
    FloatGrid slope = row(0, 10, 25, 0, 0, Double.NaN);
    FloatGrid step = row(0, 0, 0.1, 0.29, 0, 0);
    FloatGrid roughness = row(0, 0, 0, 0, 0.3, 0);
    FloatGrid zero = row(0, 0, 0, 0, 0, 0);
    return new Terrain(zero, slope, zero, zero, roughness, step, zero);
  }

  private static HazardParams params(Double rocks, List<Geometry> keepOut) {
    return new HazardParams(
        new RockParams(rocks, null, 0.35, 3), keepOut, 0, 20, 0.3, 0.2, 5, null);
  }

  private static Hazard compute(HazardParams params, int threads) {
    return compute(params, null, threads);
  }

  private static Hazard compute(HazardParams params, FloatGrid coverage, int threads) {
    try (Workers workers = new Workers(threads)) {
      return new HazardStrips(SPEC, params).strip(terrain(), 0, coverage, workers, Progress.NONE);
    }
  }

  private static int bits(Cause... causes) {
    int bits = 0;
    for (Cause c : causes) {
      bits |= c.bit();
    }
    return bits;
  }

  @Test
  void largestCauseWinsAndAllAreNamed() {
    Hazard h = compute(params(null, List.of()), 1);
    assertArrayEquals(
        new float[] {0, 0.5f, 1, 0.29f / 0.3f, 1, 1},
        Arrays.copyOf(h.hazard01().values(), 6),
        1e-6f);
    int[] want = {
      0,
      bits(Cause.SLOPE),
      bits(Cause.SLOPE),
      bits(Cause.STEP),
      bits(Cause.ROUGHNESS),
      bits(Cause.VOID)
    };
    Cause[] dominant = {null, Cause.SLOPE, Cause.SLOPE, Cause.STEP, Cause.ROUGHNESS, Cause.VOID};
    for (int col = 0; col < 6; col++) {
      assertEquals(want[col], h.causes().at(0, col), "column " + col);
      assertEquals(dominant[col] == null ? 0 : dominant[col].code(), h.dominant().at(0, col));
      assertEquals(1, h.detourFactor().at(0, col));
    }
  }

  @Test
  void keepOutIsCertain() {
    Geometry box =
        new GeometryFactory()
            .createPolygon(
                new Coordinate[] {
                  new Coordinate(0, 0),
                  new Coordinate(20, 0),
                  new Coordinate(20, 10),
                  new Coordinate(0, 10),
                  new Coordinate(0, 0)
                });
    Hazard h = compute(params(null, List.of(box)), 1);
    assertEquals(0, h.hazard01().at(0, 0));
    assertEquals(1, h.hazard01().at(1, 0));
    assertEquals(bits(Cause.KEEP_OUT), h.causes().at(1, 0));
    assertEquals(bits(Cause.KEEP_OUT, Cause.SLOPE), h.causes().at(1, 1));
    assertEquals(0, h.causes().at(1, 3) & Cause.KEEP_OUT.bit());
    assertEquals(200, h.keepOut().getArea(), 1e-9);
  }

  @Test
  void rocksFromOneFractionAndFromARasterAgree() {
    Hazard uniform = compute(params(0.1, List.of()), 1);
    Hazard raster = compute(params(null, List.of()), row(0.1, 0.1, 0.1, 0.1, 0.1, 0.1), 2);
    assertEquals(uniform.hazard01().at(0, 0), raster.hazard01().at(0, 0), 1e-6);
    assertEquals(uniform.detourFactor().at(0, 0), raster.detourFactor().at(0, 0), 1e-6);
    assertTrue(uniform.hazard01().at(0, 0) > 0);
    assertTrue(uniform.notes().get(0).contains("per km"), uniform.notes().toString());
  }

  @Test
  void unknownRocksAreVoid() {
    Hazard h = compute(params(null, List.of()), row(0, Double.NaN, 0, 0, 0, 0), 1);
    assertEquals(Cause.VOID.code(), h.dominant().at(0, 1));
    assertEquals(1, h.hazard01().at(0, 1));
    assertTrue(Float.isNaN(h.detourFactor().at(0, 1)));
    assertTrue(h.rocksAssumed().isEmpty());
  }

  @Test
  void statedRocksCountWhereNoneAreKnown() {
    HazardParams stated =
        new HazardParams(new RockParams(null, 0.1, 0.35, 3), List.of(), 0, 20, 0.3, 0.2, 5, null);
    FloatGrid coverage = row(0, Double.NaN, 0, 0.1, 0, 0);
    Hazard h = compute(stated, coverage, 1);
    assertEquals(h.detourFactor().at(0, 3), h.detourFactor().at(0, 1));
    assertEquals(2, h.rocksAssumed().cardinality());
    assertTrue(h.rocksAssumed().get(1) && h.rocksAssumed().get(7));
    assertTrue(Float.isNaN(coverage.values()[1]), "what came in is left alone");
    UserError e =
        assertThrows(UserError.class, () -> compute(stated, row(0, Double.NaN, 0, 0.11, 0, 0), 1));
    assertTrue(e.getMessage().contains("hazard.rock_no_data"), e.getMessage());
  }

  @Test
  void moreRocksAreNeverEasier() {
    double lastHazard = 0;
    double lastDetour = 1;
    for (double k = 0; k < 0.4; k += 0.01) {
      Hazard h = compute(params(k, List.of()), 1);
      assertTrue(h.hazard01().at(0, 0) >= lastHazard, "k " + k);
      assertTrue(h.detourFactor().at(0, 0) >= lastDetour, "k " + k);
      lastHazard = h.hazard01().at(0, 0);
      lastDetour = h.detourFactor().at(0, 0);
    }
    assertEquals(1, lastHazard);
    assertEquals(Double.POSITIVE_INFINITY, lastDetour);
  }

  /** 11.308 rocks of 0.7 m or more per km (Golombek and Rapp 1997): a free path of 88.43 m. */
  @Test
  void groundIsClosedBelowAStatedFreePath() {
    for (double noGoM : new double[] {88, 89}) {
      RockParams rocks =
          new RockParams(
              RockCount.ALL,
              "rocks",
              0.05,
              null,
              new RockBody(3, 0.35, Double.POSITIVE_INFINITY, 0, 0),
              200,
              noGoM);
      Hazard h = compute(new HazardParams(rocks, List.of(), 0, 20, 0.3, 0.2, 5, null), 1);
      boolean closed = noGoM > 88.43;
      assertEquals(closed, Double.isInfinite(h.detourFactor().at(0, 0)), "" + noGoM);
      assertEquals(closed, h.hazard01().at(0, 0) == 1, "" + noGoM);
      assertEquals(200, h.boulders().orElseThrow().slowM());
    }
  }

  /** Wherever it lies, and in whatever part of the ground it is met. */
  @Test
  void coverageOutOfRangeIsRefusedWithItsFileAndPlace() {
    Random random = new Random(31);
    GridSpec whole = new GridSpec(40, 50, 10, 10, 0, 400, "");
    RockBody body = new RockBody(3, 0.35, Double.POSITIVE_INFINITY, 0, 0);
    for (int n = 0; n < 200; n++) {
      Double stated = n % 2 == 0 ? null : 0.1;
      RockParams rocks =
          new RockParams(RockCount.ALL, "/ground/rocks.tif", null, stated, body, 0, 0);
      HazardStrips strips =
          new HazardStrips(whole, new HazardParams(rocks, List.of(), 0, 20, 0.3, 0.2, 5, null));
      int firstRow = random.nextInt(38);
      int firstCol = random.nextInt(44);
      GridSpec part = whole.part(firstRow, firstCol, 2, 6);
      int cell = random.nextInt(12);
      FloatGrid coverage = new FloatGrid(part, new float[12]);
      coverage.values()[cell] = n % 3 == 0 ? -0.01F : stated == null ? 5 : 0.11F;
      FloatGrid zero = new FloatGrid(part, new float[12]);
      Terrain flat = new Terrain(zero, zero, zero, zero, zero, zero, zero);
      UserError e;
      try (Workers workers = new Workers(1)) {
        e =
            assertThrows(
                UserError.class,
                () -> strips.window(flat, firstRow, firstCol, coverage, workers, Progress.NONE));
      }
      String place =
          "at row " + (firstRow + cell / 6) + ", column " + (firstCol + cell % 6) + " of the";
      assertTrue(e.getMessage().startsWith("/ground/rocks.tif: "), e.getMessage());
      assertTrue(e.getMessage().contains(place), e.getMessage());
    }
  }
}
