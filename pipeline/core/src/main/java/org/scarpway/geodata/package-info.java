/**
 * Rasters, vectors, tables and coordinate reference systems on disk. The only package that names
 * GDAL, GeoTools or a file format. Rooms, each knowing only those before it: {@code projection},
 * {@code crs}, {@code file}, {@code tiff}, {@code raster}, {@code vector}, {@code table}.
 */
package org.scarpway.geodata;
