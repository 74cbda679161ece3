/**
 * Recalculates trips and sorties of several days independently of the solver that found them: piece
 * by piece through the cells that a way crosses, with the heights and the vehicle's limits and
 * costs of each cell. At every moment it compares what is left of each budget with what the home
 * rule requires from there. It does not depend on how ways are found, so its confirmation does not
 * rest on any front. Reads a {@link org.scarpway.vehicle.TraversalCost}, heights and the ways, in
 * SI units; reports which rule a trip breaks first, where, and how much is left of each limit at
 * the worst moment.
 */
package org.scarpway.audit;
