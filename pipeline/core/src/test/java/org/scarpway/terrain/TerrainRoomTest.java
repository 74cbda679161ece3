package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** The least ground that can be measured, and how much of the work is told as done. */
class TerrainRoomTest {
  /** Adds up what is told. */
  private static final class Told implements Progress {
    private final List<String> begun = new ArrayList<>();
    private final AtomicLong done = new AtomicLong();
    private long total;
    private int ended;

    @Override
    public void begin(String what, long cells) {
      begun.add(what);
      total = cells;
    }

    @Override
    public void advance(long cells) {
      done.addAndGet(cells);
    }

    @Override
    public void end() {
      ended++;
    }
  }

  private static Terrain compute(int rows, int cols, TerrainParams params, Progress told) {
    GridSpec spec = TestGround.spec(rows, cols, 2, 3);
    try (Workers workers = new Workers(2)) {
      return TerrainStage.compute(
          TestGround.dem(spec, TestGround.rough(rows, cols, 1)), params, workers, told);
    }
  }

  private static void least(int rows, int cols, TerrainParams params) {
    Terrain smallest = compute(rows, cols, params, Progress.NONE);
    // What is measured over the longest length there is one cell for, in the middle.
    float middle = smallest.slopeDeg().at(rows / 2, cols / 2);
    assertTrue(middle >= 0, middle + " degrees");
    for (int side = 0; side < 2; side++) {
      int r = rows - side;
      int c = cols - 1 + side;
      String said =
          assertThrows(UserError.class, () -> compute(r, c, params, Progress.NONE)).getMessage();
      assertTrue(said.contains(r + " x " + c + " cells") && said.contains("too few"), said);
    }
  }

  /** Cells 2 m wide and 3 m high, so more columns than rows are needed. */
  @Test
  void groundAsSmallAsWhatIsMeasuredOnIt() {
    // A disc of 14 m: 7 m are two rows and three columns to either side.
    least(5, 7, new TerrainParams(SlopeMethod.FOOTPRINT_PLANE, 14, 2, 2));
    // Steps within 9 m: three rows and four columns to either side.
    least(7, 9, new TerrainParams(SlopeMethod.FOOTPRINT_PLANE, 4, 9, 2));
    // Three cells are the least of all.
    least(3, 3, new TerrainParams(SlopeMethod.FOOTPRINT_PLANE, 2, 2, 2));
  }

  private static final Pattern ASKED = Pattern.compile("at least (\\d+) x (\\d+) cells");

  /** Cells of 3 x 3, too few for anything that is measured over more. */
  private static int[] askedFor(TerrainParams params, double cellXM, double cellYM) {
    GridSpec few = TestGround.spec(3, 3, cellXM, cellYM);
    Matcher m =
        ASKED.matcher(
            assertThrows(UserError.class, () -> FootprintFit.footprint(params, few)).getMessage());
    assertTrue(m.find());
    return new int[] {Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2))};
  }

  /** Lengths and cells at random, by hand and far beyond: one row or column less is refused. */
  @Test
  void asManyCellsAsAreAskedForAreEnoughAndNoFewerAre() {
    Random r = new Random(11);
    int computed = 0;
    for (int i = 0; i < 400; i++) {
      double cellXM = 0.5 + 4 * r.nextDouble();
      double cellYM = 0.5 + 4 * r.nextDouble();
      double most = i % 8 == 0 ? 60 * 64 : i % 2 == 0 ? 200 : 12;
      double spacingM = Math.min(most * r.nextDouble() + 0.1, 64 * Math.min(cellXM, cellYM));
      TerrainParams params =
          new TerrainParams(
              SlopeMethod.FOOTPRINT_PLANE,
              3 * Math.max(cellXM, cellYM) + most * r.nextDouble(),
              spacingM,
              most * r.nextDouble() + 0.1);
      int[] asked = askedFor(params, cellXM, cellYM);
      int rows = asked[0];
      int cols = asked[1];
      FootprintFit.footprint(params, TestGround.spec(rows, cols, cellXM, cellYM));
      if (rows * cols < 600) {
        computed++;
        GridSpec spec = TestGround.spec(rows, cols, cellXM, cellYM);
        try (Workers workers = new Workers(1)) {
          TerrainStage.compute(
              TestGround.dem(spec, TestGround.rough(rows, cols, 1)),
              params,
              workers,
              Progress.NONE);
        }
      }
      for (int[] fewer : new int[][] {{rows - 1, cols}, {rows, cols - 1}}) {
        GridSpec spec = TestGround.spec(fewer[0], fewer[1], cellXM, cellYM);
        String said =
            assertThrows(UserError.class, () -> FootprintFit.footprint(params, spec)).getMessage();
        assertTrue(said.contains("at least " + rows + " x " + cols + " cells"), said);
      }
    }
    assertTrue(computed > 50, computed + " grounds were measured on");
    // Steps within 9 m on cells 3 m wide and 2 m high: four rows and three columns to either side.
    TerrainParams steps = new TerrainParams(SlopeMethod.FOOTPRINT_PLANE, 4, 9, 2);
    assertArrayEquals(new int[] {9, 7}, askedFor(steps, 3, 2));
  }

  @Test
  void allWorkIsToldAsDone() {
    TerrainParams params = new TerrainParams(SlopeMethod.HORN, 12, 2, 6, 0.3, 10.0, 20.0);
    Told told = new Told();
    Terrain terrain = compute(41, 53, params, told);
    assertEquals(List.of("terrain"), told.begun);
    // The plane of every cell, and all the rest of it.
    assertEquals(2 * 41 * 53, told.total);
    assertEquals(told.total, told.done.get());
    assertEquals(1, told.ended);
    try (Workers workers = new Workers(2)) {
      Told more = new Told();
      DerivativeStage.compute(terrain, params, EnumSet.allOf(Derivative.class), workers, more);
      assertEquals(List.of("derivatives"), more.begun);
      assertEquals(41 * 53, more.total);
      assertEquals(more.total, more.done.get());
      assertEquals(1, more.ended);
      Told drawn = new Told();
      SlopeDraws.spread(terrain, params, 5, 1, workers, drawn);
      assertEquals(List.of("slope error"), drawn.begun);
      assertEquals(5, drawn.total);
      assertEquals(5, drawn.done.get());
      assertEquals(1, drawn.ended);
    }
  }
}
