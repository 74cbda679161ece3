package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.validation.Validation;

/** What a known error of the heights, and heights that nobody measured, do to whole jobs. */
class ConfidenceFlowTest {
  private static final RasterIo IO = RasterIos.best();
  private static final int N = 44;
  private static final String NONE = "";

  @TempDir Path dir;

  private record Products(ByteGrid cls, ByteGrid state, FloatGrid time, Path folder, String said) {
    int surely() {
      return count(state, 1);
    }

    private static int count(ByteGrid grid, int code) {
      int n = 0;
      for (byte b : grid.values()) {
        n += b == code ? 1 : 0;
      }
      return n;
    }
  }

  private void ground(double[] heightM, double cellM) throws IOException {
    StringBuilder text = new StringBuilder("ncols " + N + "\nnrows " + N);
    text.append("\nxllcorner 0\nyllcorner 0\ncellsize " + cellM + "\nNODATA_value -9999\n");
    for (int i = 0; i < N * N; i++) {
      text.append(String.format(Locale.ROOT, "%.4f", heightM[i]));
      text.append(i % N < N - 1 ? ' ' : '\n');
    }
    Files.writeString(dir.resolve("ground.asc"), text);
  }

  /** Hills of up to some 25 degrees about a level base. */
  private static double[] hills(Random random, double cellM) {
    double[] height = new double[N * N];
    double waveM = cellM * (5 + 5 * random.nextDouble());
    double azimuth = 6 * random.nextDouble();
    for (int i = 0; i < N * N; i++) {
      double x = cellM * (i % N - N / 2.0);
      int row = i / N;
      double y = cellM * (row - N / 2.0);
      double away = Math.min(1, Math.hypot(x, y) / (8 * cellM));
      double wave = Math.sin((x * Math.sin(azimuth) + y * Math.cos(azimuth)) / waveM);
      height[i] = 0.4 * waveM * away * away * wave * Math.cos(x / waveM / 1.7);
    }
    return height;
  }

  private Products run(double cellM, String dem, String more) throws IOException {
    // Without a step limit: on coarse cells the hills themselves are told as steps.
    String buggy = Files.readString(Flow.ROOT.resolve("configs/vehicles/open-buggy.yaml"));
    buggy = buggy.replace("suited: true", "suited: false");
    buggy = buggy.replaceAll("(?m)^  step_m:.*\\R", "");
    Path soils = Flow.ROOT.resolve("configs/soils");
    Files.writeString(dir.resolve("buggy.yaml"), buggy.replace("../soils/", soils + "/"));
    Path job = dir.resolve("job.yaml");
    double middle = N / 2.0 * cellM;
    Files.writeString(
        job,
        """
        scarpway: 1
        job: sure
        body: moon
        dem: {source: ground.asc, units: metres%s}
        hazard: {min_gap_m: 0, turning_m: 0}
        %s
        vehicles: [buggy.yaml]
        bases: {camp: [%f, %f]}
        reach:
          - {name: day, from: camp, budget: {drive_h: %f}, home: drive-back, bands: [1s]}
        """
            .formatted(dem, more, middle, middle, 0.02 * cellM));
    Path out = dir.resolve("out");
    Flow.Outcome told = Flow.scarpway("run", job, "--out", out, "--quiet", "--fresh").ok();
    Path of = out.resolve("sure");
    return new Products(
        IO.readBytes(of.resolve("mobility/open-buggy/class.tif")),
        IO.readBytes(of.resolve("reach/day/state.tif")),
        IO.readFloats(of.resolve("reach/day/time_s.tif")),
        of,
        told.out());
  }

  private static void assertNoBetter(Products worse, Products better, String what) {
    for (int i = 0; i < N * N; i++) {
      String where = what + " cell " + i;
      assertTrue(worse.cls.values()[i] >= better.cls.values()[i], where + " class");
      assertTrue(worse.state.values()[i] != 1 || better.state.values()[i] == 1, where + " surely");
      assertTrue(worse.state.values()[i] != 2 || better.state.values()[i] > 0, where + " possibly");
      // Where headings are barred, times are up to 5 % less or 9 % more than the best tacks take.
      float least = better.time.values()[i] * 0.95f / 1.09f;
      assertTrue(!(worse.time.values()[i] < least), where + " time");
    }
  }

  @Test
  void errorAndConfidenceNeverImproveAnything() throws IOException {
    Random random = new Random(31);
    int lost = 0;
    for (double cellM : new double[] {5, 0.8}) {
      ground(hills(random, cellM), cellM);
      Products before = run(cellM, NONE, NONE);
      assertFalse(Files.exists(before.folder.resolve("mobility/open-buggy/p_no_go.tif")));
      Products first = before;
      for (String[] more :
          new String[][] {{"0.04", "0.5"}, {"0.04", "0.9"}, {"0.25", "0.9"}, {"0.25", "0.99"}}) {
        String sigma =
            String.format(
                Locale.ROOT,
                ", vertical_sigma_m: %s, correlation_length_m: %s",
                Double.parseDouble(more[0]) * cellM / 2,
                3 * cellM);
        Products now = run(cellM, sigma, "confidence: " + more[1]);
        assertNoBetter(now, before, cellM + " m, " + String.join(", ", more));
        assertTrue(now.said.contains("Confidence " + Double.parseDouble(more[1])), now.said);
        FloatGrid noGo = IO.readFloats(now.folder.resolve("mobility/open-buggy/p_no_go.tif"));
        for (int i = 0; i < N * N; i++) {
          boolean judged = now.cls.values()[i] > 0;
          assertEquals(judged, noGo.values()[i] >= 0 && noGo.values()[i] <= 1);
        }
        before = now;
      }
      assertTrue(before.surely() > 20, "reach left: " + before.surely());
      lost += Products.count(first.cls, 1) - Products.count(before.cls, 1);
      lost += first.surely() - before.surely();
    }
    assertTrue(lost > 100, "cells that lost something: " + lost);
    Validation.holds(
        "4-confidence-metamorphic",
        "a known height error, a larger one and more confidence improve no class, time or reach;"
            + " hills on cells of 5 and 0.8 m",
        "own derivation",
        "C",
        lost > 100);
  }

  /** A ditch without heights across the ground, narrow enough to be filled. */
  @Test
  void whatNobodyMeasuredIsReachedOnlyWhereTheJobTakesItAsMeasured() throws IOException {
    double[] height = new double[N * N];
    for (int row = 0; row < N; row++) {
      height[row * N + 10] = -9999;
      height[row * N + 11] = -9999;
    }
    ground(height, 5);
    int beyond = N / 2 * N + 4;
    int filled = N / 2 * N + 10;
    Products unsure = run(5, ", voids: fill", NONE);
    assertEquals(0, unsure.cls.values()[filled]);
    assertEquals(0, unsure.state.values()[beyond]);
    assertTrue(unsure.said.contains("are not filled"), unsure.said);
    Products sure = run(5, ", voids: {fill: {sure: true}}", NONE);
    assertEquals(1, sure.cls.values()[filled]);
    assertEquals(1, sure.state.values()[beyond]);
    assertTrue(sure.said.contains("ground that was not measured"), sure.said);
    assertNoBetterWhereJudged(unsure, sure);
  }

  private static void assertNoBetterWhereJudged(Products less, Products all) {
    for (int i = 0; i < N * N; i++) {
      boolean judged = less.cls.values()[i] > 0;
      assertTrue(!judged || less.cls.values()[i] >= all.cls.values()[i], "cell " + i);
      assertTrue(less.state.values()[i] != 1 || all.state.values()[i] == 1, "cell " + i);
    }
  }
}
