/**
 * Elevation models: from raster files to one grid of heights in metres about a known body, with
 * voids as NaN. Reads through geodata; computes no derivative.
 *
 * <p>A projected file keeps its cells, on its map drawn true to scale where they lie. Degrees, and
 * maps whose scale differs over the ground by more than 0.5 %, are carried over to a transverse
 * Mercator map about the window's centre. What was assumed or changed is told in {@link
 * org.scarpway.dem.Dem#warnings()}; what cannot give a true map is refused.
 */
package org.scarpway.dem;
