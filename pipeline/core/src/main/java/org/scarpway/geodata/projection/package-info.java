/**
 * Map projections on a sphere or an ellipsoid of revolution: closed forms and series from the
 * literature, free of allocation per point. No text, no file, no datum.
 */
package org.scarpway.geodata.projection;
