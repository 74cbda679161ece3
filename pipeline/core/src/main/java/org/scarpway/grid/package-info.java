/**
 * Where a cell is and what it holds: cell grids, headings and bodies, on plain arrays. Knows no
 * file and no stage.
 */
package org.scarpway.grid;
