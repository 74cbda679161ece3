package org.scarpway.sortie;

/** Tries every ordered subset of the stops, every way and every number of nights before a stop. */
final class EveryOrder {
  private final Sortie sortie;
  private final WaysBack back;
  private double best = Double.NEGATIVE_INFINITY;

  private EveryOrder(Sortie sortie) {
    this.sortie = sortie;
    this.back = new WaysBack(sortie);
  }

  /** Most value of any plan, negative infinity if there is none. */
  static double most(Sortie sortie) {
    EveryOrder all = new EveryOrder(sortie);
    all.from(new DayClock(sortie.rules(), sortie.home()), 0, 0, 0);
    return all.best;
  }

  private void from(DayClock at, int place, int done, double value) {
    int n = sortie.stops().size();
    boolean whole = true;
    for (int j = 1; j <= n; j++) {
      boolean isDone = ((done >> (j - 1)) & 1) != 0;
      whole &= isDone || !sortie.at(j).must();
    }
    boolean ends = place == 0 || back.straightS(at, place) < Double.POSITIVE_INFINITY;
    if (whole && ends && value > best) {
      best = value;
    }
    for (int j = 1; j <= n; j++) {
      if (((done >> (j - 1)) & 1) != 0 || !ready(j, done)) {
        continue;
      }
      for (int way = 0; way < sortie.legs().count(place, j); way++) {
        // Nights at the start, nights before the stop, whether or not they can be of use.
        for (int wait = 0; wait < sortie.rules().days(); wait++) {
          for (int rests = 0; rests < sortie.rules().days(); rests++) {
            DayClock next = copy(at, place);
            boolean ok = true;
            for (int k = 0; ok && k < wait; k++) {
              ok = next.day() + 1 < sortie.rules().days() && next.night();
            }
            ok = ok && next.drive(sortie.legs().way(place, j, way), rests);
            if (ok && next.stop(sortie.at(j)) && home(next, j)) {
              from(next, j, done | (1 << (j - 1)), value + sortie.at(j).value());
            }
          }
        }
      }
    }
  }

  private boolean ready(int j, int done) {
    return sortie.at(j).after().stream().allMatch(a -> ((done >> (a - 1)) & 1) != 0);
  }

  private boolean home(DayClock at, int place) {
    return back.exist(at, place);
  }

  private DayClock copy(DayClock at, int place) {
    DayClock c = new DayClock(sortie.rules(), sortie.home());
    c.set(at.day(), at.usedS(), at.drivenS(), at.walks(), at.drawnJ());
    if (place > 0) {
      c.standAt(sortie.at(place).camp(), sortie.at(place).ways());
    }
    return c;
  }
}
