package org.scarpway.site;

/**
 * A candidate in the ranking.
 *
 * @param rank 1 is best
 * @param score01 weighted mean of the figures, each scaled to 0 for the worst candidate and 1 for
 *     the best; it compares these candidates only and means nothing by itself
 * @param onParetoFront no other candidate is at least as good in every weighted figure and better
 *     in one
 */
public record SiteScore(SiteFigures figures, int rank, double score01, boolean onParetoFront) {}
