package org.scarpway.reach.question;

/**
 * Times and loads of transferring a crew from a stopped vehicle to another. All defaults are the
 * project's own choice: common practice, no source.
 *
 * @param alarmS time from the stop until a vehicle leaves the base (s)
 * @param transferS time from the stop of one vehicle of a pair until the other leaves with
 *     everybody (s)
 * @param loadS time from the arrival of a vehicle from the base until it leaves (s)
 * @param personKg mass of each person taken aboard, suit and tools included (kg)
 */
public record Rescue(double alarmS, double transferS, double loadS, double personKg) {}
