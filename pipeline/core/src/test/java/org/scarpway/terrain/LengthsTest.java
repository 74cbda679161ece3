package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Over which lengths layers are measured and to which they are carried, by hand. */
class LengthsTest {
  private static final SelfAffine LAW = new SelfAffine(0.5, 0.25, 0.75, 2, 1, 9, 0.1);

  @Test
  void aPowerOfTheRatioCarriesToAnotherLength() {
    Extrapolation.Scale scale = Extrapolation.Scale.of(LAW, 16, 1);
    assertEquals(new Extrapolation.Scale(16, 1, 0.5, 0.25), scale);
    // Without a law nothing is carried.
    assertEquals(new Extrapolation.Scale(16, 1, 1, 1), Extrapolation.Scale.of(null, 16, 1));
  }

  @Test
  void coarseCellsMeasureOverNineOfThem() {
    GridSpec spec = TestGround.spec(30, 30, 8, 11);
    TerrainParams params = new TerrainParams(SlopeMethod.HORN, 7, 2.5, 3.1);
    double nineM = Math.sqrt(4 * 9 * 8 * 11 / Math.PI);
    Extrapolation e =
        new Extrapolation(
            LAW, Extrapolation.Scale.of(LAW, nineM, 7), Extrapolation.Scale.of(LAW, 11, 2.5));
    Lengths got = Lengths.of(params, Footprint.SMALLEST, e, spec);
    assertEquals(2 * spec.cellM(), got.slopeM());
    assertEquals(nineM, got.roughness().shortestM(), 1e-12);
    assertEquals(7, got.roughness().givenM());
    assertEquals(11, got.step().shortestM());
    assertEquals(2.5, got.step().givenM());
    assertEquals(22, got.convexityM());
    assertEquals(11, got.breakM());
    // On ground without a law values stay as measured.
    Extrapolation none =
        new Extrapolation(
            null, Extrapolation.Scale.of(null, nineM, 7), Extrapolation.Scale.of(null, 11, 2.5));
    got = Lengths.of(params, Footprint.SMALLEST, none, spec);
    assertEquals(nineM, got.roughness().givenM(), 1e-12);
    assertEquals(11, got.step().givenM());
    // Only one of the two is carried.
    got = Lengths.of(params, Footprint.SMALLEST, new Extrapolation(LAW, null, e.step()), spec);
    assertEquals(nineM, got.roughness().givenM(), 1e-12);
    assertEquals(2.5, got.step().givenM());
    got = Lengths.of(params, Footprint.SMALLEST, new Extrapolation(LAW, e.roughness(), null), spec);
    assertEquals(7, got.roughness().givenM());
    assertEquals(11, got.step().givenM());
  }

  @Test
  void fineCellsMeasureOverTheVehicle() {
    GridSpec spec = TestGround.spec(90, 90, 0.5, 0.25);
    TerrainParams params = new TerrainParams(SlopeMethod.FOOTPRINT_PLANE, 7, 2.5, 3.1);
    Footprint f = Footprint.disc(3.5, 0.5, 0.25);
    double discM = Math.sqrt(4 * f.cells() * 0.125 / Math.PI);
    Lengths got = Lengths.of(params, f, null, spec);
    assertEquals(discM, got.slopeM(), 1e-12);
    assertEquals(Math.sqrt(4 * 9 * 0.125 / Math.PI), got.roughness().shortestM(), 1e-12);
    assertEquals(discM, got.roughness().givenM(), 1e-12);
    assertEquals(2.5, got.step().shortestM());
    assertEquals(2.5, got.step().givenM());
    assertEquals(3.1, got.convexityM());
    assertEquals(0.5, got.breakM());
  }

  /** A limit decides up to four times the length that it is meant for. */
  @Test
  void aLimitDecidesUpToFourTimesItsLength() {
    Lengths.Length length = new Lengths.Length(12, 2);
    assertTrue(length.shows(3) && length.shows(100));
    assertFalse(length.shows(2.99));
    assertTrue(length.decides(0.5) && length.decides(3));
    assertFalse(length.decides(0.49));
    assertTrue(new Lengths.Length(2, 12).decides(0.5));
    assertTrue(Lengths.within(0.4, 0.1));
    assertTrue(Lengths.within(4 * 0.3, 0.3));
    assertFalse(Lengths.within(4.0001, 1));
    // What smoothing makes smaller up to a quarter more than its length.
    assertTrue(Lengths.atLength(2, 1.6) && Lengths.atLength(1, 2));
    assertFalse(Lengths.atLength(2.0001, 1.6));
  }

