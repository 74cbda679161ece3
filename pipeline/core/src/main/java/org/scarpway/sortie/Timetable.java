package org.scarpway.sortie;

import java.util.ArrayList;
import java.util.List;

/** Drives a plan by the clock and writes down what is done when. */
public final class Timetable {
  private final Sortie sortie;
  private final DayClock clock;
  private final List<Act> acts = new ArrayList<>();
  private int from;
  private int to;
  private int way = -1;
  private int walks;

  private Timetable(Sortie sortie) {
    this.sortie = sortie;
    this.clock = new DayClock(sortie.rules(), sortie.home());
    clock.tell(this::write);
  }

  /**
   * The acts of a plan in order of time.
   *
   * @throws IllegalStateException if the plan breaks a rule of the clock
   */
  public static List<Act> of(Sortie sortie, List<Visit> visits) {
    Timetable t = new Timetable(sortie);
    for (Visit v : visits) {
      if (!t.go(v)) {
        throw new IllegalStateException("the plan cannot be driven to place " + v.place());
      }
    }
    return t.acts;
  }

  private boolean go(Visit v) {
    to = v.place();
    way = v.way();
    walks = 0;
    if (!clock.drive(sortie.legs().way(from, to, way), v.restNights())) {
      return false;
    }
    from = to;
    way = -1;
    if (to == 0) {
      return true;
    }
    SortieStop s = sortie.at(to);
    walks = s.walks();
    return clock.stop(s);
  }

  private void write(
      Doing what,
      double fromS,
      double toS,
      double fromJ,
      double toJ,
      double worstJ,
      double alongS) {
    // A night before any driving is spent at the place of departure.
    boolean atPlace = way < 0 || (what == Doing.NIGHT && alongS == 0);
    int made = what == Doing.STAY ? walks : 0;
    acts.add(
        new Act(
            what,
            from,
            atPlace ? from : to,
            atPlace ? -1 : way,
            fromS,
            toS,
            alongS,
            fromJ,
            toJ,
            worstJ,
            made));
  }
}
