package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.SlopeError.GradientSigma;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Every layer is what its own class gives, which is held by hand; and what is said of scales. */
class TerrainLayersTest {
  private static final int ROWS = 32;
  private static final int COLS = 37;
  private static final float[] Z = TestGround.rough(ROWS, COLS, 51);
  private static final GridSpec COARSE = TestGround.spec(ROWS, COLS, 8, 11);
  private static final GridSpec FINE = TestGround.spec(ROWS, COLS, 0.5, 0.75);

  private static TerrainLayers compute(GridSpec spec, TerrainParams params) {
    try (Workers workers = new Workers(1)) {
      return TerrainStage.layers(TestGround.dem(spec, Z), params, workers, Progress.NONE);
    }
  }

  private static TerrainParams params(SlopeMethod method) {
    return new TerrainParams(method, 5, 1.5, 3, 0.2, 9.0, 12.0);
  }

  private static float[] times(float[] values, double factor) {
    float[] out = new float[values.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = (float) (values[i] * factor);
    }
    return out;
  }

  @ParameterizedTest
  @EnumSource
  void everyLayerIsThatOfItsClass(SlopeMethod method) {
    for (GridSpec spec : List.of(FINE, COARSE)) {
      TerrainParams params = params(method);
      TerrainLayers got = compute(spec, params);
      double x = spec.cellXM();
      double y = spec.cellYM();
      Footprint f = spec.equals(COARSE) ? Footprint.SMALLEST : Footprint.disc(2.5, x, y);
      float[][] plane = new float[3][Z.length];
      HeightScale scale = HeightScale.of(new FloatGrid(spec, Z), f);
      FootprintPlane.fill(Z, ROWS, COLS, 0, ROWS, f, scale, x, y, plane[0], plane[1], plane[2]);
      float[][] gradient = {plane[0], plane[1]};
      if (method != SlopeMethod.FOOTPRINT_PLANE) {
        gradient = new float[2][Z.length];
        Gradients.fill(method, Z, ROWS, COLS, 0, ROWS, x, y, gradient[0], gradient[1]);
      }
      float[][] o = new float[8][Z.length];
      SlopeAspect.fill(gradient[0], gradient[1], COLS, 0, ROWS, o[0], o[1]);
      StepHeight.fill(Z, ROWS, COLS, 0, ROWS, x, y, 1.5, plane[0], plane[1], o[2]);
      RileyRuggedness.fill(Z, ROWS, COLS, 0, ROWS, o[3]);
      Convexity.fill(Z, ROWS, COLS, 0, ROWS, x, y, 3, o[4]);
      GradientSigma sigma = SlopeError.gradientSigma(method, f, x, y, 0.2, 9.0);
      SlopeError.fill(gradient[0], gradient[1], COLS, 0, ROWS, sigma, o[5], o[6]);
      new SlopeOverLimit(Math.tan(Math.toRadians(12)), sigma.mean())
          .fill(gradient[0], gradient[1], COLS, 0, ROWS, o[7]);
      double rough = 1;
      double step = 1;
      if (spec.equals(COARSE)) {
        double hurst = got.terrain().extrapolation().law().hurstLow();
        rough = Math.pow(5 / Math.sqrt(4 * 9 * x * y / Math.PI), hurst);
        step = Math.pow(1.5 / 11, hurst);
        assertTrue(rough < 1 && step < rough);
      } else {
        assertNull(got.terrain().extrapolation());
      }
      boolean coarse = spec.equals(COARSE);
      GroundLaw law = coarse ? GroundLaw.of(HeightRows.of(new FloatGrid(spec, Z))) : null;
      new Breaks(law, 1.5, coarse ? 11 : 0.75, step).raise(Z, ROWS, COLS, 0, ROWS, o[2]);
      assertArrayEquals(gradient[0], got.terrain().gradEast().values());
      assertArrayEquals(gradient[1], got.terrain().gradNorth().values());
      assertArrayEquals(times(plane[2], rough), got.terrain().roughnessM().values(), 1e-6f);
      assertArrayEquals(o[0], got.terrain().slopeDeg().values());
      assertArrayEquals(o[1], got.aspectDeg().values());
      assertArrayEquals(o[2], got.terrain().stepM().values(), 1e-6f);
      assertArrayEquals(o[3], got.ruggednessM().values());
      assertArrayEquals(o[4], got.terrain().convexityM().values());
      assertArrayEquals(o[5], got.errors().orElseThrow().slopeDeg().values());
      assertArrayEquals(o[6], got.errors().orElseThrow().aspectDeg().values());
      assertArrayEquals(o[7], got.errors().orElseThrow().overLimit01().orElseThrow().values());
    }
  }

