/**
 * Which of several sites is best: figures of the ground round each, of what is reached from it and
 * of what that hangs on, a ranking by the user's weights, the Pareto front, and how steady the
 * ranks are. Reads finished terrain, hazard, mobility and reach; computes none of them. And where
 * further candidates may lie: places of a lattice, screened by a quick bound on their reach.
 */
package org.scarpway.site;
