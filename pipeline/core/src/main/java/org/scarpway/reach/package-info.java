/**
 * Computes how far a vehicle can drive and still come home, and where its route should be drawn:
 * accumulated cost surfaces of time, energy and distance, reachable areas under a home rule, and
 * least-cost corridors. Reads a {@link org.scarpway.vehicle.TraversalCost} and heights, returns
 * grids, paths and summary figures, all in SI units. Reads no file and does not depend on the job
 * configuration.
 *
 * <p>Subpackages, each depending only on those before it: {@code question} (requests and results),
 * {@code front} (least cost from a source to every cell), {@code clearance} (width of the open
 * ground and its bottlenecks), {@code corridor} (routes between stops), {@code trip} (round trips
 * within the budgets and the home rule), {@code survey} (grades and curves of a route).
 */
package org.scarpway.reach;
