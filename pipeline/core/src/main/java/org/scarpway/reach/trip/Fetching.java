package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntFunction;
import org.scarpway.reach.front.ConnectedGround;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fronts;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the time until a crew that stops in a cell is home in a vehicle of the same kind from
 * the base: the alarm, the quickest way out, loading, and the quickest way home with everybody
 * aboard. Where these exceed the battery or the distance budget of that vehicle, the quickest
 * feasible pair of the quickest, least-energy and shortest ways is used. From loading on both crews
 * use the life support of that vehicle, which left the base with all of it.
 */
final class Fetching {
  /**
   * Radix of the pair code; larger than the number of quantities (quickest, cheapest, shortest).
   */
  private static final int PER_WAY = 4;

  private final ReachLimits limits;
  private final ReachLimits own;
  private final TraversalInput ground;
  private final boolean hasEnergy;
  private final int base;
  private final Workers workers;
  private final Progress progress;
  private final List<PathSums> out = new ArrayList<>();
  private final List<PathSums> home = new ArrayList<>();
  private Floats homeS;
  private Floats waitS;
  private Bytes pair;
  private Bytes beyond;
  private boolean dear;
  private boolean far;

  /**
   * @param own limits of the vehicle that comes
   * @param stops requirements of a stop in each cell; the time is infinite or NaN where no feasible
   *     rescue is known
   * @param atLeast lower bounds on these requirements over all ways; null if {@code stops} is
   *     already exact
   * @param out ways out of the rescuer that were tried
   * @param home ways home of the loaded rescuer that were tried
   * @param pair per cell, the code of the ways used: PER_WAY * index out + index home
   * @param beyond per cell without a rescue, the code of what the quickest ways exceed
   */
  record Fetched(
      ReachLimits own,
      Stops stops,
      Stops atLeast,
      List<CostField> out,
      List<CostField> home,
      Bytes pair,
      Bytes beyond) {
    /** What leaves a cell without a rescue; null where there is one. */
    IntFunction<ReachEnd> missing() {
      BitSet ways = ConnectedGround.of(out.get(0));
      ways.and(ConnectedGround.of(home.get(0)));
      return cell -> {
        if (!Float.isNaN(stops.homeS().get(cell))) {
          return null;
        }
        if (!ways.get(cell)) {
          return ReachEnd.NO_RESCUER;
        }
        byte code = beyond.get(cell);
        return code == 0 ? stops.limits().lateEnd(0) : ReachEnd.of(code);
      };
    }

    CostField out(int cell) {
      return out.get(pair.get(cell) / PER_WAY);
    }

    /** True if both ways are the quickest. */
    boolean quickest(int cell) {
      return pair.get(cell) == 0;
    }

    CostField home(int cell) {
      return home.get(pair.get(cell) % PER_WAY);
    }
  }

  private Fetching(
      ReachLimits limits,
      ReachLimits own,
      TraversalInput ground,
      boolean hasEnergy,
      int base,
      Workers workers,
      Progress progress) {
    this.limits = limits;
    this.own = own;
    this.ground = ground;
    this.hasEnergy = hasEnergy;
    this.base = base;
    this.workers = workers;
    this.progress = progress;
  }

  /**
   * @param limits limits of the crew that is fetched, which give the time
   * @param own limits of the vehicle that comes: battery, distance and life support
   * @param ground layers including the field of the loaded vehicle
   */
  static Fetched of(
      ReachLimits limits,
      ReachLimits own,
      TraversalInput ground,
      boolean hasEnergy,
      int base,
      Workers workers,
      Progress progress) {
    return new Fetching(limits, own, ground, hasEnergy, base, workers, progress).fill();
  }

  private Fetched fill() {
    TraversalCost field = ground.field();
    int n = field.spec().cells();
    progress.begin("fetching a crew", 2L * n);
    ScratchFile file = field.scratch((2L * Float.BYTES + 2) * n);
    homeS = Floats.of(n, Float.NaN, file);
    waitS = hasEnergy && limits.hotelW() > 0 ? Floats.of(n, Float.NaN, file) : null;
    pair = Bytes.of(n, file);
    beyond = Bytes.of(n, file);
    add(Quantity.TIME_S, limits.tripS());
    fillOpen();
    boolean cheapest = dear;
    boolean shortest = far;
    if (cheapest) {
      add(Quantity.ENERGY_J, Double.POSITIVE_INFINITY);
    }
    if (shortest) {
      add(Quantity.DISTANCE_M, own.distanceM());
    }
    Stops atLeast = null;
    if (cheapest || shortest) {
      fillOpen();
      atLeast = atLeast(cheapest, shortest);
    }
    progress.end();
    set(base, 0, 0);
    return new Fetched(
        own,
        new Stops(limits, homeS, waitS, List.of()),
        atLeast,
        out.stream().map(PathSums::labels).toList(),
        home.stream().map(PathSums::labels).toList(),
        pair,
        beyond);
  }

  /** Fills cells without a value from the quickest pair of ways within all limits. */
  private void fillOpen() {
    for (int cell = 0; cell < homeS.size(); cell++) {
      if (Float.isNaN(homeS.get(cell))) {
        for (int o = 0; o < out.size(); o++) {
          for (int h = 0; h < home.size(); h++) {
            fill(cell, o, h);
          }
        }
      }
    }
  }

