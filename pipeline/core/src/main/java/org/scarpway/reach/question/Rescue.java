package org.scarpway.reach.question;

/**
 * How a crew whose vehicle has stopped gets aboard another. All of it is our own choice where
 * nobody says otherwise: common practice, no source.
 *
 * @param alarmS from the stop until a vehicle leaves the base (s)
 * @param transferS from the stop of one of a pair until the other leaves with everybody (s)
 * @param loadS from the arrival of a vehicle from the base until it leaves (s)
 * @param personKg of everybody who is taken aboard, suit and tools included
 */
public record Rescue(double alarmS, double transferS, double loadS, double personKg) {}
