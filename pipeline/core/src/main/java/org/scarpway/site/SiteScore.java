package org.scarpway.site;

/**
 * A candidate in the ranking.
 *
 * @param figures figures of the candidate
 * @param rank 1 is best
 * @param score01 weighted mean of the figures, each scaled to 0 for the worst candidate and 1 for
 *     the best; it is meaningful only relative to the other candidates
 * @param onParetoFront true if no other candidate is at least as good in every weighted figure and
 *     better in one
 */
public record SiteScore(SiteFigures figures, int rank, double score01, boolean onParetoFront) {}
