/**
 * The offline report: maps, tables, plots, sources and cautions from finished results, in one HTML
 * file that makes no network request. Reads the results of the earlier stages, writes one file.
 * Counts cells into areas and draws; computes no result itself.
 *
 * <p>Images contain no text: every word on a map is HTML, so that the same results give the same
 * bytes whatever fonts a machine has.
 *
 * <p>Sections and the layers of the map are made side by side. Packing the layers takes longest: a
 * layer whose cells are those of an earlier run is taken from the store.
 */
package org.scarpway.report;
