/** The files of a stage (rasters, layers, tables), and overlays of a job read onto its grid. */
package org.scarpway.run.product;
