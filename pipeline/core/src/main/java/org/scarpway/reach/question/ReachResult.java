package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.audit.Finding;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * The answer to a {@link ReachRequest}, on the grid of the DEM.
 *
 * @param timeS least driving time from the base (s), NaN where there is no way or, unless the
 *     request asks for more, the time does not suffice for a trip
 * @param energyJ least energy from the base (J), may be negative downhill; NaN where there is no
 *     way
 * @param distanceM surface length of the quickest way (m)
 * @param homeTimeS least driving (or, by the rule, walking) time home (s)
 * @param walkEnergyJ metabolic energy of the walk home by the rule walk-back (J), NaN where there
 *     is no walk or it is not known; null by other rules or where nobody asks
 * @param walkDistanceM its length along the ground (m), likewise
 * @param stopHomeS from a stop of the vehicle in a cell until everybody is home on foot or in
 *     another (s), NaN where nobody gets home; null where the home rule asks for none
 * @param state 1 surely, 2 possibly, 0 not reachable within every budget and the home rule
 * @param binding code of the {@link ReachEnd} that stops the reach at a cell, 0 inside
 * @param gapWidthM width of the narrowest passage on the widest way home (m)
 * @param band 1-based index of the smallest band that holds the cell, 0 for none
 * @param bandAreasM2 plan area inside each band (m2), cumulative
 * @param drivenAgain what came of trips that surely rests on when they were driven again: to each
 *     target that is reached, and to a sample of cells
 * @param passages narrow passages that much of the reach hangs on, most of it first
 */
public record ReachResult(
    ReachRequest request,
    String vehicle,
    FloatGrid timeS,
    FloatGrid energyJ,
    FloatGrid distanceM,
    FloatGrid homeTimeS,
    FloatGrid walkEnergyJ,
    FloatGrid walkDistanceM,
    FloatGrid stopHomeS,
    ByteGrid state,
    ByteGrid binding,
    FloatGrid gapWidthM,
    ByteGrid band,
    List<Double> bandAreasM2,
    List<TargetReach> targets,
    List<Passage> passages,
    List<ReachFigure> summary,
    List<Finding> drivenAgain,
    List<String> warnings) {
  public ReachResult {
    bandAreasM2 = List.copyOf(bandAreasM2);
    targets = List.copyOf(targets);
    passages = List.copyOf(passages);
    summary = List.copyOf(summary);
    drivenAgain = List.copyOf(drivenAgain);
    warnings = List.copyOf(warnings);
  }

  /** Plan area that is surely reached (m2): of the whole, also where layers hold a part of it. */
  public double surelyM2() {
    return areaM2(ReachFigure.SURELY);
  }

  /** Plan area that is possibly reached in addition (m2). */
  public double possiblyM2() {
    return areaM2(ReachFigure.POSSIBLY);
  }

  /**
   * What of each limit is kept, in words, such as 10 % of time and energy; empty where none is
   * limited.
   */
  public String reserveText() {
    return ReachSummary.reserveText(summary);
  }

  private double areaM2(String name) {
    return summary.stream()
        .filter(f -> f.name().equals(name))
        .mapToDouble(f -> f.value() * 1e6)
        .findFirst()
        .orElse(Double.NaN);
  }

  /**
   * A target and how it is reached; times and energies NaN where it is not. The distance is what is
   * driven out and home together. What is left is the least of all moments of the trip, after what
   * the home rule needs from there; the reserve is part of it.
   */
  public record TargetReach(
      ReachRequest.Target target,
      boolean reached,
      double outTimeS,
      double homeTimeS,
      double totalTimeS,
      double totalEnergyJ,
      double distanceM,
      double timeLeftS,
      double energyLeftJ,
      double lifeLeftS,
      String end) {}

  /**
   * A narrow passage.
   *
   * @param widthM between the edges of the no-go cells on either side
   * @param behindM2 surely reachable plan area that is lost when the passage is closed, whatever
   *     the budgets
   * @param behindPct the same as a share of all that is surely reachable
   * @param targets names of reached targets that are lost with it
   */
  public record Passage(
      double xM,
      double yM,
      double widthM,
      double behindM2,
      double behindPct,
      List<String> targets) {
    public Passage {
      targets = List.copyOf(targets);
    }
  }
}
