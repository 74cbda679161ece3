/**
 * Reads and writes rasters, vectors and tables, and interprets coordinate reference systems. The
 * only package that uses GDAL, GeoTools or SQLite or knows a file format. Subpackages, each
 * depending only on those before it: {@code projection}, {@code crs}, {@code file}, {@code tiff},
 * {@code raster}, {@code vector}, {@code table}.
 */
package org.scarpway.geodata;
