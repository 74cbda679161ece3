package org.scarpway.vehicle;

import java.util.Arrays;
import java.util.concurrent.atomic.AtomicLongArray;
import java.util.concurrent.atomic.LongAdder;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;

/**
 * Cell counts for the notes of the products, over all ground. Accumulated strip by strip; each row
 * is counted once.
 */
public final class MobilityCounts {
  /** Array length: more than the largest code of a {@link Limit}. */
  static final int CODES = 32;

  private final LongAdder tacked = new LongAdder();
  private final LongAdder narrow = new LongAdder();
  private final LongAdder unresolved = new LongAdder();
  private final LongAdder judged = new LongAdder();
  private final LongAdder halfUsed = new LongAdder();
  private final LongAdder[] missing = new LongAdder[CODES];
  private long rocksAssumed;
  private long voids;
  private final AtomicLongArray slow = new AtomicLongArray(SlowCause.SETS);
  private final LongAdder noGoMillionths = new LongAdder();
  private final LongAdder doubtful = new LongAdder();
  private long stepOver;
  private float highestStepM;
  private long[] onSoil = {};
  private int firstRow;
  private int endRow;

  public MobilityCounts() {
    Arrays.setAll(missing, code -> new LongAdder());
  }

  /** Continues with another strip, of which the given rows have not been counted before. */
  public MobilityCounts next(int first, int rows) {
    firstRow = first;
    endRow = first + rows;
    return this;
  }

  boolean isOwn(int row) {
    return row >= firstRow && row < endRow;
  }

  /** Adds cells of own rows; thread-safe. */
  void add(long tackedCells, long narrowCells, long unresolvedCells, long judgedCells) {
    tacked.add(tackedCells);
    narrow.add(narrowCells);
    unresolved.add(unresolvedCells);
    judged.add(judgedCells);
  }

  /** Adds cells of own rows without a verdict, by the code of the missing data; thread-safe. */
  void addMissing(long[] byCode) {
    for (int code = 0; code < CODES; code++) {
      missing[code].add(byCode[code]);
    }
  }

  /** Adds slow cells of own rows by the set of their causes; thread-safe. */
  void addSlow(long[] bySet) {
    for (int set = 0; set < bySet.length; set++) {
      if (bySet[set] > 0) {
        slow.addAndGet(set, bySet[set]);
      }
    }
  }

  SlowGround slow() {
    long[] bySet = new long[slow.length()];
    Arrays.setAll(bySet, slow::get);
    return SlowGround.of(bySet);
  }

  /**
   * Adds cells of own rows that have a verdict; thread-safe.
   *
   * @param millionths sum of their P(no-go) in millionths, an integer so that the result does not
   *     depend on the order of addition
   * @param doubtfulCells cells whose P(no-go) exceeds 1 - confidence
   */
  void addNoGo(long millionths, long doubtfulCells) {
    noGoMillionths.add(millionths);
    doubtful.add(doubtfulCells);
  }

  /** Mean P(no-go) of the cells with a verdict (%). */
  double noGoPct() {
    return 1e-4 * noGoMillionths.sum() / judged();
  }

  /** Share (%) of the cells with a verdict whose P(no-go) exceeds 1 - confidence. */
  double doubtfulPct() {
    return 100.0 * doubtful.sum() / judged();
  }

  /** Adds the counts from terrain, rocks and soils of the own rows. */
  void add(Terrain terrain, Hazard hazard, SoilLimits limits) {
    int cols = terrain.gradEast().spec().cols();
    for (int cell = firstRow * cols; cell < endRow * cols; cell++) {
      voids += Float.isNaN(terrain.heightM().values()[cell]) ? 1 : 0;
    }
    rocksAssumed += hazard.rocksAssumed().get(firstRow * cols, endRow * cols).cardinality();
    onSoil = onSoil.length == 0 ? new long[limits.count()] : onSoil;
    for (int cell = firstRow * cols; cell < endRow * cols; cell++) {
      onSoil[limits.at(cell)]++;
    }
    if (limits.of(0).needsStep()) {
      float[] stepM = terrain.stepM().values();
      for (int cell = firstRow * cols; cell < endRow * cols; cell++) {
        stepOver += stepM[cell] > limits.of(0).stepM ? 1 : 0;
        highestStepM = stepM[cell] > highestStepM ? stepM[cell] : highestStepM;
      }
    }
  }

  /** True if a single soil is used on any cell, alone or as one of several. */
  boolean hasSoil(int index, SoilLimits limits) {
    for (int other = 0; other < limits.count(); other++) {
      if (onSoil(other) > 0 && (other == index || limits.worstOfAll(other))) {
        return true;
      }
    }
    return false;
  }

  /** Number of cells with a heading opened by tacks. */
  long tacked() {
    return tacked.sum();
  }

  /** Number of cells whose only open windows no heading can use. */
  long narrow() {
    return narrow.sum();
  }

  /** Number of cells that no limit closes but that do not resolve all limits. */
  long unresolved() {
    return unresolved.sum();
  }

  void addHalfUsed(long cells) {
    halfUsed.add(cells);
  }

  /**
   * Number of open cells on which more than half of a limit is used that the cells do not resolve.
   */
  long halfUsed() {
    return halfUsed.sum();
  }

  /** Number of cells with a verdict. */
  long judged() {
    return judged.sum();
  }

  /** Number of cells without a verdict for lack of the given data. */
  long missing(Limit what) {
    return missing[what.code()].sum();
  }

  /** Number of cells without a verdict. */
  long missing() {
    long all = 0;
    for (LongAdder n : missing) {
      all += n.sum();
    }
    return all;
  }

  /** Number of cells without a height. */
  long voids() {
    return voids;
  }

  /** Number of cells on which a stated coverage replaces missing rock data. */
  long rocksAssumed() {
    return rocksAssumed;
  }

  /** Number of cells on which the step exceeds the vehicle's limit. */
  long stepOver() {
    return stepOver;
  }

  /** Highest step (m). */
  double highestStepM() {
    return highestStepM;
  }

  long onSoil(int index) {
    return onSoil[index];
  }

  /** Share of the cells with the given soil, 0 to 1. */
  double shareOfSoil(int index) {
    long all = 0;
    for (long n : onSoil) {
      all += n;
    }
    return (double) onSoil[index] / all;
  }
}
