package org.scarpway.sortie;

/** Receives what happens, for a timetable. */
@FunctionalInterface
public interface DayLog {
  /**
   * Something was done.
   *
   * @param what what
   * @param fromS start (s after the start of the trip, by the clock)
   * @param toS end (s)
   * @param fromJ energy drawn at its start (J)
   * @param toJ energy drawn at its end (J)
   * @param worstJ most that was drawn meanwhile (J)
   * @param drivenS driving time since the start of the leg at its end (s), 0 at a stop
   */
  void did(
      Doing what,
      double fromS,
      double toS,
      double fromJ,
      double toJ,
      double worstJ,
      double drivenS);
}
