/**
 * Terrain hazards for a vehicle other than slope alone: rocks, keep-out areas and their margins,
 * gaps that are too narrow, and pockets without room to turn. Computes a hazard from 0 to 1 with
 * its causes.
 */
package org.scarpway.hazard;
