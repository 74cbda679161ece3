package org.scarpway.vehicle;

import java.util.Arrays;
import java.util.BitSet;
import java.util.concurrent.atomic.AtomicLongArray;
import java.util.concurrent.atomic.LongAdder;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;

/**
 * How many cells are what a reader of the products must know of, over all ground: counted strip by
 * strip, each row once.
 */
public final class MobilityCounts {
  /** More than the largest code of a {@link Limit}. */
  static final int CODES = 32;

  private final LongAdder tacked = new LongAdder();
  private final LongAdder narrow = new LongAdder();
  private final LongAdder unresolved = new LongAdder();
  private final LongAdder judged = new LongAdder();
  private final LongAdder halfUsed = new LongAdder();
  private final LongAdder[] missing = new LongAdder[CODES];
  private long rocksAssumed;
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

  /** Goes on with another strip, of which these rows were not counted before. */
  public MobilityCounts next(int first, int rows) {
    firstRow = first;
    endRow = first + rows;
    return this;
  }

  boolean isOwn(int row) {
    return row >= firstRow && row < endRow;
  }

  /** Cells of own rows; any thread may. */
  void add(long tackedCells, long narrowCells, long unresolvedCells, long judgedCells) {
    tacked.add(tackedCells);
    narrow.add(narrowCells);
    unresolved.add(unresolvedCells);
    judged.add(judgedCells);
  }

  /** Cells of own rows without a verdict, by the code of what is not known; any thread may. */
  void addMissing(long[] byCode) {
    for (int code = 0; code < CODES; code++) {
      missing[code].add(byCode[code]);
    }
  }

  /** Slow cells of own rows by the set of their causes; any thread may. */
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
   * Judged cells of own rows; any thread may.
   *
   * @param millionths sum of their P(no-go), as whole numbers so that no order of adding shows
   * @param doubtfulCells those with more than the confidence leaves
   */
  void addNoGo(long millionths, long doubtfulCells) {
    noGoMillionths.add(millionths);
    doubtful.add(doubtfulCells);
  }

  /** Mean P(no-go) of the judged cells. */
  double noGoPct() {
    return 1e-4 * noGoMillionths.sum() / judged();
  }

  /** Share of the judged cells with a P(no-go) beyond what the confidence leaves. */
  double doubtfulPct() {
    return 100.0 * doubtful.sum() / judged();
  }

  /** What terrain, rocks and soils say of the own rows. */
  void add(Terrain terrain, Hazard hazard, SoilLimits limits) {
    int cols = terrain.gradEast().spec().cols();
    BitSet assumed = hazard.rocksAssumed();
    if (assumed != null) {
      rocksAssumed += assumed.get(firstRow * cols, endRow * cols).cardinality();
    }
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

  /** Whether a single soil counts on any cell, by itself or as one of several. */
  boolean hasSoil(int index, SoilLimits limits) {
    for (int other = 0; other < limits.count(); other++) {
      if (onSoil(other) > 0 && (other == index || limits.worstOfAll(other))) {
        return true;
      }
    }
    return false;
  }

  /** Cells on which way is made in tacks on some heading. */
  long tacked() {
    return tacked.sum();
  }

  /** Cells that are open only on a window that no heading makes good. */
  long narrow() {
    return narrow.sum();
  }

  /** Cells that no limit closes, while the ground does not show all of them. */
  long unresolved() {
    return unresolved.sum();
  }

  void addHalfUsed(long cells) {
    halfUsed.add(cells);
  }

  /** Open cells on which more than half of a limit is used that the cells do not show. */
  long halfUsed() {
    return halfUsed.sum();
  }

  /** Cells with a verdict. */
  long judged() {
    return judged.sum();
  }

  /** Cells without a verdict for want of that. */
  long missing(Limit what) {
    return missing[what.code()].sum();
  }

  /** Cells without a verdict. */
  long missing() {
    long all = 0;
    for (LongAdder n : missing) {
      all += n.sum();
    }
    return all;
  }

  /** Cells on which a stated coverage stands in for rocks that are not known. */
  long rocksAssumed() {
    return rocksAssumed;
  }

  /** Cells on which the step exceeds the vehicle's limit. */
  long stepOver() {
    return stepOver;
  }

  /** The highest step (m). */
  double highestStepM() {
    return highestStepM;
  }

  long onSoil(int index) {
    return onSoil[index];
  }

  /** Share of the cells with that soil, 0 to 1. */
  double shareOfSoil(int index) {
    long all = 0;
    for (long n : onSoil) {
      all += n;
    }
    return (double) onSoil[index] / all;
  }
}
