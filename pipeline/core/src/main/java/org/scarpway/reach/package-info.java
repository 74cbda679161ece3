/**
 * How far a mover gets and still comes home, and where its route should be drawn: accumulated time,
 * energy and distance, home rules, corridors. Reads a {@link org.scarpway.vehicle.MoveField} and
 * heights; SI units; writes grids, ways and figures. Reads no file, knows no job.
 *
 * <h2>Scheme</h2>
 *
 * <p>A cell's label is the least cost of a straight step to the square ring two cells away (near
 * barriers also to the ring of neighbours) plus the label there, interpolated linearly along the
 * ring: the semi-Lagrangian update of the static Hamilton-Jacobi equation (Tsitsiklis 1995,
 * <i>Efficient algorithms for globally optimal trajectories</i>, IEEE Trans. Autom. Control
 * 40(9):1528-1538; Sethian &amp; Vladimirsky 2003, <i>Ordered upwind methods for static
 * Hamilton-Jacobi equations: theory and algorithms</i>, SIAM J. Numer. Anal. 41(1):325-363; Alton
 * &amp; Mitchell 2012, <i>An ordered upwind method with precomputed stencil and monotone node
 * acceptance for solving static convex Hamilton-Jacobi equations</i>, J. Sci. Comput. 51:313-348).
 * Steps end at fixed points, 128 around the far ring, rather than at a minimiser in closed form:
 * costs then need no shape (barred headings and dented polar curves are as good as ellipses, and
 * tacking follows because several headings may take turns), and each update is a minimum of sums
 * with fixed weights, monotone to the last bit. A label is also kept above both labels it comes
 * from, so that labels depend on smaller ones only. There is therefore one largest solution,
 * reached bit for bit in any order; a coarse bucket order with corrections serves (Dial 1969).
 *
 * <p>The wide ring is there for accuracy: interpolation along a front of radius r loses about
 * {@code d^2 / 12 r} per step (d the spacing on the ring), so longer steps lose less, and headings
 * are finer. Two cells keep the detail of the ground. Around a source straight ways are costed
 * exactly, since a single-cell source alone costs an error of first order. A heading limit takes
 * effect at the next of the 32 headings on the safe side: between an allowed and a barred heading
 * nothing is allowed, unless both lie between two allowed ones less than half a turn apart: then
 * the two are driven in turn, at their cost ({@code Tack}). Near barred headings a step that ends
 * between cells takes off no more than 5.2 % (square cells) of the way through one of them ({@code
 * Stencil.gain}): so every label there rests on a way from cell to cell that costs no more than its
 * label and that share, and {@code Trace} finds it ({@code TraceTest} holds both). Barriers are
 * never cut: a step needs every cell it crosses, and through a corner point of cells only if
 * neither cell beside it is a barrier.
 *
 * <p>Where the cost of a cell has a corner between two of the 32 headings (the power takes over
 * from the rated speed, a walker is quickest), the polar speed curve has one too, and only steps in
 * that very direction find it: one more step leads exactly there ({@code PolarCorner}), and what
 * lies between is drawn to it in straight lines. On rolling ground where cells have such a corner
 * on every third edge that is looked at, fronts take about a fifth more time, without corners none.
 *
 * <p>Errors against exact answers are in the validation report: below 0.5 % for discs, refraction,
 * head waves, speed gradients, drift and walls, below 1 % of the area for hulls of polar curves. In
 * the direction of a corner the error is larger, since labels to either side of the way differ by
 * slopes that interpolation between them smears: on planes of up to 15 degrees, 75 cells away,
 * times are up to 3 % too long (0.1 % on average) and nowhere more than 0.5 % too short ({@code
 * SpeedCurveTest}).
 *
 * <h2>Tiles</h2>
 *
 * <p>Since labels do not depend on the order, the grid is cut into tiles of 64 by 64 cells. Of the
 * tiles in which a cell waits, or in whose margin of two cells one has changed, the one with the
 * least such label is run: in the order of labels (inside it the bucket order), up to 64 cells'
 * cost above that label; then the tiles around are told what has changed in their margins. Two
 * neighbouring tiles may run at the same time: what a thread reads of a tile that another writes is
 * an older or a newer label, and it is told of the newer one afterwards. Cells are taken 1.24 times
 * each and tiles run 5 to 6 times. The cost of a cell on a heading is worked out when it is first
 * asked for and kept with the tile while the front passes. Labels of a tile take room when the
 * front first touches it, on the heap or, where they would take more than an eighth of it, in a
 * mapped temporary file. Where the {@link org.scarpway.vehicle.MoveField} itself lies in one,
 * everything that is kept per cell does, and answers are the same to the last bit. (Chacon &amp;
 * Vladimirsky 2012, <i>Fast two-scale methods for Eikonal equations</i>, SIAM J. Sci. Comput.
 * 34(2):A547-A578; Jeong &amp; Whitaker 2008, <i>A fast iterative method for Eikonal equations</i>,
 * SIAM J. Sci. Comput. 30(5):2512-2534.)
 *
 * <p>Places are screened on the graph of 8 neighbours ({@link org.scarpway.reach.AreaScreen}). That
 * problem is answered by sweeps over rows inside tiles ({@code NeighbourSpread}), since a step is
 * so cheap there that keeping an order costs more than repeating steps; a first version of either
 * was timed on one thread before the choice.
 *
 * <h2>Where fronts end</h2>
 *
 * <p>Walks home end at the walker's endurance. The quickest ways out and home go half of the time
 * that a trip may take first; then each goes on where the other has come, as long as both labels
 * together stay within the time and 2 % and 16 cells more ({@code MeetHalfway}). No trip is lost:
 * from any cell on a trip within the time, the quickest way there and the quickest home take no
 * longer than the trip; what is given in addition covers that labels are not exact. Energy,
 * distance and weighted sums are then only asked of the ground so found, since all of a trip lies
 * on it, which also settles cells that ways outside it would leave undecided. Meeting halfway is
 * the bidirectional search of Pohl (1971, <i>Bi-directional search</i>, Machine Intelligence 6),
 * for all ends at once.
 *
 * <p>Corridors go on until the ends of their legs are reached, then through what costs no more than
 * the widest corridor allows (half as much again where a vehicle needs room to turn).
 *
 * <p>What lies beyond is only told apart by whether it has a way at all ({@code ConnectedGround}).
 *
 * <h2>Budgets</h2>
 *
 * <p>Energy is solved reduced by a height potential and put back from the heights at both ends, so
 * a hill driven up and down costs what is lost on it, whatever the gradient estimate. A trip is a
 * way out and a way home; quickest, and where limited least-energy and shortest ways are tried in
 * every pair, with time, energy and distance added up along one and the same way ({@code PathSums}). A
 * cell is surely reached if one such trip, stay included, meets every limit; possibly if each limit
 * alone can be met. Where cells are left undecided, ways of least weighted sums are tried as well,
 * and cells ruled out to which even these cost more than all limits allow together ({@code
 * Refinement}). The battery limits energy and the life support limits time where the vehicle states
 * them.
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
 * are kept ({@code PathSums}), and on the way out whether a stop breaks a limit other than time. Energy
 * is counted as the battery has it: never above full, and every moment's use against the limit.
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
package org.scarpway.reach;
