/**
 * Elevation and overlay rasters opened for reading, by GDAL or by pure Java, whose cells and places
 * are the same.
 */
package org.scarpway.geodata.raster;
