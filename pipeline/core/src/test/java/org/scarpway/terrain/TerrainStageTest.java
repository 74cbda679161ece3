package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

class TerrainStageTest {
  private static final TerrainParams FINE =
      new TerrainParams(SlopeMethod.HORN, 4.5, 1.7, 3.4, 0.1, 5.0, 15.0);

  private static Terrain compute(GridSpec spec, float[] z, TerrainParams params, int threads) {
    try (Workers workers = new Workers(threads)) {
      return TerrainStage.compute(TestGround.dem(spec, z), params, workers, Progress.NONE);
    }
  }

  private static List<FloatGrid> layers(Terrain t) {
    return List.of(
        t.slopeDeg(),
        t.aspectDeg(),
        t.gradEast(),
        t.gradNorth(),
        t.roughnessM(),
        t.stepM(),
        t.ruggednessM(),
        t.convexityM(),
        t.slopeSigmaDeg(),
        t.aspectSigmaDeg(),
        t.slopeOverLimit01());
  }

  @ParameterizedTest
  @EnumSource(SlopeMethod.class)
  void sameBytesForAnyThreadCount(SlopeMethod method) {
    GridSpec spec = TestGround.spec(300, 71, 1, 1.5);
    float[] z = TestGround.rough(300, 71, 8);
    z[4000] = Float.NaN;
    TerrainParams params = new TerrainParams(method, 4.5, 1.7, 3.4, 0.1, 5.0, 15.0);
    List<FloatGrid> one = layers(compute(spec, z, params, 1));
    List<FloatGrid> three = layers(compute(spec, z, params, 3));
    for (int k = 0; k < one.size(); k++) {
      assertArrayEquals(one.get(k).values(), three.get(k).values(), "layer " + k);
    }
  }

  @Test
  void haloStripGivesTheSameBytes() {
    GridSpec spec = TestGround.spec(120, 60, 1, 1);
    float[] z = TestGround.rough(120, 60, 9);
    Terrain whole = compute(spec, z, FINE, 2);
    int halo = TerrainStage.haloRows(FINE, spec);
    int first = 40 - halo;
    int rows = 30 + 2 * halo;
    GridSpec part = TestGround.spec(rows, 60, 1, 1);
    float[] strip = Arrays.copyOfRange(z, first * 60, (first + rows) * 60);
    Terrain cut = compute(part, strip, FINE, 1);
    for (int k = 0; k < layers(whole).size(); k++) {
      float[] want = Arrays.copyOfRange(layers(whole).get(k).values(), 40 * 60, 70 * 60);
      float[] got = Arrays.copyOfRange(layers(cut).get(k).values(), halo * 60, (halo + 30) * 60);
      if (k == 4 || k == 5) {
        // The height scale is taken over the ground handed in, so roughness may differ below it.
        for (int i = 0; i < want.length; i++) {
          assertEquals(want[i], got[i], 1e-5, "layer " + k);
        }
      } else {
        assertArrayEquals(want, got, "layer " + k);
      }
    }
  }

  @Test
  void aVoidBlanksExactlyItsWindow() {
    GridSpec spec = TestGround.spec(31, 31, 1, 1);
    for (SlopeMethod method : SlopeMethod.values()) {
      float[] z = TestGround.rough(31, 31, 10);
      z[15 * 31 + 15] = Float.NaN;
      TerrainParams p = new TerrainParams(method, 4.5, 1.7, 3.4, 0.1, null, 15.0);
      Terrain t = compute(spec, z, p, 1);
      Footprint f = TerrainStage.footprint(p, spec);
      for (int row = 8; row < 23; row++) {
        for (int col = 8; col < 23; col++) {
          int dr = Math.abs(row - 15);
          int dc = Math.abs(col - 15);
          boolean near = dr <= 1 && dc <= 1;
          boolean inPlane = dr <= f.halfRows() && dc <= f.halfCols() && dr + dc <= f.halfDiagonal();
          boolean inSlope =
              switch (method) {
                case FOOTPRINT_PLANE -> inPlane;
                case ZEVENBERGEN_THORNE -> dr + dc <= 1;
                default -> near;
              };
          String at = method + " row " + row + " col " + col;
          assertEquals(inSlope, Float.isNaN(t.slopeDeg().at(row, col)), at);
          assertEquals(inSlope, Float.isNaN(t.aspectDeg().at(row, col)), at);
          assertEquals(inSlope, Float.isNaN(t.gradEast().at(row, col)), at);
          assertEquals(inSlope, Float.isNaN(t.gradNorth().at(row, col)), at);
          assertEquals(inSlope, Float.isNaN(t.slopeSigmaDeg().at(row, col)), at);
          assertEquals(inSlope, Float.isNaN(t.aspectSigmaDeg().at(row, col)), at);
          assertEquals(inSlope, Float.isNaN(t.slopeOverLimit01().at(row, col)), at);
          assertEquals(near, Float.isNaN(t.ruggednessM().at(row, col)), at);
          assertEquals(inPlane, Float.isNaN(t.roughnessM().at(row, col)), at);
          assertEquals(inPlane || near, Float.isNaN(t.stepM().at(row, col)), at);
        }
      }
    }
  }