  @Test
  void whatIsNotKnownOfErrorsIsNotTold() {
    TerrainLayers none = compute(FINE, new TerrainParams(SlopeMethod.HORN, 5, 1.5, 3));
    assertTrue(none.errors().isEmpty());
    TerrainLayers noLimit =
        compute(FINE, new TerrainParams(SlopeMethod.HORN, 5, 1.5, 3, 0.2, null, null));
    assertTrue(noLimit.errors().orElseThrow().overLimit01().isEmpty());
  }

  @Test
  void everyDerivativeIsThatOfItsClass() {
    TerrainParams params = params(SlopeMethod.HORN);
    TerrainLayers t = compute(FINE, params);
    float[][] o = new float[Derivative.values().length][Z.length];
    Curvature.fillLeastSquares(Z, ROWS, COLS, 0, ROWS, 0.5, 0.75, o[0], o[1], o[2], o[3]);
    Curvature.fillQuartic(Z, ROWS, COLS, 0, ROWS, 0.5, 0.75, o[4], o[5], o[6]);
    WilsonRuggedness.fill(Z, ROWS, COLS, 0, ROWS, o[7], o[8], o[9]);
    WindowDeviation.fill(Z, ROWS, COLS, 0, ROWS, o[10]);
    WindowDeviation.fill(t.terrain().slopeDeg().values(), ROWS, COLS, 0, ROWS, o[11]);
    VectorRuggedness.fill(
        t.terrain().gradEast().values(),
        t.terrain().gradNorth().values(),
        ROWS,
        COLS,
        0,
        ROWS,
        1,
        o[12]);
    Footprint f = Footprint.disc(2.5, 0.5, 0.75);
    float[][] plane = new float[3][Z.length];
    HeightScale scale = HeightScale.of(t.terrain().heightM(), f);
    FootprintPlane.fill(Z, ROWS, COLS, 0, ROWS, f, scale, 0.5, 0.75, plane[0], plane[1], plane[2]);
    FootprintPlane.fillLargestResidual(
        Z, ROWS, COLS, 0, ROWS, f, 0.5, 0.75, plane[0], plane[1], o[13]);
    try (Workers workers = new Workers(1)) {
      Map<Derivative, FloatGrid> all =
          DerivativeStage.compute(
              t.terrain(), params, EnumSet.allOf(Derivative.class), workers, Progress.NONE);
      assertEquals(List.of(Derivative.values()), List.copyOf(all.keySet()));
      for (Derivative d : Derivative.values()) {
        assertArrayEquals(o[d.ordinal()], all.get(d).values(), d.key());
        // Each alone is the same.
        Map<Derivative, FloatGrid> one =
            DerivativeStage.compute(t.terrain(), params, EnumSet.of(d), workers, Progress.NONE);
        assertEquals(EnumSet.of(d), one.keySet());
        assertArrayEquals(o[d.ordinal()], one.get(d).values(), d.key());
      }
    }
  }

  @Test
  void derivativesHaveNames() {
    assertEquals(Optional.of(Derivative.PLAN_CURVATURE), Derivative.ofKey("plan-curvature"));
    assertEquals(Optional.empty(), Derivative.ofKey("plan curvature"));
    assertEquals("profile curvature quartic", Derivative.PROFILE_CURVATURE_QUARTIC.title());
    EnumSet<Derivative> signed = EnumSet.noneOf(Derivative.class);
    for (Derivative d : Derivative.values()) {
      assertEquals(Optional.of(d), Derivative.ofKey(d.key()));
      if (d.signed()) {
        signed.add(d);
      }
      assertTrue(!d.description().isEmpty() && !d.source().isEmpty());
    }
    EnumSet<Derivative> want =
        EnumSet.range(Derivative.PROFILE_CURVATURE, Derivative.TOTAL_CURVATURE_QUARTIC);
    want.add(Derivative.TOPOGRAPHIC_POSITION);
    assertEquals(want, signed);
    assertEquals("deg", Derivative.SLOPE_DEVIATION.unit());
    OptionalDerivatives more = new OptionalDerivatives(Map.of(), null, null);
    SlopeSpread spread = new SlopeSpread(null, null, null, 3, 2, 1);
    assertSame(spread, more.with(spread).spread());
    assertNotSame(more, more.with(spread));
  }

