/**
 * Site comparison and site search. The comparison computes figures of the ground around each site,
 * of the reach from it and of the passages that the reach depends on, a ranking by the user's
 * weights, the Pareto front, and the stability of the ranks. It reads finished terrain, hazard,
 * mobility and reach results and computes none of them. The search proposes further candidates:
 * places of a lattice, screened by a fast upper bound on their reach.
 */
package org.scarpway.site;
