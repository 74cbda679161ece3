/**
 * Polygons and layers: GeoPackage and GeoJSON in and out, checked for validity, outlines of cells.
 */
package org.scarpway.geodata.vector;
