package org.scarpway.sortie;

/**
 * Ways home from a stop in the middle of a plan: straight, or, with nights at camps only, from camp
 * to camp. Of two ways to a camp the earlier one is kept.
 */
final class WaysBack {
  private final Sortie sortie;
  private final DayClock probe;
  private final DayClock[] at;
  private final boolean[] done;

  WaysBack(Sortie sortie) {
    int n = sortie.stops().size();
    this.sortie = sortie;
    this.probe = new DayClock(sortie.rules(), sortie.home());
    this.at = new DayClock[n + 1];
    this.done = new boolean[n + 1];
  }

  /** When the crew is home if it drives straight home (s by the clock), infinite if it cannot. */
  double straightS(DayClock from, int place) {
    double least = Double.POSITIVE_INFINITY;
    for (int way = 0; way < sortie.legs().count(place, 0); way++) {
      least = Math.min(least, straightS(from, place, way));
    }
    return least;
  }

  /** The same on one of the ways. */
  double straightS(DayClock from, int place, int way) {
    return drives(from, place, 0, way) ? probe.clockS() : Double.POSITIVE_INFINITY;
  }

  private boolean drives(DayClock from, int place, int to, int way) {
    probe.set(from.day(), from.usedS(), from.drivenS(), from.walks(), from.drawnJ());
    stand(probe, place);
    return probe.drive(sortie.legs().way(place, to, way));
  }

  private void stand(DayClock clock, int place) {
    if (place == 0) {
      clock.standAt(true, WaysHome.AT_HOME);
    } else {
      clock.standAt(sortie.at(place).camp(), sortie.at(place).ways());
    }
  }

  /** Whether the crew can come home by the end of the last day. */
  boolean exist(DayClock from, int place) {
    if (straightS(from, place) < Double.POSITIVE_INFINITY) {
      return true;
    }
    if (!sortie.rules().campsOnly()) {
      return false;
    }
    for (int k = 0; k < at.length; k++) {
      at[k] = null;
      done[k] = false;
    }
    reach(from, place);
    for (int next = earliest(); next > 0; next = earliest()) {
      done[next] = true;
      if (straightS(at[next], next) < Double.POSITIVE_INFINITY) {
        return true;
      }
      reach(at[next], next);
    }
    return false;
  }

  private int earliest() {
    int next = 0;
    for (int k = 1; k < at.length; k++) {
      boolean open = at[k] != null && !done[k];
      next = open && (next == 0 || at[k].clockS() < at[next].clockS()) ? k : next;
    }
    return next;
  }

  private void reach(DayClock from, int place) {
    for (int k = 1; k < at.length; k++) {
      for (int way = 0; way < sortie.legs().count(place, k); way++) {
        if (sortie.at(k).camp()
            && !done[k]
            && drives(from, place, k, way)
            && (at[k] == null || probe.clockS() < at[k].clockS())) {
          DayClock there = new DayClock(sortie.rules(), sortie.home());
          there.set(probe.day(), probe.usedS(), probe.drivenS(), probe.walks(), probe.drawnJ());
          at[k] = there;
        }
      }
    }
  }
}
