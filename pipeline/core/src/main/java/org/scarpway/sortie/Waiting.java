package org.scarpway.sortie;

/**
 * Compares two states at the same stop: one is no worse if the crew, by waiting there, comes to be
 * where the other is with no more hours driven, walks made and energy drawn. That is exact, since
 * whatever the other does next can then be done too, and the crew need not really wait.
 */
final class Waiting {
  private final DayRules rules;
  private final DayClock clock;

  Waiting(Sortie sortie) {
    this.rules = sortie.rules();
    this.clock = new DayClock(sortie.rules(), sortie.home());
  }

  /** The stop at which states are compared from now on. */
  void at(SortieStop stop) {
    clock.standAt(stop.camp(), stop.ways());
  }

  boolean isNoWorse(
      int day,
      double usedS,
      double drivenS,
      int walks,
      double drawnJ,
      int otherDay,
      double otherUsedS,
      double otherDrivenS,
      int otherWalks,
      double otherJ) {
    if (day > otherDay) {
      return false;
    }
    if (day == otherDay) {
      return usedS <= otherUsedS
          && drivenS <= otherDrivenS
          && walks <= otherWalks
          && drawnJ + rules.hotelW() * (otherUsedS - usedS) <= otherJ;
    }
    clock.set(day, usedS, drivenS, walks, drawnJ);
    while (clock.day() < otherDay) {
      if (!clock.night()) {
        return false;
      }
    }
    return clock.drawnJ() + rules.hotelW() * otherUsedS <= otherJ;
  }
}
