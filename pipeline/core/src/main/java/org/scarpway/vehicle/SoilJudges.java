package org.scarpway.vehicle;

import java.util.function.Function;

/**
 * Judges cells on the soil that lies there. Where nobody knows it there is no verdict, or the worst
 * that any soil of the job gives. One per thread.
 */
final class SoilJudges {
  private final SoilLimits limits;
  private final Function<MoveLimits, CellJudge> make;
  private final CellJudge[] judges;
  private CellJudge governing;

  /**
   * @param make gives a judge for a vehicle on one soil
   */
  SoilJudges(SoilLimits limits, Function<MoveLimits, CellJudge> make) {
    this.limits = limits;
    this.make = make;
    this.judges = new CellJudge[limits.count()];
  }

  /** Holds the verdict until the next cell. */
  CellJudge judge(int row, int col, int soil) {
    CellJudge judge = on(soil);
    judge.judge(row, col);
    governing = judge;
    if (soil == limits.unknown()) {
      if (limits.worstOfAll) {
        worst(judge, row, col);
      } else {
        judge.withoutSoil();
      }
    }
    return judge;
  }

  private void worst(CellJudge judge, int row, int col) {
    for (int i = 0; i < limits.unknown(); i++) {
      CellJudge other = on(i);
      other.judge(row, col);
      if (judge.alsoAs(other) || i == 0) {
        governing = other;
      }
    }
  }

  /** The judge on the soil that decided the last verdict. */
  CellJudge governing() {
    return governing;
  }

  private CellJudge on(int soil) {
    if (judges[soil] == null) {
      judges[soil] = make.apply(limits.of(soil));
    }
    return judges[soil];
  }
}
