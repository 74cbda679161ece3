/**
 * Which of several sites is best: figures of the ground round each, of what is reached from it and
 * of what that hangs on, a ranking by the user's weights, the Pareto front, and how steady the
 * ranks are. Reads finished terrain, hazard, mobility and reach; computes none of them.
 */
package org.scarpway.site;
