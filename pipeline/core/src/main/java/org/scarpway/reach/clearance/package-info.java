/**
 * Computes the width of the open ground: the distance to the nearest barrier, the widest path to
 * each cell (maximum-bottleneck path), and pinch points with the area that is lost if one of them
 * is closed.
 *
 * <p>Widest paths are found by blocks of the lattice in parallel ({@code WidestPaths}), since their
 * widths are written for all connected ground, in reach or not. Within a block the points are
 * grouped into basins by the step to the widest neighbour ({@code WidthBasins}), so that only
 * saddles are sorted, not points; the forests of the blocks, contracted to the points on their
 * rims, and the steps across the rims make one small forest ({@code WidestForest}). Of the discs
 * about all points ({@code BlockDiscs}) only the few that two wider neighbours do not cover are
 * kept. Cells that are left are bits ({@code CoveredCells}): links from each cell to the next that
 * is left took half of the whole time, mostly waiting for memory.
 */
package org.scarpway.reach.clearance;
