package org.scarpway.audit;

/**
 * The limits that a trip must meet at every moment.
 *
 * @param onFoot time limit of one walk
 * @param rescuer life support of a vehicle that comes
 * @param hotelW electrical load while the vehicle stands (W)
 */
public record Limits(
    Limit time,
    Limit lifeSupport,
    Limit energy,
    Limit distance,
    Limit onFoot,
    Limit rescuer,
    double hotelW) {}
