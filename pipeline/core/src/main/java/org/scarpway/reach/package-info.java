/**
 * How far a mover gets and still comes home, and where its route should be drawn: accumulated time,
 * energy and distance, home rules, corridors. Reads a {@link org.scarpway.vehicle.MoveField} and
 * heights; SI units; writes grids, ways and figures. Reads no file, knows no job.
 *
 * <p>Rooms, each knowing only those before it: {@code question} (what is asked and answered),
 * {@code front} (least costs from a source to every cell), {@code clearance} (how wide the ground
 * is and where it is narrow), {@code corridor} (routes between stops), {@code trip} (out and home
 * within budgets and the home rule), {@code survey} (figures of a route).
 */
package org.scarpway.reach;