  /** Numbers by hand: 3 x 3 cells of 8 x 11 m are a disc of 31.8 m; gradient over 2 cells. */
  @Test
  void notesTellTheScales() {
    Extrapolation.Scale rough = new Extrapolation.Scale(32, 2, 0.5, 0.25);
    Extrapolation e =
        new Extrapolation(new SelfAffine(0.5, 0.25, 0.75, 2, 0.875, 9, 0.1), rough, null);
    TerrainParams bare = new TerrainParams(SlopeMethod.HORN, 5, 1.5, 3);
    List<String> notes = TerrainNotes.of(bare, Footprint.SMALLEST, e, COARSE);
    assertEquals(4, notes.size());
    // 2 sqrt 88 = 18.76.
    assertTrue(notes.get(0).contains("over 18.8 m"), notes.get(0));
    assertTrue(
        notes
            .get(1)
            .contains("exponent 0.50 (99 % above 0.25, 99 % below 0.75, R2 0.875, 9 lags)"));
    assertTrue(notes.get(1).contains("fitted to the heights that there are"), notes.get(1));
    assertTrue(
        notes.get(2).startsWith("Roughness is estimated at 2 m")
            && notes
                .get(2)
                .endsWith("32 m: factor 0.50, by the lowest exponent (0.25 by the fitted one)."),
        notes.get(2));
    assertTrue(notes.get(3).contains("wheelbase of 3 m comes from the curvature of cells of 9.38"));
    Extrapolation steps = new Extrapolation(e.law(), null, rough);
    assertTrue(
        TerrainNotes.of(bare, Footprint.SMALLEST, steps, COARSE).get(2).startsWith("Step is"));
    notes = TerrainNotes.of(bare, Footprint.SMALLEST, new Extrapolation(null, rough, null), COARSE);
    assertTrue(notes.get(1).contains("no scaling law could be fitted"));
    assertEquals(3, notes.size());
    Footprint disc = Footprint.disc(2.5, 0.5, 0.75);
    assertEquals(1, TerrainNotes.of(bare, disc, null, FINE).size());
    // Sigma sqrt 3 / 4 * 0.5 / 5 = 0.0433, mean 0.0543, 95 % below 0.10599: atan 6.0502 deg.
    TerrainParams known = new TerrainParams(SlopeMethod.HORN, 5, 5, 10, 0.5, null, null);
    notes = TerrainNotes.of(known, Footprint.SMALLEST, null, TestGround.spec(20, 20, 5, 5));
    assertTrue(
        notes.get(1).startsWith("With a height error of 0.5 m")
            && notes
                .get(1)
                .endsWith("by 3.1 deg (5.4 %) on average, 95 % of it by less than 6.1 deg."),
        notes.get(1));
  }

  @Test
  void parametersMustMakeSense() {
    double[][] wrong = {
      {0, 1, 1, 1, 1, 5},
      {1, 0, 1, 1, 1, 5},
      {1, 1, 0, 1, 1, 5},
      {1, 1, 1, 0, 1, 5},
      {1, 1, 1, 1, 0, 5},
      {1, 1, 1, 1, 1, 0},
      {1, 1, 1, 1, 1, 90},
      {Double.NaN, 1, 1, 1, 1, 5},
      {1, Double.POSITIVE_INFINITY, 1, 1, 1, 5}
    };
    for (double[] w : wrong) {
      assertThrows(
          IllegalArgumentException.class,
          () -> new TerrainParams(SlopeMethod.HORN, w[0], w[1], w[2], w[3], w[4], w[5]));
    }
    assertEquals(
        89.9, new TerrainParams(SlopeMethod.HORN, 1, 1, 1, 1.0, 1.0, 89.9).slopeLimitDeg());
  }
}
