/**
 * Computes the width of the open ground: the distance to the nearest barrier, the widest path to
 * each cell (maximum-bottleneck path), and pinch points with the area that is lost if one of them
 * is closed.
 */
package org.scarpway.reach.clearance;
