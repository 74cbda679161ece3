package org.scarpway.audit;

/**
 * The result of recalculating one trip.
 *
 * @param xM easting of the far end (m)
 * @param leftPct smallest share left of any limit (%), over all moments, after subtracting what the
 *     home rule requires from there; infinite if nothing is limited
 * @param leftOf name of that limit
 * @param leftAtS moment of that minimum, since departure from the base (s)
 * @param leftXM easting of the place of that minimum (m)
 * @param phase phase of that minimum: out, stay or home
 * @param waysHome number of walks, rides and rescues from a stop that were recalculated too and
 *     confirmed
 * @param broken the rule that is broken and by how much; empty if none is
 */
public record Finding(
    String name,
    double xM,
    double yM,
    double timeS,
    double energyJ,
    double distanceM,
    double leftPct,
    String leftOf,
    double leftAtS,
    double leftXM,
    double leftYM,
    String phase,
    int waysHome,
    String broken) {

  public boolean holds() {
    return broken.isEmpty();
  }
}
