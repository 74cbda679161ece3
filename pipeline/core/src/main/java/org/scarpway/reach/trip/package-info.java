/**
 * Decides which cells can be reached by a round trip within every budget and the home rule: sums
 * along paths, the time that a stop in each cell requires, the check of each cell, and trips
 * exported for an independent audit.
 *
 * <h2>Budgets</h2>
 *
 * <p>Several limits along one path make this a resource-constrained shortest path problem. Energy
 * is solved with a height potential subtracted, which is added again from the heights at both ends;
 * a hill driven up and down therefore costs exactly its losses, whatever the gradient estimate. A
 * trip is a way out and a way home. The quickest ways and, where energy or distance is limited, the
 * least-energy and shortest ways are tried in every pair, with time, energy and distance summed
 * along the same way ({@code PathSums}). A cell is surely reached if one such trip, stay included,
 * meets every limit; it is possibly reached if each limit can be met by itself. Where cells remain
 * undecided, ways of least weighted sum are tried as well, and a cell is ruled out if even its
 * least weighted sum exceeds that of all limits ({@code Refinement}), as long as that decides cells
 * ({@code WeightingRounds}). The battery limits energy and the life support limits time where the
 * vehicle file gives them.
 *
 * <p>What did not help: ending the least-energy front home where it exceeds the budget together
 * with the front out. It saves a quarter of its cells, but reasons of targets out of reach ask for
 * all of it, and nothing kept serves another budget (reports/benchmarks.md).
 *
 * <h2>Home rules</h2>
 *
 * <p>The time that a stop in a cell requires until everybody is home does not depend on how the
 * trip came there ({@code Stops}). On the way out the earliest arrival therefore decides: a front
 * that expands a cell only if its arrival leaves time for a stop there finds exactly the cells that
 * can be reached ({@code StopInTime}). On the way home the time required from a cell is the larger
 * of the time that a stop in it requires and, minimised over all steps, the step's time plus the
 * time required where it ends: a front whose labels are bounded below by the stops ({@code
 * NeedFront}). Both fronts are computed only where the quickest ways leave a cell undecided. Along
 * every way {@code PathSums} stores the latest moment at which everybody is home (out), the largest
 * excess over simply driving on (home), and, on the way out, whether a stop breaks a limit other
 * than time. Energy is counted as battery charge: the charge never exceeds full, and the energy
 * used by each moment is compared with the limit.
 *
 * <ul>
 *   <li>none: only the way out and the stay count.
 *   <li>drive-back: the way out, the stay and the way back count; from every place on it the rest
 *       of the trip is the way home.
 *   <li>walk-back: the whole trip keeps to ground from which the crew can walk to a refuge within
 *       its endurance less the reserve (counted from the moment it leaves the vehicle), its supply
 *       of metabolic energy and the length that it walks ({@code WalksHome}); and if the vehicle
 *       stops anywhere on the way out, during the stay or on the way home, the crew is home on foot
 *       within the shorter of time and life support (counted from the start). Energy and distance
 *       as drive-back.
 *   <li>pair: two vehicles of the same kind drive together, and each must seat both crews. The way
 *       home is that of the loaded vehicle ({@link org.scarpway.vehicle.TraversalCost#withLoad}),
 *       and begins after the stay and the change of vehicles. From the stop on, both crews use the
 *       life support of one vehicle: out + stay + 2 x (change + way home) must stay within it. A
 *       loaded vehicle is nowhere quicker or cheaper, so no later stop requires more. From a stop
 *       on the way out, at least one of the computed loaded ways home must meet every limit.
 *   <li>base-rescue: budgets as drive-back; and from a stop anywhere, the alarm, the way out of a
 *       vehicle of the same kind from the base, loading and its loaded way home must stay within
 *       time and life support ({@code Fetching}), and within that vehicle's own battery and
 *       distance; from loading on both crews use its life support: out + 2 x (loading + way home)
 *       must stay within it; until the crew is aboard, the stopped vehicle's electrical load
 *       continues. Where the computed ways of the rescuer exceed a limit, the check is repeated
 *       with lower bounds over all of its ways ({@code LeftOpen}): cells that these do not rule out
 *       are possibly reached.
 * </ul>
 *
 * <h2>Underway</h2>
 *
 * <p>A crew that stands elsewhere than at the base ({@code ReplanSolver}) is a trip whose way out
 * begins there and whose way home ends at the base, with what is left as its limits: time, life
 * support and distance that are gone are subtracted, energy that is gone counts as used from the
 * battery ({@code ReachLimits}). Its own way home is the trip with no way out. Along the planned
 * way {@code TurnBackSearch} asks at every cell border for a known way home within what is then
 * left.
 *
 * <h2>Driven again</h2>
 *
 * <p>The trips to targets and to a sample of the surely reached cells are exported as lines to
 * {@link org.scarpway.audit.TripAudit}, which recalculates them cell by cell independently of all
 * fronts, together with the walks, rides and rescues on which the worst moments depend. Every leg
 * of a corridor is recalculated likewise ({@link org.scarpway.audit.RouteAudit}). A rule broken
 * there is a fault of the program and aborts the computation.
 */
package org.scarpway.reach.trip;
