package org.scarpway.run.unit;

import java.util.List;
import org.scarpway.audit.Finding;
import org.scarpway.reach.question.ReachByBudget;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachResult;

/** The parts of a reach result that are not in a raster. */
record ReachRest(
    List<Double> bandAreasM2,
    List<ReachByBudget> byBudget,
    List<ReachResult.TargetReach> targets,
    List<ReachResult.PinchPoint> passages,
    List<ReachFigure> summary,
    List<Finding> drivenAgain,
    List<String> warnings) {

  static ReachRest of(ReachResult r) {
    return new ReachRest(
        r.bandAreasM2(),
        r.byBudget(),
        r.targets(),
        r.passages(),
        r.summary(),
        r.drivenAgain(),
        r.warnings());
  }

  ReachRest withBandAreas(List<Double> m2) {
    return new ReachRest(m2, byBudget, targets, passages, summary, drivenAgain, warnings);
  }
}
