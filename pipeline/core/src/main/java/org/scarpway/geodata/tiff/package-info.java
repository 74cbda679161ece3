/**
 * GeoTIFF at byte level: tags, tiles, geographic keys, and cloud-optimised files written row by
 * row.
 */
package org.scarpway.geodata.tiff;
