package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachState;

/**
 * Checks a cell against every budget and the home rule. Every pair of a known way out and a known
 * way home is a trip that can be driven. A cell is surely reached if one such trip meets every
 * limit; it is possibly reached if the least amount of each quantity meets its own budget and
 * nothing rules out that all are met together. One instance per thread.
 */
final class BudgetCheck {
  /** Share used that stands for an infeasible requirement. */
  private static final double FAR_OVER = 1e9;

  /** Ends of the limits that are checked; the first is that of stops on the way. */
  private static final ReachEnd[] CHECKED = {
    null, ReachEnd.TIME, ReachEnd.ENERGY, ReachEnd.DISTANCE, ReachEnd.LIFE_SUPPORT
  };

  private final ReachLimits limits;
  private final FoundWays solved;
  private final Refinement more;
  private final List<PathSums> outWays;
  private final List<PathSums> homeWays;
  private final double[] use = new double[CHECKED.length];

  /** Least share of each limit that a known trip to the last cell uses. */
  private final double[] leastUse = new double[CHECKED.length];

  private final double[] total = new double[Quantity.values().length];

  /** State code of the last cell checked. */
  byte state;

  /** The limit or rule that ends the reach there, null inside. */
  ReachEnd end;

  double outTimeS;
  double homeTimeS;
  double totalTimeS;
  double totalEnergyJ;
  double totalDistanceM;

  /** Largest time, life support and energy used or required at any moment (s, s, J). */
  double neededTimeS;

  double neededAliveS;
  double neededEnergyJ;

  /** The ways of the trip that is reported; home is null if nobody comes home. */
  PathSums keptOut;

  PathSums keptHome;

  /** Amounts on arrival at the far end: since the trip began, or used from the battery. */
  private double arrivedS;

  private double arrivedM;
  private double arrivedJ;

  /** Energy of the way out (J), and the largest amount used from the battery on it (J). */
  private double outJ;

  private double mostOutJ;

  /** Latest time at which everybody is home from a stop anywhere on the way out (s). */
  private double latestOutS;

  private double wayHomeS;
  private double mostTimeS;
  private double mostAliveS;
  private double mostEnergyJ;

  /** Least total of the band quantity over trips that meet every limit; NaN if there is none. */
  double bandAmount;

  /** Least share of the limits of time and of energy over trips that meet every limit. */
  double timeShare;

  double energyShare;

  BudgetCheck(ReachLimits limits, FoundWays solved) {
    this(limits, solved, null);
  }

  /**
   * @param more additional ways and bounds that rule trips out, null for none
   */
  BudgetCheck(ReachLimits limits, FoundWays solved, Refinement more) {
    this.limits = limits;
    this.solved = solved;
    this.more = more;
    this.outWays = new ArrayList<>(solved.outWays());
    this.homeWays = new ArrayList<>(solved.homeWays());
    if (more != null) {
      outWays.addAll(more.out());
      homeWays.addAll(more.home());
    }
  }

