/**
 * Reads elevation and overlay rasters, with GDAL or in pure Java; both give identical cells and
 * georeference.
 */
package org.scarpway.geodata.raster;
