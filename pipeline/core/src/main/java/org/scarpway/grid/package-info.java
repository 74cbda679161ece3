/**
 * Cell grids and their georeference, the 32 headings, and planetary bodies, on plain arrays.
 * Depends on no file format and no stage.
 */
package org.scarpway.grid;