  /** Checks a cell, which must have a way from the base; results are in the fields. */
  void evaluate(int cell, double stayS, Quantity band) {
    state = 0;
    end = null;
    bandAmount = Double.NaN;
    timeShare = energyShare = Double.POSITIVE_INFINITY;
    outTimeS = homeTimeS = totalTimeS = totalEnergyJ = totalDistanceM = Double.NaN;
    neededTimeS = neededAliveS = neededEnergyJ = Double.NaN;
    keptOut = keptHome = null;
    boolean oneWay = limits.home() == HomeRule.NONE;
    if (!oneWay && !solved.home(Quantity.TIME_S).reached(cell)) {
      end = ReachEnd.NO_WAY_HOME;
      return;
    }
    double keptUse = Double.POSITIVE_INFINITY;
    Arrays.fill(leastUse, Double.POSITIVE_INFINITY);
    for (PathSums out : outWays) {
      for (PathSums home : homeWays) {
        double worst = trip(out, home, cell, stayS);
        noteLeast();
        if (worst <= 1) {
          noteHeld(band);
        }
        // Keep the quickest trip that meets every limit, else the one that exceeds them least.
        double timeS = total[Quantity.TIME_S.ordinal()];
        if (keptUse > 1 ? worst < keptUse : worst <= 1 && timeS < totalTimeS) {
          keptUse = worst;
          outTimeS = out.timeS(cell);
          keep(worst, out, home);
        }
      }
    }
    if (keptUse <= 1) {
      state = ReachState.SURELY;
      end = null;
      return;
    }
    if (quickestS(cell, stayS, oneWay) > limits.tripS()) {
      end = limits.tripEnd();
      return;
    }
    if (solved.neverInTime(cell, stayS)) {
      end = limits.lateEnd(solved.home(Quantity.TIME_S).value(cell));
      return;
    }
    if (more != null && more.ruledOut(cell, stayS)) {
      return;
    }
    leastAlone(cell, stayS, oneWay);
    double worst = worstUse();
    if (worst <= 1) {
      state = ReachState.POSSIBLY;
    } else {
      end = worstEnd(worst);
    }
  }

  /**
   * Returns the largest time, energy, distance and life support used or required at any moment of a
   * trip (s, J, m, s), without changing any verdict; NaN where a way does not lead.
   */
  double[] needs(PathSums out, PathSums home, int cell, double stayS) {
    trip(out, home, cell, stayS);
    return new double[] {mostTimeS, mostEnergyJ, total[Quantity.DISTANCE_M.ordinal()], mostAliveS};
  }

  /**
   * Checks whether everybody gets home from a cell with what is used by then, by a known way that
   * meets every limit; figures of the quickest such way, or of the one that exceeds the limits
   * least, are in the fields. A crew that stops here counts too.
   *
   * @param atS time since the trip began (s)
   * @param usedJ energy used from the battery (J), NaN without an energy model
   * @param drivenM distance driven since the trip began (m)
   * @return the largest share of a limit that is used by the end; at most 1 if it is home
   */
  double homeFrom(int cell, double atS, double usedJ, double drivenM) {
    double best = Double.POSITIVE_INFINITY;
    totalTimeS = totalEnergyJ = totalDistanceM = homeTimeS = Double.NaN;
    neededTimeS = neededAliveS = neededEnergyJ = Double.NaN;
    keptOut = keptHome = null;
    end = ReachEnd.NO_WAY_HOME;
    for (PathSums home : homeWays) {
      if (Double.isNaN(home.timeS(cell))) {
        continue;
      }
      double worst = homeBy(home, cell, atS, usedJ, drivenM);
      double timeS = total[Quantity.TIME_S.ordinal()];
      if (best > 1 ? worst < best : worst <= 1 && timeS < totalTimeS) {
        best = worst;
        keep(worst, null, home);
      }
    }
    return best;
  }

  /** As {@link #homeFrom}, by the way that was kept last. */
  void homeByKept(int cell, double atS, double usedJ, double drivenM) {
    keep(homeBy(keptHome, cell, atS, usedJ, drivenM), null, keptHome);
  }

  private double homeBy(PathSums home, int cell, double atS, double usedJ, double drivenM) {
    arrivedS = atS;
    arrivedM = drivenM;
    outJ = 0;
    arrivedJ = mostOutJ = usedJ;
    latestOutS = 0;
    return fromArrival(home, cell, 0);
  }

  /**
   * True if no other way can change the state of the cell, for any stay up to this one: the
   * quickest trip meets every limit, or it breaks a limit of time and no other.
   */
  boolean settledByQuickest(int cell, double stayS) {
    PathSums out = solved.outWays().get(0);
    PathSums home = solved.homeWays().get(0);
    if (home != null && !solved.home(Quantity.TIME_S).reached(cell)) {
      return true;
    }
    if (trip(out, home, cell, stayS) <= 1) {
      return true;
    }
    boolean tooLate = use[1] > 1 || use[4] > 1;
    return tooLate && use[2] <= 1 && use[3] <= 1 && stopsSettled(out, home, cell);
  }

