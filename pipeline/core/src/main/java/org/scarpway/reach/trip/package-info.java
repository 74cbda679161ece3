/**
 * Trips out and home within every budget and the home rule: sums along ways, what a stop anywhere
 * asks for, the check of each cell, and trips handed out to be driven again.
 *
 * <h2>Budgets</h2>
 *
 * <p>Energy is solved reduced by a height potential and put back from the heights at both ends, so
 * a hill driven up and down costs what is lost on it, whatever the gradient estimate. A trip is a
 * way out and a way home; quickest, and where limited least-energy and shortest ways are tried in
 * every pair, with time, energy and distance added up along one and the same way ({@code
 * PathSums}). A cell is surely reached if one such trip, stay included, meets every limit; possibly
 * if each limit alone can be met. Where cells are left undecided, ways of least weighted sums are
 * tried as well, and cells ruled out to which even these cost more than all limits allow together
 * ({@code Refinement}). The battery limits energy and the life support limits time where the
 * vehicle states them.
 *
 * <h2>Home rules</h2>
 *
 * <p>What a stop in a cell asks for does not depend on how the trip came there ({@code Stops}). So
 * on the way out the earliest arrival decides: a front that goes on only from cells that are come
 * to early enough finds exactly what can be reached ({@code StopInTime}). On the way home the need
 * of a cell is the larger of what a stop in it asks for and, over the best step, what the step
 * takes and the need where it ends: a front whose labels are held up by the stops ({@code
 * NeedFront}). Both are spread only where the quickest ways leave something open. Along every way
 * the latest moment at which everybody is home (out) and the largest excess over driving on (home)
 * are kept ({@code PathSums}), and on the way out whether a stop breaks a limit other than time.
 * Energy is counted as the battery has it: never above full, and every moment's use against the
 * limit.
 *
 * <ul>
 *   <li>none: out and stay only.
 *   <li>drive-back: out, stay and back; the rest of the trip is the way home from everywhere.
 *   <li>walk-back: the whole trip keeps to ground from which the crew can walk to a refuge within
 *       its endurance less the reserve (counted from the moment it leaves the vehicle), its supply
 *       of metabolic energy and the length that it walks ({@code WalksHome}); and if the vehicle
 *       stops anywhere on the way out, during the stay or on the way home, the crew is home on foot
 *       within the shorter of time and life support (counted from the start). Energy and distance
 *       as drive-back.
 *   <li>pair: two like vehicles drive together; it must seat both crews. The way home is that of
 *       the loaded vehicle ({@link org.scarpway.vehicle.MoveField#withLoad}), begun after the stay
 *       and the change of vehicles; from the stop on both crews live on one vehicle: out + stay +
 *       twice change and way home must stay within the life support. A loaded vehicle is nowhere
 *       quicker or cheaper, so no later stop asks for more. From a stop on the way out one of the
 *       loaded ways home that are known must meet every limit.
 *   <li>base-rescue: budgets as drive-back; and from a stop anywhere, alarm, a like vehicle's way
 *       out from the base, loading and its way home loaded must stay within time and life support
 *       ({@code Fetching}), and within that vehicle's own battery and distance; the stopped
 *       vehicle's load runs on until then. Where the rescuer's ways that are known take too much,
 *       the question is asked again of the least that any of its ways takes ({@code LeftOpen}):
 *       what that leaves open is possible.
 * </ul>
 *
 * <h2>Driven again</h2>
 *
 * <p>The trips to targets and to a sample of the cells that are surely reached are set out as lines
 * and handed to {@link org.scarpway.audit.TripAudit}, which drives them piece by piece knowing no
 * front, with the walks, rides and rescues that its worst moments rest on; so is every leg of a
 * corridor ({@link org.scarpway.audit.RouteAudit}). A rule that is broken there is a fault of the
 * program and ends the question.
 */
package org.scarpway.reach.trip;
