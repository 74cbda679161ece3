/**
 * Elevation models: raster files are combined into one grid of heights in metres on a known body,
 * with voids as NaN. Reads through geodata; computes no derivative.
 *
 * <p>A projected file keeps its cells, on its own map rescaled to be true to scale in its area.
 * Files in degrees, and maps whose scale varies over the area by more than 0.5 %, are resampled to
 * a transverse Mercator map centred on the window. Assumptions and changes are reported in {@link
 * org.scarpway.dem.Dem#warnings()}; input that cannot give a true map is refused.
 */
package org.scarpway.dem;