  @Test
  void edgesAreVoid() {
    GridSpec spec = TestGround.spec(20, 24, 5, 5);
    Terrain t =
        compute(spec, TestGround.rough(20, 24, 2), new TerrainParams(SlopeMethod.HORN, 3, 1, 2), 1);
    for (FloatGrid g :
        List.of(t.slopeDeg(), t.roughnessM(), t.stepM(), t.ruggednessM(), t.convexityM())) {
      for (int row = 0; row < 20; row++) {
        for (int col = 0; col < 24; col++) {
          boolean edge = row == 0 || col == 0 || row == 19 || col == 23;
          assertEquals(edge, Float.isNaN(g.at(row, col)), "row " + row + " col " + col);
        }
      }
    }
  }

  @Test
  void stepSeesASpikeAndNotASlope() {
    GridSpec spec = TestGround.spec(31, 31, 1, 1);
    float[] z = new float[31 * 31];
    for (int i = 0; i < z.length; i++) {
      z[i] = 0.25f * (i % 31);
    }
    Terrain slope = compute(spec, z, FINE, 1);
    assertEquals(0, slope.stepM().at(15, 15), 1e-6);
    assertEquals(0, slope.roughnessM().at(15, 15), 1e-6);
    z[15 * 31 + 15] += 1;
    Terrain spike = compute(spec, z, FINE, 1);
    assertEquals(1, spike.stepM().at(15, 15), 1e-6);
    assertTrue(spike.roughnessM().at(15, 15) > 0.15);
    assertEquals(slope.slopeDeg().at(15, 15), spike.slopeDeg().at(15, 15), 1e-6);
  }

  @Test
  void convexityOfARidgeAndABowl() {
    GridSpec spec = TestGround.spec(41, 41, 0.5, 0.5);
    double t = 0.4;
    float[] ridge = new float[41 * 41];
    float[] bowl = new float[41 * 41];
    for (int i = 0; i < ridge.length; i++) {
      double x = (i % 41 - 20) * 0.5;
      double y = (i / 41 - 20) * 0.5;
      ridge[i] = (float) (-t * Math.abs(x));
      bowl[i] = (float) ((x * x + y * y) / 40);
    }
    // A chord of 4 m across the crest has both ends 2 m down the flanks.
    assertEquals(
        2 * t,
        compute(spec, ridge, new TerrainParams(SlopeMethod.HORN, 4, 1, 4), 1)
            .convexityM()
            .at(20, 20),
        1e-6);
    // In a bowl of radius 20 m the chord hangs chord2 / 8R above the middle.
    assertEquals(
        -0.1,
        compute(spec, bowl, new TerrainParams(SlopeMethod.HORN, 4, 1, 4), 1)
            .convexityM()
            .at(20, 20),
        0.004);
    // The same bowl upside down on cells too coarse for the chord: the same law by curvature.
    for (int i = 0; i < bowl.length; i++) {
      bowl[i] = -bowl[i];
    }
    assertEquals(
        0.8 * 0.8 / 8 / 20,
        compute(spec, bowl, new TerrainParams(SlopeMethod.HORN, 4, 1, 0.8), 1)
            .convexityM()
            .at(20, 20),
        1e-6);
  }

  @Test
  void coarseCellsAreExtrapolatedAndSaySo() {
    GridSpec spec = TestGround.spec(200, 200, 5, 5);
    float[] z = TestGround.rough(200, 200, 6);
    TerrainParams coarse = new TerrainParams(SlopeMethod.HORN, 4, 1.7, 3.4);
    Terrain t = compute(spec, z, coarse, 2);
    Extrapolation e = t.extrapolation();
    assertNotNull(e);
    assertTrue(e.law().hurst() > 0 && e.law().hurst() <= 1);
    assertTrue(e.roughness().factorLow() <= e.roughness().factor());
    assertTrue(e.roughness().factor() <= e.roughness().factorHigh() && e.roughness().factor() < 1);
    assertEquals(Math.pow(1.7 / 5, e.law().hurst()), e.step().factor(), 1e-12);
    assertTrue(t.notes().stream().anyMatch(n -> n.contains("estimate")), t.notes().toString());

    Terrain fine = compute(spec, z, new TerrainParams(SlopeMethod.HORN, 40, 5, 10), 2);
    assertNull(fine.extrapolation());
    assertTrue(fine.notes().stream().noneMatch(n -> n.contains("estimate")));
  }

  @Test
  void levelGroundNeedsNoLaw() {
    GridSpec spec = TestGround.spec(20, 20, 5, 5);
    Terrain t = compute(spec, new float[400], new TerrainParams(SlopeMethod.HORN, 4, 1.7, 3.4), 1);
    assertNull(t.extrapolation().law());
    assertEquals(0, t.slopeDeg().at(10, 10));
    assertEquals(0, t.roughnessM().at(10, 10));
    assertTrue(Float.isNaN(t.aspectDeg().at(10, 10)));
  }

  @Test
  void groundSmallerThanItsFootprintIsRefused() {
    GridSpec spec = TestGround.spec(8, 8, 1, 1);
    UserError e =
        assertThrows(
            UserError.class,
            () -> compute(spec, new float[64], new TerrainParams(SlopeMethod.HORN, 20, 1, 3), 1));
    assertTrue(e.getMessage().contains("8 x 8 cells"), e.getMessage());
  }

  @Test
  void allVoidStaysVoid() {
    GridSpec spec = TestGround.spec(20, 20, 1, 1);
    float[] z = new float[400];
    Arrays.fill(z, Float.NaN);
    Terrain t = compute(spec, z, FINE, 1);
    for (FloatGrid g : layers(t)) {
      for (float v : g.values()) {
        assertTrue(Float.isNaN(v));
      }
    }
  }
}
