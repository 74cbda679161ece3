package org.scarpway.sortie;

/**
 * One line of a timetable.
 *
 * @param what what the crew does
 * @param from place where it was last, 0 for the base
 * @param to place that it drives to, or where it is; a night on the way has {@code to} unlike
 *     {@code from}
 * @param way which of the ways between them, -1 at a place
 * @param fromS start (s after the start of the trip, by the clock)
 * @param toS end (s)
 * @param alongS driving time since the start of the leg at its end (s)
 * @param fromJ energy drawn from the full battery at its start (J)
 * @param toJ energy drawn at its end (J)
 * @param worstJ most energy drawn meanwhile, the worst place of the ground included (J)
 * @param walks walks made in it
 */
public record Act(
    Doing what,
    int from,
    int to,
    int way,
    double fromS,
    double toS,
    double alongS,
    double fromJ,
    double toJ,
    double worstJ,
    int walks) {
  /** Day on which it begins, 0 for the first. */
  public int day() {
    return (int) Math.floor(fromS / DayRules.DAY_S);
  }
}
