/**
 * Vector data: reads and validates polygons from GeoPackage and GeoJSON, writes layers in both
 * formats, and traces sets of cells as polygons.
 */
package org.scarpway.geodata.vector;
