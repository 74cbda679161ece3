/**
 * Computes routes from stop to stop: the order of visits, the least-cost corridor (cells through
 * which a path costs little more than the best one), its centreline with the vehicle's turning
 * radius respected, alternative routes, and trade-offs between time, energy and hazard.
 */
package org.scarpway.reach.corridor;
