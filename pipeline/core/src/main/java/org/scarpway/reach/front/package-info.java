/**
 * Computes the accumulated cost surface, the least cost from a source to every cell: the wavefront,
 * its stencil, its tiles, and the least-cost paths traced back from it.
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
 * tacking needs no rule of its own, because a path may alternate between headings), and each update
 * is a minimum of sums with fixed weights, monotone to the last bit. A label is also kept above
 * both labels from which it is computed, so that labels depend on smaller ones only. There is
 * therefore one largest solution, and every order of updates reaches it bit for bit. Label setting
 * in exact order is not needed; a coarse bucket order with label corrections suffices (Dial 1969).
 *
 * <p>The wide ring is used for accuracy: interpolation along a front of radius r has an error of
 * about {@code d^2 / 12 r} per step (d the spacing on the ring), so longer steps have a smaller
 * error and finer headings. A ring at two cells still resolves the detail of the ground. Around a
 * source the cost of straight paths is computed exactly, since a single-cell source alone causes a
 * first-order error. A heading limit takes effect at the next of the 32 headings on the safe side:
 * directions between an allowed and a barred heading are not allowed, unless both lie between two
 * allowed headings less than half a turn apart: then the vehicle alternates between those two, at
 * their cost ({@code Tack}). Near barred headings a step that ends between cells may cost at most
 * 5.2 % (square cells) less than the path through one of those cells ({@code Stencil.gain}). Every
 * label there is therefore backed by a path from cell to cell that costs no more than the label
 * plus that share, and {@code Trace} finds that path ({@code TraceTest} checks both). A step never
 * cuts a barrier: every cell that it crosses must be allowed, and it passes through a corner point
 * of cells only if neither cell beside the point is a barrier.
 *
 * <p>Where the cost of a cell has a corner between two of the 32 headings (the speed becomes
 * limited by power instead of the rated speed, or a walker is quickest), the polar speed curve has
 * a corner too, and only a step in exactly that direction evaluates it. One more step is therefore
 * evaluated in that direction ({@code PolarCorner}), and costs between it and the neighbouring
 * headings are interpolated linearly. On rolling ground where every third edge that is evaluated
 * has such a corner, fronts take about a fifth more time; without corners they take no more.
 *
 * <p>Errors against exact answers are in the validation report: below 0.5 % for discs, refraction,
 * head waves, speed gradients, drift and walls, below 1 % of the area for hulls of polar curves. In
 * the direction of a corner the error is larger, since the slope of the labels differs on the two
 * sides of the path and interpolation smooths that out: on planes of up to 15 degrees, 75 cells
 * away, times are up to 3 % too long (0.1 % on average) and nowhere more than 0.5 % too short
 * ({@code SpeedCurveTest}).
 *
 * <h2>Tiles</h2>
 *
 * <p>Since labels do not depend on the order of updates, the grid is divided into tiles of 64 by 64
 * cells. A tile is due if one of its cells is queued or a cell in its halo of two cells has
 * changed. The due tile with the least such label is run next: its cells are expanded in bucket
 * order, up to 64 cells' cost above that label; then the neighbouring tiles are notified of changes
 * in their halos. Two neighbouring tiles may run at the same time: a thread that reads a label of a
 * tile that another thread writes reads either the older or the newer value, and is notified of the
 * newer one afterwards. Each cell is expanded 1.24 times and each tile is run 5 to 6 times on
 * average. The costs of a tile on all headings are computed when the front first enters it ({@code
 * CostRow}) and cached for all fronts of that quantity on that field, in both directions ({@code
 * GroundStore}). The labels of a tile are allocated when the front first reaches it, on the heap
 * or, where they would take more than an eighth of it, in a mapped temporary file. Where the {@link
 * org.scarpway.vehicle.TraversalCost} itself lies in a mapped file, all values per cell do, and
 * results are identical to the last bit. (Chacon &amp; Vladimirsky 2012, <i>Fast two-scale methods
 * for Eikonal equations</i>, SIAM J. Sci. Comput. 34(2):A547-A578; Jeong &amp; Whitaker 2008, <i>A
 * fast iterative method for Eikonal equations</i>, SIAM J. Sci. Comput. 30(5):2512-2534.)
 *
 * <p>A front on rolling ground takes about 600 ns of processor time per cell if it is the first of
 * its quantity on a field, 480 ns if the costs of its tiles are still cached (on rough ground 950
 * and 800; {@code FrontSpeed} in the tests prints them). Costs of a cell on 32 headings take 77 ns
 * by time and 92 ns by energy in loops over the cells of a row (120 and 175 ns without vector
 * instructions). What did not help: costs of a cell in one loop over the headings (75 to 95 and 122
 * ns; as a whole no faster than computing single costs on first use); {@code Math.max} for single
 * cells (165 ns); storing costs by cell, then heading, instead of by heading, then cell (no
 * difference); bounds on steps from a cell's own costs; tiles of 32 or 128 cells; buckets of a 16th
 * to a half of a cell's cost; an evaluation of steps when their first cell is expanded; bounds on
 * the steps to an edge with a corner before the cost at the corner is known. Not tried: evaluating
 * all pending steps of a cell together when it is next in the queue, by a lower bound of its label.
 *
 * <p>Places are screened on the graph of 8 neighbours ({@link org.scarpway.reach.trip.AreaScreen}).
 * That problem is solved by sweeps over rows inside tiles ({@code NeighbourSpread}): a step is so
 * cheap there that maintaining an order costs more than repeating steps. A first version of each
 * was timed on one thread before this choice.
 *
 * <h2>Where fronts end</h2>
 *
 * <p>Fronts of walks home end at the walker's endurance. The time fronts out and home each first
 * cover half of the trip's time limit. Each then continues only in cells that the other has
 * reached, as long as the sum of both labels stays within the limit plus a margin of 2 % and 16
 * cells' cost ({@code MeetHalfway}). No trip is lost: from any cell on a trip within the limit, the
 * quickest path out plus the quickest path home take no longer than the trip; the margin covers the
 * discretisation error of labels. Energy, distance and weighted sums are then computed only on the
 * cells so found, since every cell of a trip is among them; this also decides cells that paths
 * outside them would leave undecided. This is bidirectional search (Pohl 1971, <i>Bi-directional
 * search</i>, Machine Intelligence 6), for all end points at once.
 *
 * <p>Corridor fronts continue until the ends of their legs are reached, then through all cells
 * whose cost is within the widest corridor (where a vehicle needs room to turn, at least up to 1.5
 * times the leg's best cost).
 *
 * <p>Weighted sums go only as far as the cells that are still undecided, the targets and the trips
 * that are recalculated: a label depends on smaller ones only, so these are the labels of the whole
 * front. Targets far away make it go nearly as far as the whole one.
 *
 * <p>For cells beyond these bounds the only distinction made is whether any path leads there
 * ({@code ConnectedGround}).
 *
 * <h2>Kept fronts</h2>
 *
 * <p>Fronts are kept by content ({@code KeptFronts}), within a run and between runs. A front to a
 * smaller cost is cut from a kept one. A larger one continues it: kept labels are final, and only
 * those beside cells without a label are expanded again. If some cells may not be entered any more,
 * the labels that depend on theirs are dropped ({@code DependentLabels}). If the ground differs in
 * few tiles ({@code GroundTiles}), so are those in them and around, whose steps look at that
 * ground, and all that depend on these; none is repaired whose source lies there. All others are
 * costs of unbroken chains of steps, so no smaller than the new labels, and updates from any such
 * labels reach the one largest solution: kept, continued and repaired fronts equal those made anew
 * to the last bit.
 */
package org.scarpway.reach.front;