  /** True if no other way changes the check of stops. */
  private boolean stopsSettled(PathSums out, PathSums home, int cell) {
    if (!solved.stops().asked()) {
      return true;
    }
    boolean riding = limits.home() == HomeRule.PAIR;
    double stopS = solved.stopS(cell);
    double least = riding ? stopS : Math.max(stopS, home.timeS(cell));
    return share(out.timeS(cell) + least, limits.tripS()) > 1
        || (!out.broken(cell)
            && share(out.latestS(cell), limits.tripS()) <= 1
            && (riding || home.needS(cell) <= least));
  }

  /** Keeps the figures of the trip that was computed last. */
  private void keep(double worst, PathSums out, PathSums home) {
    end = worstEnd(worst);
    homeTimeS = wayHomeS;
    totalTimeS = total[Quantity.TIME_S.ordinal()];
    totalEnergyJ = total[Quantity.ENERGY_J.ordinal()];
    totalDistanceM = total[Quantity.DISTANCE_M.ordinal()];
    neededTimeS = mostTimeS;
    neededAliveS = mostAliveS;
    neededEnergyJ = mostEnergyJ;
    keptOut = out;
    keptHome = home;
  }

  /**
   * True if the last cell is possibly reached, and each limit on a quantity is met by some known
   * trip: a trip between these may meet all of them. Stops on the way are no quantity, and are
   * often in time on such a trip.
   */
  boolean weighable() {
    boolean each = state == ReachState.POSSIBLY;
    for (int i = 1; i < leastUse.length; i++) {
      each &= leastUse[i] <= 1;
    }
    return each;
  }

  private void noteLeast() {
    for (int i = 0; i < use.length; i++) {
      leastUse[i] = use[i] < leastUse[i] ? use[i] : leastUse[i];
    }
  }

  /** Notes the amounts of a trip that meets every limit. */
  private void noteHeld(Quantity band) {
    timeShare = Math.min(timeShare, share(mostTimeS, limits.timeS()));
    energyShare = Math.min(energyShare, use[2]);
    if (band != null && !(bandAmount <= total[band.ordinal()])) {
      bandAmount = total[band.ordinal()];
    }
  }

  /** Puts the least shares that any trip to a cell can have in place of those of known trips. */
  void leastShares(int cell, double stayS) {
    leastAlone(cell, stayS, limits.home() == HomeRule.NONE);
    timeShare = share(mostTimeS, limits.timeS());
    energyShare = use[2];
  }

  private double trip(PathSums out, PathSums home, int cell, double stayS) {
    arrivedS = out.timeS(cell);
    arrivedM = out.distanceM(cell);
    outJ = out.energyJ(cell);
    arrivedJ = out.usedJ(cell);
    mostOutJ = out.mostJ(cell);
    latestOutS = 0;
    if (solved.stops().asked()) {
      latestOutS = out.broken(cell) ? Double.POSITIVE_INFINITY : out.latestS(cell);
    }
    return fromArrival(home, cell, stayS);
  }

  /**
   * Computes the totals of the trip whose way out ended as noted and the shares of the limits it
   * uses; returns the largest share.
   */
  private double fromArrival(PathSums home, int cell, double stayS) {
    double outS = arrivedS;
    double driveS = home == null ? 0 : home.timeS(cell);
    double stillJ = limits.hotelW() * stillS(stayS);
    double energyJ = outJ + stillJ + (home == null ? 0 : home.energyJ(cell));
    double beforeJ = arrivedJ + stillJ;
    double afterJ = home == null ? beforeJ : home.needJ(cell, beforeJ);
    double distanceM = arrivedM + (home == null ? 0 : home.distanceM(cell));
    double latestS = latestOutS;
    double needS = driveS;
    if (solved.stops().asked() && limits.home() != HomeRule.PAIR) {
      needS = home.needS(cell);
      latestS = Math.max(latestS, outS + stayS + needS);
    }
    fill(outS, stayS, driveS, needS, energyJ, distanceM, latestS);
    mostEnergyJ = Math.max(mostOutJ, afterJ);
    use[2] = share(mostEnergyJ, limits.energyJ());
    return worstUse();
  }

