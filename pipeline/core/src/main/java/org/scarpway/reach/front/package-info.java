/**
 * Least costs from a source to every cell: the wavefront, its stencil, its tiles, and the ways
 * traced back along it.
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
 * <p>Places are screened on the graph of 8 neighbours ({@link org.scarpway.reach.trip.AreaScreen}).
 * That problem is answered by sweeps over rows inside tiles ({@code NeighbourSpread}), since a step
 * is so cheap there that keeping an order costs more than repeating steps; a first version of
 * either was timed on one thread before the choice.
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
 */
package org.scarpway.reach.front;
