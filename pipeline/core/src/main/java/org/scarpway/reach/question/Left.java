package org.scarpway.reach.question;

/**
 * What a crew that is underway has left, reserves included. Null for a quantity that nothing
 * limits.
 *
 * @param timeS time (s)
 * @param energyJ energy in the battery (J)
 * @param distanceM distance (m)
 * @param lifeSupportS life support, that of the suits where the crew rides in suits (s)
 */
public record Left(Double timeS, Double energyJ, Double distanceM, Double lifeSupportS) {}
