package org.scarpway.audit;

import org.scarpway.audit.HomeRule.Used;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * A trip to be checked, claimed to break no rule.
 *
 * @param name name of the target or of the sampled cell
 * @param changeS time standing between the stay and the way home (s)
 * @param home way home, null if nobody has to come home
 * @param homeField field of the way home; the vehicle may be loaded
 * @param before amounts used of the limits when the trip begins
 */
public record Trip(
    String name,
    Way out,
    double stayS,
    double changeS,
    Way home,
    TraversalCost outField,
    TraversalCost homeField,
    Floats heightM,
    Used before) {

  /** A trip of a crew that has used nothing yet. */
  public Trip(
      String name,
      Way out,
      double stayS,
      double changeS,
      Way home,
      TraversalCost outField,
      TraversalCost homeField,
      Floats heightM) {
    this(name, out, stayS, changeS, home, outField, homeField, heightM, Used.NOTHING);
  }
}
