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
 * @param second name of the other vehicle of a pair; empty if it is of the same kind
 * @param breathing life support that everybody in one vehicle of a pair uses, in units of its own
 *     crew: 2 for two equal crews
 */
public record Rescue(
    double alarmS,
    double transferS,
    double loadS,
    double personKg,
    String second,
    double breathing) {

  /** With another vehicle of the same kind. */
  public Rescue(double alarmS, double transferS, double loadS, double personKg) {
    this(alarmS, transferS, loadS, personKg, "", 2);
  }

  /** Returns the same with another vehicle in the pair. */
  public Rescue with(String other, double breathes) {
    return new Rescue(alarmS, transferS, loadS, personKg, other, breathes);
  }
}
