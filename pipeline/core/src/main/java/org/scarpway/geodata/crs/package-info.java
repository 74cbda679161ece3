/**
 * Coordinate reference systems: their text (OGC WKT), what their coordinates mean on any body, and
 * the transformations between datums. Reads no raster.
 */
package org.scarpway.geodata.crs;
