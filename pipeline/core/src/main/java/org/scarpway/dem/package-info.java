/**
 * Elevation models: from raster files to one grid of heights in metres about a known body, with
 * voids as NaN. Reads through geodata; computes no derivative.
 */
package org.scarpway.dem;
