package org.scarpway.sortie;

import java.util.List;

/** The plainest bound: all stops that are left. */
record AllLeft(List<SortieStop> stops) implements ToGo {
  @Override
  public double mostValue(long done, int last, DayClock state) {
    double most = 0;
    for (int k = 0; k < stops.size(); k++) {
      most += (done >>> k & 1) == 0 ? stops.get(k).value() : 0;
    }
    return most;
  }
}
