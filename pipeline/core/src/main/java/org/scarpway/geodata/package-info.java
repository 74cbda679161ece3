/**
 * Rasters, vectors, tables and coordinate reference systems on disk. The only package that names
 * GDAL, GeoTools or a file format.
 */
package org.scarpway.geodata;
