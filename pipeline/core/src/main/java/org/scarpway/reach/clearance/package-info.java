/**
 * How wide the open ground is: distance to the nearest barrier, the widest path to each cell
 * (maximum-bottleneck path), and pinch points with what closing each would cost.
 */
package org.scarpway.reach.clearance;
