/**
 * Coordinate reference systems on any body: parsing and writing of OGC WKT, conversion between map
 * coordinates and longitude and latitude, and transformations between datums. Reads no raster.
 */
package org.scarpway.geodata.crs;
