/**
 * GeoTIFF by bytes: tags, tiles, the geographic keys, and cloud-optimised files written row by row.
 */
package org.scarpway.geodata.tiff;
