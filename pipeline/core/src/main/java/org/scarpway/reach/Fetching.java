package org.scarpway.reach;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * How long it takes until a crew that stops somewhere is home in a like vehicle from the base: the
 * alarm, the quickest way out, loading, and the quickest way home with everybody aboard; the
 * cheapest ways where the quickest take more than the battery of that vehicle holds.
 */
final class Fetching {
  private final ReachLimits limits;
  private final Ground ground;
  private final boolean hasEnergy;
  private final int base;
  private final Workers workers;
  private final Progress progress;

  private record Both(Ways out, Ways home) {}

  private Fetching(
      ReachLimits limits,
      Ground ground,
      boolean hasEnergy,
      int base,
      Workers workers,
      Progress progress) {
    this.limits = limits;
    this.ground = ground;
    this.hasEnergy = hasEnergy;
    this.base = base;
    this.workers = workers;
    this.progress = progress;
  }

  /**
   * Time from a stop in each cell until everybody is home (s), NaN where nobody can be fetched.
   *
   * @param ground with what the vehicle can do when loaded
   */
  static Floats homeS(
      ReachLimits limits,
      Ground ground,
      boolean hasEnergy,
      int base,
      Workers workers,
      Progress progress) {
    return new Fetching(limits, ground, hasEnergy, base, workers, progress).fill();
  }

  private Floats fill() {
    MoveField field = ground.mobility().field();
    int n = field.spec().cells();
    progress.begin("fetching a crew", 2L * n);
    Floats homeS = Floats.of(n, Float.NaN, field.scratch((long) Float.BYTES * n));
    boolean dear = fill(homeS, ways(Quantity.TIME_S, limits.tripS()));
    if (dear) {
      fill(homeS, ways(Quantity.ENERGY_J, Double.POSITIVE_INFINITY));
    }
    progress.end();
    homeS.set(base, 0);
    return homeS;
  }

  /**
   * Fills cells that are not known yet.
   *
   * @return whether some of them take more energy than there is
   */
  private boolean fill(Floats homeS, Both ways) {
    Rescue rescue = limits.rescue();
    boolean dear = false;
    for (int cell = 0; cell < homeS.size(); cell++) {
      // Where there is no way both ways times are NaN.
      double s = rescue.alarmS() + ways.out.timeS(cell) + rescue.loadS() + ways.home.timeS(cell);
      if (!Float.isNaN(homeS.get(cell)) || !(s <= limits.tripS())) {
        continue;
      }
      double energyJ =
          ways.out.energyJ(cell) + limits.hotelW() * rescue.loadS() + ways.home.energyJ(cell);
      double distanceM = ways.out.distanceM(cell) + ways.home.distanceM(cell);
      // Without an energy model the energy is NaN and not limited.
      if (energyJ > limits.energyJ()) {
        dear = true;
      } else if (distanceM <= limits.distanceM()) {
        homeS.set(cell, (float) s);
      }
    }
    return dear;
  }

  private Both ways(Quantity q, double budget) {
    MoveField field = ground.mobility().field();
    Fronts.Spread there = Fronts.begin(field, q, Direction.OUT, budget, progress, base);
    Fronts.Spread back = Fronts.begin(ground.loaded(), q, Direction.HOME, budget, progress, base);
    List<Runnable> help = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      help.add(there::help);
      help.add(back::help);
    }
    workers.all(help);
    return new Both(
        there.labels().ways(ground.heightM(), hasEnergy),
        back.labels().ways(ground.heightM(), hasEnergy));
  }
}
