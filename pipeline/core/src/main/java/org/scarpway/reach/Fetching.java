package org.scarpway.reach;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
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
  private Floats homeS;
  private Floats waitS;

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
   * What a stop anywhere asks for; infinite times where nobody can be fetched.
   *
   * @param ground with what the vehicle can do when loaded
   */
  static Stops stops(
      ReachLimits limits,
      Ground ground,
      boolean hasEnergy,
      int base,
      Workers workers,
      Progress progress) {
    return new Fetching(limits, ground, hasEnergy, base, workers, progress).fill();
  }

  private Stops fill() {
    MoveField field = ground.mobility().field();
    int n = field.spec().cells();
    progress.begin("fetching a crew", 2L * n);
    ScratchFile file = field.scratch(2L * Float.BYTES * n);
    homeS = Floats.of(n, Float.NaN, file);
    waitS = hasEnergy && limits.hotelW() > 0 ? Floats.of(n, Float.NaN, file) : null;
    boolean dear = fill(ways(Quantity.TIME_S, limits.tripS()));
    if (dear) {
      fill(ways(Quantity.ENERGY_J, Double.POSITIVE_INFINITY));
    }
    progress.end();
    set(base, 0, 0);
    return new Stops(limits, homeS, waitS, List.of());
  }

  /**
   * Fills cells that are not known yet.
   *
   * @return whether some of them take more energy than there is
   */
  private boolean fill(Both ways) {
    Rescue rescue = limits.rescue();
    boolean dear = false;
    for (int cell = 0; cell < homeS.size(); cell++) {
      // Where there is no way both ways times are NaN.
      double fetchedS = rescue.alarmS() + ways.out.timeS(cell) + rescue.loadS();
      double s = fetchedS + ways.home.timeS(cell);
      if (!Float.isNaN(homeS.get(cell)) || !(s <= limits.tripS())) {
        continue;
      }
      double loadedJ = ways.out.usedJ(cell) + limits.hotelW() * rescue.loadS();
      double energyJ = Math.max(ways.out.mostJ(cell), ways.home.needJ(cell, loadedJ));
      double distanceM = ways.out.distanceM(cell) + ways.home.distanceM(cell);
      // Without an energy model the energy is NaN and not limited.
      if (energyJ > limits.energyJ()) {
        dear = true;
      } else if (distanceM <= limits.distanceM()) {
        set(cell, s, fetchedS);
      }
    }
    return dear;
  }

  private void set(int cell, double s, double fetchedS) {
    homeS.set(cell, (float) s);
    if (waitS != null) {
      waitS.set(cell, (float) fetchedS);
    }
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
        Ways.along(there.labels(), ground.heightM(), hasEnergy),
        Ways.along(back.labels(), ground.heightM(), hasEnergy));
  }
}
