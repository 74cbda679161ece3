package org.scarpway.vehicle;

import java.util.function.Function;
import org.scarpway.grid.Headings;

/**
 * Evaluates each cell on its own soil. Where the soil is unknown there is no verdict or the worst
 * verdict of all soils of the job, depending on the rule; where several soils meet it is the worst.
 * Use one instance per thread.
 */
final class SoilJudges {
  private final SoilLimits limits;
  private final Function<MoveLimits, CellTraversability> make;
  private final CellTraversability[] judges;
  private CellTraversability governing;

  /**
   * @param make creates the evaluator for a vehicle on one soil
   */
  SoilJudges(SoilLimits limits, Function<MoveLimits, CellTraversability> make) {
    this.limits = limits;
    this.make = make;
    this.judges = new CellTraversability[limits.count()];
  }

  /** Evaluates a cell; the returned verdict is valid until the next call. */
  CellTraversability judge(int row, int col, int soil) {
    CellTraversability judge = on(soil);
    judge.judge(row, col);
    governing = judge;
    if (limits.worstOfAll(soil)) {
      worst(judge, row, col);
    } else if (!limits.single(soil)) {
      judge.withoutSoil();
    }
    return judge;
  }

  private void worst(CellTraversability judge, int row, int col) {
    for (int i = 0; i < limits.unknown(); i++) {
      CellTraversability other = on(i);
      other.judge(row, col);
      if (also(judge, other) || i == 0) {
        governing = other;
      }
    }
  }

  /** Returns the evaluator of the soil that decided the last verdict. */
  CellTraversability governing() {
    return governing;
  }

  private CellTraversability on(int soil) {
    if (judges[soil] == null) {
      judges[soil] = make.apply(limits.of(soil));
    }
    return judges[soil];
  }

  /**
   * Combines a verdict with a second one on the same cell, keeping the worse of each value. Tacks
   * are dropped: windows of one soil need not be open on another.
   *
   * @return true if the other verdict is the worse
   */
  private static boolean also(CellTraversability kept, CellTraversability other) {
    boolean worse =
        other.cls != kept.cls
            ? kept.cls != 0 && other.cls > kept.cls
            : other.margin01 < kept.margin01;
    if (worse) {
      kept.cls = other.cls;
      kept.code = other.code;
      kept.margin01 = other.margin01;
    }
    kept.ownBits &= other.ownBits;
    kept.bits = kept.ownBits;
    kept.tackBits = 0;
    kept.narrow = false;
    kept.unresolved |= other.unresolved;
    kept.slowCauses |= other.slowCauses;
    kept.capMs = Math.min(kept.capMs, other.capMs);
    kept.noGo01 = Math.max(kept.noGo01, other.noGo01);
    kept.openShare = Math.min(kept.openShare, other.openShare);
    if (kept.bits != -1) {
      double open = Integer.bitCount(kept.bits) / (double) Headings.COUNT;
      kept.openShare = Math.min(kept.openShare, open);
    }
    if (kept.bits == 0 && (kept.cls == Mobility.GO || kept.cls == Mobility.SLOW)) {
      kept.cls = Mobility.NO_GO;
      kept.margin01 = -1;
      kept.noGo01 = Double.isNaN(kept.noGo01) ? Double.NaN : 1;
    }
    return worse;
  }
}
