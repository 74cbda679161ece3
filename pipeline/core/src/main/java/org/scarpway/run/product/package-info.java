/** Rasters, layers and tables of a stage as files, and overlays of a job read onto its grid. */
package org.scarpway.run.product;
