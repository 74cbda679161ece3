package org.scarpway.terrain;

import org.scarpway.grid.FloatGrid;

/**
 * What the slope of each cell does over realisations of the height error; NaN where the slope is.
 *
 * @param sigmaDeg standard deviation of the slope, with realisations - 1 in the denominator; its
 *     own relative error is about 1 / sqrt(2 realisations)
 * @param biasDeg mean of the slopes less the slope as measured: how much the error of the heights
 *     lifts slopes
 * @param overLimit01 share of the realisations whose slope exceeds the limit
 * @param limitDeg that limit
 * @param realisations how many
 * @param seed they were drawn from
 */
public record SlopeSpread(
    FloatGrid sigmaDeg,
    FloatGrid biasDeg,
    FloatGrid overLimit01,
    double limitDeg,
    int realisations,
    long seed) {}
