package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.audit.Finding;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * The answer to a {@link ReachRequest}, on the grid of the DEM.
 *
 * @param request the request that was solved
 * @param vehicle name of the vehicle
 * @param timeS least driving time from the base (s), NaN where no way leads or, unless the request
 *     asks for more, beyond the time budget
 * @param energyJ least energy from the base (J), may be negative downhill; NaN where no way leads
 * @param distanceM surface length of the quickest way (m)
 * @param wayEnergyJ energy along the quickest way from the base (J), NaN without an energy model
 * @param wayHomeEnergyJ energy along the quickest way home (J), NaN likewise; null if the vehicle
 *     does not drive home
 * @param homeTimeS least driving time home (s); by the rule walk-back the walking time home
 * @param walkEnergyJ metabolic energy of the walk home by the rule walk-back (J), NaN where there
 *     is no walk or its energy is unknown; null by other rules or if not requested
 * @param walkDistanceM length of that walk along the ground (m); NaN and null likewise
 * @param stopHomeS time from a stop of the vehicle in a cell until everybody is home on foot or in
 *     another vehicle (s), NaN where nobody gets home; null if the home rule does not consider
 *     stops
 * @param steps next cell of the quickest ways; null if they are not at hand
 * @param state 1 surely, 2 possibly, 0 not reachable within every budget and the home rule
 * @param binding code of the {@link ReachEnd} that ends the reach at a cell, 0 inside
 * @param gapWidthM bottleneck width: the narrowest passage on the widest way home (m)
 * @param band 1-based index of the smallest band that holds the cell, 0 for none
 * @param bandAreasM2 plan area inside each band (m2), cumulative
 * @param byBudget areas reached with smaller budgets of time and of energy; empty where these are
 *     not limited, or where the home rule asks of a stop more than time
 * @param targets the targets of the request, each with the trip to it
 * @param passages narrow passages that much of the reach depends on, the largest area first
 * @param summary figures for the summary table
 * @param drivenAgain audit findings: the trips behind "surely" recalculated, to each target that is
 *     reached and to a sample of cells
 * @param warnings remarks that a reviewer must know, one line each
 */
public record ReachResult(
    ReachRequest request,
    String vehicle,
    FloatGrid timeS,
    FloatGrid energyJ,
    FloatGrid distanceM,
    FloatGrid wayEnergyJ,
    FloatGrid wayHomeEnergyJ,
    FloatGrid homeTimeS,
    FloatGrid walkEnergyJ,
    FloatGrid walkDistanceM,
    FloatGrid stopHomeS,
    Steps steps,
    ByteGrid state,
    ByteGrid binding,
    FloatGrid gapWidthM,
    ByteGrid band,
    List<Double> bandAreasM2,
    List<ReachByBudget> byBudget,
    List<TargetReach> targets,
    List<PinchPoint> passages,
    List<ReachFigure> summary,
    List<Finding> drivenAgain,
    List<String> warnings) {
  /** Copies the lists. */
  public ReachResult {
    bandAreasM2 = List.copyOf(bandAreasM2);
    byBudget = List.copyOf(byBudget);
    targets = List.copyOf(targets);
    passages = List.copyOf(passages);
    summary = List.copyOf(summary);
    drivenAgain = List.copyOf(drivenAgain);
    warnings = List.copyOf(warnings);
  }

  /** The next cell of the quickest way from each cell to the base, made when asked for. */
  public interface Steps {
    /** On the way from the base, followed backwards. */
    ByteGrid out();

    /** On the vehicle's own way home; without a way everywhere if the crew comes home otherwise. */
    ByteGrid home();

    /** On the walk home to the base or a refuge; null by rules other than walk-back. */
    ByteGrid walk();

    /**
     * On the way of a vehicle that comes from the base to fetch the crew, followed backwards; null
     * by rules other than base-rescue.
     */
    ByteGrid fetch();

    /** On that vehicle's ride home; null likewise. */
    ByteGrid ride();
  }

  /**
   * Plan area that is surely reached (m2); it covers the whole grid even if the layers hold some
   * rows only.
   */
  public double surelyM2() {
    return areaM2(ReachFigure.SURELY);
  }

  /** Plan area that is possibly reached in addition (m2). */
  public double possiblyM2() {
    return areaM2(ReachFigure.POSSIBLY);
  }

  /** The reserves in words, such as 10 % of time and energy; empty if nothing is limited. */
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
   * A target and the trip to it; times and energies are NaN if it is not reached. The distance is
   * the length driven out and home together. The amounts left are minima over all moments of the
   * trip, after subtracting the reserve and what the home rule requires from there.
   *
   * @param target the target
   * @param reached true if the target is surely reached
   * @param outTimeS driving time from the base (s)
   * @param homeTimeS time home (s)
   * @param totalTimeS time of the whole trip, stay included (s)
   * @param totalEnergyJ energy of the whole trip (J), NaN without an energy model
   * @param distanceM length driven, out and home (m)
   * @param timeSpareS least time left beyond the reserve (s), NaN without a time budget
   * @param energySpareJ least energy left beyond the reserve (J), NaN without an energy budget
   * @param lifeSpareS least life support left beyond the reserve (s), NaN without such a limit
   * @param end the limit or rule that ends the reach, in words; empty if the target is reached
   * @param whyNot what it falls short of and what would reach it; null if it is reached, or outside
   *     the elevation model
   */
  public record TargetReach(
      ReachRequest.Target target,
      boolean reached,
      double outTimeS,
      double homeTimeS,
      double totalTimeS,
      double totalEnergyJ,
      double distanceM,
      double timeSpareS,
      double energySpareJ,
      double lifeSpareS,
      String end,
      WhyNot whyNot) {
    /** Returns this answer with the reasons for it. */
    public TargetReach because(WhyNot reasons) {
      return new TargetReach(
          target,
          reached,
          outTimeS,
          homeTimeS,
          totalTimeS,
          totalEnergyJ,
          distanceM,
          timeSpareS,
          energySpareJ,
          lifeSpareS,
          end,
          reasons);
    }
  }

  /**
   * A narrow passage.
   *
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   * @param widthM bottleneck width, between the edges of the no-go cells on either side (m)
   * @param behindM2 surely reachable plan area that is lost if the passage is closed, whatever the
   *     budgets (m2)
   * @param behindPct the same as a share of the surely reachable area (%)
   * @param targets names of reached targets that are lost with it
   */
  public record PinchPoint(
      double xM,
      double yM,
      double widthM,
      double behindM2,
      double behindPct,
      List<String> targets) {
    /** Copies the list. */
    public PinchPoint {
      targets = List.copyOf(targets);
    }
  }
}
