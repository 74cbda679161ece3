/**
 * How far a mover gets and still comes home, and where its route should be drawn: accumulated time,
 * energy and distance, home rules, corridors.
 */
package org.scarpway.reach;
