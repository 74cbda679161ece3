package org.scarpway.terrain;

import org.scarpway.grid.FloatGrid;

/**
 * Statistics of the slope of each cell over realisations of the height error; NaN where the slope
 * is NaN.
 *
 * @param sigmaDeg standard deviation of the slope, with realisations - 1 in the denominator; its
 *     own relative error is about 1 / sqrt(2 realisations)
 * @param biasDeg mean of the slopes less the measured slope: the bias caused by the height error
 * @param overLimit01 share of the realisations whose slope exceeds the limit
 * @param limitDeg the limit (deg)
 * @param realisations number of realisations
 * @param seed seed of the random numbers
 */
public record SlopeSpread(
    FloatGrid sigmaDeg,
    FloatGrid biasDeg,
    FloatGrid overLimit01,
    double limitDeg,
    int realisations,
    long seed) {}
