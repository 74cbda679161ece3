package org.scarpway.audit;

/**
 * What came of one trip that was driven again.
 *
 * @param xM of the far end
 * @param leftPct least share of anything that runs out, over all moments, after what the home rule
 *     needs from there (%); infinite where nothing is limited
 * @param leftOf what that is
 * @param leftAtS when, since leaving the base
 * @param leftXM where
 * @param phase out, stay or home
 * @param waysHome walks, rides and rescues from a stop that were driven too and hold
 * @param broken the rule that is broken and by how much; empty where none is
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