  private void fill(int cell, int o, int h) {
    PathSums there = out.get(o);
    PathSums back = home.get(h);
    // Times are NaN where there is no way.
    double fetchedS = fetchedS(there.timeS(cell));
    double s = fetchedS + back.timeS(cell);
    if (!(s <= limits.tripS()) || s >= homeS.get(cell)) {
      return;
    }
    // Where the quickest ways use up too much of it, so do all others.
    if (own.rescuerS(there.timeS(cell), back.timeS(cell)) > own.lifeSupportS()) {
      beyond.set(cell, ReachEnd.RESCUER_LIFE_SUPPORT.code());
      return;
    }
    double loadedJ = there.usedJ(cell) + limits.hotelW() * limits.rescue().loadS();
    double energyJ = Math.max(there.mostJ(cell), back.needJ(cell, loadedJ));
    double distanceM = there.distanceM(cell) + back.distanceM(cell);
    // Without an energy model the energy is NaN and not limited.
    boolean tooDear = energyJ > own.energyJ();
    boolean tooFar = distanceM > own.distanceM();
    dear |= tooDear;
    far |= tooFar;
    if (!tooDear && !tooFar) {
      set(cell, s, fetchedS);
      pair.set(cell, (byte) (PER_WAY * o + h));
    } else if (o == 0 && h == 0) {
      boolean less = energyJ / own.energyJ() < distanceM / own.distanceM();
      ReachEnd end = tooDear && !less ? ReachEnd.RESCUER_ENERGY : ReachEnd.RESCUER_DISTANCE;
      beyond.set(cell, end.code());
    }
  }

  private double fetchedS(double outS) {
    return limits.rescue().alarmS() + outS + limits.rescue().loadS();
  }

  private void set(int cell, double s, double fetchedS) {
    homeS.set(cell, (float) s);
    if (waitS != null) {
      waitS.set(cell, (float) fetchedS);
    }
  }

  /**
   * Computes lower bounds: where the least time, life support, energy and distance of the ways out
   * and home, each by itself, are within the limits, it is not proven that no pair of ways is.
   *
   * @return null if a rescue that meets these bounds is already known for every such cell
   */
  private Stops atLeast(boolean cheapest, boolean shortest) {
    int n = homeS.size();
    ScratchFile file = ground.field().scratch(2L * Float.BYTES * n);
    Floats leastS = Floats.of(n, Float.NaN, file);
    Floats leastWaitS = waitS == null ? null : Floats.of(n, Float.NaN, file);
    int shortestAt = cheapest ? 2 : 1;
    boolean open = false;
    for (int cell = 0; cell < n; cell++) {
      double outS = out.get(0).labels().value(cell);
      double rideS = home.get(0).labels().value(cell);
      double fetchedS = fetchedS(outS);
      double s = fetchedS + rideS;
      boolean may = s <= limits.tripS() && s < Double.POSITIVE_INFINITY;
      may = may && own.rescuerS(outS, rideS) <= own.lifeSupportS();
      if (may && cheapest && leastJ(cell) > own.energyJ()) {
        beyond.set(cell, ReachEnd.RESCUER_ENERGY.code());
        may = false;
      }
      if (may && shortest && leastOf(shortestAt, cell) > own.distanceM()) {
        beyond.set(cell, ReachEnd.RESCUER_DISTANCE.code());
        may = false;
      }
      if (may || cell == base) {
        leastS.set(cell, cell == base ? 0 : (float) s);
        if (leastWaitS != null) {
          leastWaitS.set(cell, cell == base ? 0 : (float) fetchedS);
        }
        // A quicker pair of ways than the one found may also be within the limits.
        open |= cell != base && !(homeS.get(cell) <= (float) s);
      }
    }
    return open ? new Stops(limits, leastS, leastWaitS, List.of()) : null;
  }

  private double leastOf(int way, int cell) {
    return out.get(way).labels().value(cell) + home.get(way).labels().value(cell);
  }

  private double leastJ(int cell) {
    return leastJ(ground, limits, out.get(1).labels(), home.get(1).labels(), base, cell);
  }

  /**
   * Least energy of a rescue from a cell (J).
   *
   * @param out least energy of the way out
   * @param home least energy of the way home with everybody aboard
   */
  static double leastJ(
      TraversalInput ground,
      ReachLimits limits,
      CostField out,
      CostField home,
      int base,
      int cell) {
    float baseM = ground.heightM().get(base);
    float cellM = ground.heightM().get(cell);
    return out.value(cell)
        + home.value(cell)
        + out.costs().heightTermJ(baseM, cellM)
        + home.costs().heightTermJ(baseM, cellM)
        + limits.hotelW() * limits.rescue().loadS();
  }

  private void add(Quantity q, double budget) {
    TraversalCost field = ground.field();
    Fronts.Spread there = Fronts.begin(field, q, Direction.OUT, budget, progress, base);
    Fronts.Spread back = Fronts.begin(ground.loaded(), q, Direction.HOME, budget, progress, base);
    List<Runnable> help = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      help.add(there::work);
      help.add(back::work);
    }
    workers.all(help);
    out.add(KeptSums.along(q, there.labels(), ground.heightM(), hasEnergy));
    home.add(KeptSums.along(q, back.labels(), ground.heightM(), hasEnergy));
  }
}
