package org.scarpway.vehicle;

import java.util.List;
import java.util.concurrent.atomic.LongAdder;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard.Cause;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Computes where a walker can go and at what speed. A cell is open on every heading if its steepest
 * slope is within the walker's limit (so the slope along any heading is too) and no measured step
 * to a neighbour exceeds the walker's step limit ({@link StepsOnFoot}). The cells on both sides of
 * a step are closed, so that no route crosses it in any direction. Keep-out areas and unknown
 * ground, with the cells around it, are closed to walkers as to vehicles. Rocks are walked around
 * at no cost: the walking functions are means over such ground.
 */
public final class WalkStage {
  /** Halo rows: rows on either side of a cell that its verdict depends on. */
  public static final int HALO_ROWS = 2;

  /** Walkers are in suits where gravity is below this value. */
  private static final double LEAST_OWN_GRAVITY_MS2 = 9;

  private WalkStage() {}

  /**
   * Computes all rows.
   *
   * @param causes of the hazard, as bits of {@link Cause}
   */
  public static Walking compute(
      Terrain terrain,
      ByteGrid causes,
      Walker walker,
      Body body,
      Workers workers,
      Progress progress) {
    int rows = terrain.gradEast().spec().rows();
    return compute(terrain, causes, walker, body, 0, rows, workers, progress);
  }

  /**
   * Computes some rows of the ground. The strip must include {@link #HALO_ROWS} halo rows on either
   * side, except at the grid edge. Other rows stay closed and are not counted.
   *
   * @param causes of the hazard, as bits of {@link Cause}
   */
  public static Walking compute(
      Terrain terrain,
      ByteGrid causes,
      Walker walker,
      Body body,
      int firstRow,
      int rows,
      Workers workers,
      Progress progress) {
    WalkSpeeds speeds = new WalkSpeeds(walker, body);
    GridSpec spec = terrain.gradEast().spec();
    int cols = spec.cols();
    int[] allowed = new int[spec.cells()];
    float[] east = terrain.gradEast().values();
    float[] north = terrain.gradNorth().values();
    byte[] bits = causes.values();
    double tan = speeds.steepest();
    double steepest = tan * (1 + LimitUse.ROUNDING);
    double highestM = walker.maxStepM() * (1 + LimitUse.ROUNDING);
    StepsOnFoot steps =
        new StepsOnFoot(
            terrain.heightM().values(), spec.rows(), cols, spec.cellXM(), spec.cellYM(), tan);
    LongAdder gentle = new LongAdder();
    LongAdder stepped = new LongAdder();
    progress.begin("walking of " + walker.name(), (long) rows * cols);
    workers.overRows(
        rows,
        (from, to) -> {
          for (int row = firstRow + from; row < firstRow + to; row++) {
            int gentleHere = 0;
            int openHere = 0;
            for (int col = 0; col < cols; col++) {
              int cell = row * cols + col;
              double ge = east[cell];
              double gn = north[cell];
              // NaN fails the comparison: unknown ground stays closed.
              if (Math.sqrt(ge * ge + gn * gn) <= steepest
                  && (bits[cell] & Cause.KEEP_OUT.bit()) == 0) {
                gentleHere++;
                if (steps.largestM(row, col) <= highestM) {
                  allowed[cell] = -1;
                  openHere++;
                }
              }
            }
            gentle.add(gentleHere);
            stepped.add(gentleHere - openHere);
          }
          progress.advance((long) (to - from) * cols);
        });
    progress.end();
    TraversalCost field =
        new TraversalCost(
            workers.memory(), spec, allowed, east, north, null, null, null, null, speeds.table());
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    return new Walking(
        field,
        gentle.sum(),
        stepped.sum(),
        walker.maxStepM(),
        StepsOnFoot.hiddenM(cellM, tan),
        speeds.peakSeconds(),
        speeds.sustained(),
        body.gravityMs2() < LEAST_OWN_GRAVITY_MS2);
  }

  /** Holds one cell against every limit, by the same measures as {@link #compute}. */
  public static OnFoot at(Terrain terrain, ByteGrid causes, Walker walker, Body body, int cell) {
    GridSpec spec = terrain.gradEast().spec();
    double tan = new WalkSpeeds(walker, body).steepest();
    double ge = terrain.gradEast().values()[cell];
    double gn = terrain.gradNorth().values()[cell];
    float[] heightM = terrain.heightM().values();
    StepsOnFoot steps =
        new StepsOnFoot(heightM, spec.rows(), spec.cols(), spec.cellXM(), spec.cellYM(), tan);
    return new OnFoot(
        Math.sqrt(ge * ge + gn * gn),
        tan,
        steps.largestM(cell / spec.cols(), cell % spec.cols()),
        walker.maxStepM(),
        (causes.values()[cell] & Cause.KEEP_OUT.bit()) != 0);
  }

  /** Notes about the walker for the reader of the products. */
  public static List<String> notes(Walker walker, Body body) {
    return new WalkSpeeds(walker, body).notes();
  }
}