  private double quickestS(int cell, double stayS, boolean oneWay) {
    double outS = solved.out(Quantity.TIME_S).value(cell);
    return outS + stillS(stayS) + (oneWay ? 0 : solved.home(Quantity.TIME_S).value(cell));
  }

  /** Computes the least amount of each quantity by itself, a lower bound for every trip. */
  private void leastAlone(int cell, double stayS, boolean oneWay) {
    double outS = solved.out(Quantity.TIME_S).value(cell);
    double driveS = oneWay ? 0 : solved.home(Quantity.TIME_S).value(cell);
    double leastJ = solved.leastEnergyJ(cell, oneWay) + limits.hotelW() * stillS(stayS);
    double energyJ = limits.usedJ() + leastJ;
    double latestS = 0;
    double needS = driveS;
    if (limits.askedOfStops()) {
      needS = Math.max(driveS, solved.stopS(cell));
      latestS = outS + stayS + needS;
    }
    fill(outS, stayS, driveS, needS, energyJ, solved.leastDistanceM(cell, oneWay), latestS);
  }

  private void fill(
      double outS,
      double stayS,
      double driveS,
      double needS,
      double energyJ,
      double distanceM,
      double latestS) {
    // By walk-back the trip must leave time to walk home from anywhere as well as to drive.
    double homeS = limits.home() == HomeRule.WALK_BACK ? needS : driveS;
    double timeS = outS + stillS(stayS) + homeS;
    // From the stop of one vehicle of a pair, both crews use the life support of the other.
    double aliveS =
        limits.home() == HomeRule.PAIR
            ? outS + stayS + limits.breathedS(limits.changeS() + driveS)
            : timeS;
    total[Quantity.TIME_S.ordinal()] = timeS;
    total[Quantity.ENERGY_J.ordinal()] = energyJ;
    total[Quantity.DISTANCE_M.ordinal()] = distanceM;
    wayHomeS = homeS;
    mostTimeS = Math.max(timeS, latestS);
    mostAliveS = Math.max(aliveS, latestS);
    use[0] = share(latestS, limits.tripS());
    use[1] = share(timeS, limits.timeS());
    use[2] = share(energyJ, limits.energyJ());
    use[3] = share(distanceM, limits.distanceM());
    use[4] = share(aliveS, limits.lifeSupportS());
  }

  /** Time at the far end: the stay and a change of vehicles that may follow it (s). */
  private double stillS(double stayS) {
    return stayS + limits.changeS();
  }

  private static double share(double amount, double limit) {
    if (amount == Double.POSITIVE_INFINITY) {
      return FAR_OVER;
    }
    return limit == Double.POSITIVE_INFINITY ? 0 : amount / limit;
  }

  private double worstUse() {
    double worst = 0;
    for (double u : use) {
      worst = Math.max(worst, u);
    }
    return worst;
  }

  private ReachEnd worstEnd(double worst) {
    for (int i = 0; i < use.length; i++) {
      if (use[i] == worst) {
        if (i == 0) {
          return mostTimeS == Double.POSITIVE_INFINITY
              ? limits.stopEnd()
              : limits.lateEnd(wayHomeS);
        }
        // From the stop of one vehicle of a pair, both crews use the life support of the other.
        boolean both = limits.home() == HomeRule.PAIR && CHECKED[i] == ReachEnd.LIFE_SUPPORT;
        return both ? ReachEnd.RESCUE_LIFE_SUPPORT : CHECKED[i];
      }
    }
    return null;
  }
}
