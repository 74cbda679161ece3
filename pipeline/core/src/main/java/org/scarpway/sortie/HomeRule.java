package org.scarpway.sortie;

/**
 * How the crew comes home if the vehicle fails. With every kind the crew can also drive home from
 * every stop by the end of the last day; by {@code PAIR} and {@code BASE_RESCUE} everybody is home
 * by then after a failure too.
 *
 * @param kind which rule
 * @param transferS pair: time to change vehicles (s)
 * @param alarmS base-rescue: time from the failure to the departure of the rescuers (s)
 * @param loadS base-rescue: time to take the crew aboard (s)
 * @param byNight base-rescue: whether the rescuers drive day and night; otherwise they keep to the
 *     hours of a day
 */
public record HomeRule(Kind kind, double transferS, double alarmS, double loadS, boolean byNight) {
  /** No rule but the way home of the vehicle itself. */
  public static final HomeRule DRIVE_BACK = new HomeRule(Kind.DRIVE_BACK, 0, 0, 0, false);

  /** Kinds of home rule. */
  public enum Kind {
    /** The vehicle drives home. */
    DRIVE_BACK,
    /**
     * The crew walks to a refuge: every place is within its endurance on foot, and time since the
     * start plus the walk is within life support.
     */
    WALK_BACK,
    /**
     * A second vehicle is in company; both crews drive home in it and use its life support: time
     * since the start plus twice the time until they are home, by the clock, is within it. They
     * drive in the first hours of each day, spend nights wherever they stand, and have the battery
     * as drawn by then. Where it does not last all the way, they wait for the night before they
     * leave, and that day counts twice from its first hour.
     */
    PAIR,
    /**
     * Rescuers come from the base: time since the start, alarm, way out, loading and way home are
     * within life support; so are the rescuers' own way out and twice their time from loading on.
     * Until the crew is aboard, the load of the parked vehicle is drawn without any charge.
     */
    BASE_RESCUE
  }
}
