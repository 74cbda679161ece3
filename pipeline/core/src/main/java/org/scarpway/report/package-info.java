/**
 * The offline report: maps, tables, plots, sources and cautions from finished results. Computes no
 * result itself.
 */
package org.scarpway.report;
