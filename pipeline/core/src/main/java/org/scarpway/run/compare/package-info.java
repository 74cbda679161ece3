/**
 * Compares finished runs ({@code scarpway compare}): answers side by side, ground gained and lost,
 * and the settings that differ. Reads the products of the runs and nothing else, so that what is
 * compared is what was handed over; the first run is what the others are held against.
 */
package org.scarpway.run.compare;