  /** Every lag of 1, 2, 4, ... cells up to an eighth of its side, by the sums that define them. */
  @Test
  void scalingIsMeasuredLagByLag() {
    int rows = 33;
    int cols = 64;
    float[] z = TestGround.rough(rows, cols, 41);
    FloatGrid ground = new FloatGrid(TestGround.spec(rows, cols, 2, 3), z);
    Scaling got = Scaling.of(HeightRows.of(ground), 0.5);
    List<String> names = got.lags().stream().map(l -> l.along() + " " + l.lagM()).toList();
    assertEquals(
        List.of(
            "east 2.0",
            "north 3.0",
            "east 4.0",
            "north 6.0",
            "east 8.0",
            "north 12.0",
            "east 16.0"),
        names);
    for (Scaling.Lag lag : got.lags()) {
      boolean east = lag.along().equals("east");
      int cells = (int) (lag.lagM() / (east ? 2 : 3));
      int apart = east ? cells : cells * cols;
      List<Double> d = new ArrayList<>();
      for (int i = 0; i + apart < z.length; i++) {
        if (!east || i % cols + cells < cols) {
          d.add((double) z[i + apart] - z[i]);
        }
      }
      double mean = d.stream().mapToDouble(x -> x).average().orElseThrow();
      double variance =
          d.stream().mapToDouble(x -> (x - mean) * (x - mean)).average().orElseThrow();
      assertEquals(Math.sqrt(variance), lag.deviationM(), 1e-9);
      assertEquals(
          Math.toDegrees(Math.atan2(lag.deviationM(), lag.lagM())), lag.rmsSlopeDeg(), 1e-9);
      assertEquals(cells == 1, Double.isNaN(lag.medianDifferentialSlopeDeg()));
      if (cells > 1) {
        double median =
            MedianDifferentialSlope.of(
                z, rows, cols, east ? 0 : cells / 2, east ? cells / 2 : 0, lag.lagM(), 1);
        assertEquals(Math.toDegrees(Math.atan(median)), lag.medianDifferentialSlopeDeg(), 1e-12);
      }
    }
    // The geometric mean of the lags: (2 3 4 6 8 12 16)^(1/7).
    double pivotM = Math.pow(2.0 * 3 * 4 * 6 * 8 * 12 * 16, 1 / 7.0);
    SelfAffine law = got.law();
    double atPivotM = law.deviationAt1M() * Math.pow(pivotM, law.hurst());
    Scaling.Estimate e = got.estimate();
    assertEquals(0.5, e.lagM());
    assertEquals(law.deviationAt1M() * Math.pow(0.5, law.hurst()), e.deviationM(), 1e-12);
    assertEquals(atPivotM * Math.pow(0.5 / pivotM, law.hurstHigh()), e.lowM(), 1e-12);
    assertEquals(atPivotM * Math.pow(0.5 / pivotM, law.hurstLow()), e.highM(), 1e-12);
    // Beyond the lags the ends change places.
    e = Scaling.of(HeightRows.of(ground), 500).estimate();
    assertEquals(atPivotM * Math.pow(500 / pivotM, law.hurstLow()), e.lowM(), 1e-9);
    assertEquals(atPivotM * Math.pow(500 / pivotM, law.hurstHigh()), e.highM(), 1e-9);
  }

  @Test
  void levelOrSmallGroundHasNoLaw() {
    Scaling level =
        Scaling.of(HeightRows.of(new FloatGrid(TestGround.spec(40, 40, 1, 1), new float[1600])), 1);
    assertEquals(6, level.lags().size());
    assertNull(level.law());
    assertNull(level.estimate());
    Scaling small =
        Scaling.of(HeightRows.of(new FloatGrid(TestGround.spec(7, 7, 1, 1), new float[49])), 1);
    assertEquals(List.of(), small.lags());
  }
}
