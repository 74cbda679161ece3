/**
 * Drives trips again that others found: piece by piece through the cells that a way crosses, with
 * the vehicle's limits and costs of each cell and the heights, and holds what is left of every
 * budget at every moment against what the home rule needs from there. It knows nothing of how ways
 * are found, so that what it confirms rests on no front. Reads a {@link
 * org.scarpway.vehicle.MoveField}, heights and the ways; SI units; finds out which rule a trip
 * breaks first, where, and how much is left of each limit at the worst moment.
 */
package org.scarpway.audit;
