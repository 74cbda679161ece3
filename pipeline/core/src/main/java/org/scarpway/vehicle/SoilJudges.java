package org.scarpway.vehicle;

import java.util.function.Function;
import org.scarpway.grid.Headings;

/**
 * Judges cells on the soil that lies there. Where nobody knows it there is no verdict, or the worst
 * that any soil of the job gives, as where several meet. One per thread.
 */
final class SoilJudges {
  private final SoilLimits limits;
  private final Function<MoveLimits, CellTraversability> make;
  private final CellTraversability[] judges;
  private CellTraversability governing;

  /**
   * @param make gives a judge for a vehicle on one soil
   */
  SoilJudges(SoilLimits limits, Function<MoveLimits, CellTraversability> make) {
    this.limits = limits;
    this.make = make;
    this.judges = new CellTraversability[limits.count()];
  }

  /** Holds the verdict until the next cell. */
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

  /** The judge on the soil that decided the last verdict. */
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
   * What is left of a verdict where another one on the same cell may hold as well. Tacks are not:
   * windows of one soil need not be open on another.
   *
   * @return whether the other one is the worse
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
