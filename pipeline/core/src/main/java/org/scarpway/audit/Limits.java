package org.scarpway.audit;

/**
 * What a trip is held against at every moment.
 *
 * @param onFoot of one walk
 * @param hotelW load while the vehicle stands (W)
 */
public record Limits(
    Limit time, Limit lifeSupport, Limit energy, Limit distance, Limit onFoot, double hotelW) {}
