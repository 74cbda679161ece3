package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Computes how far a crew comes by the end of each day and still home by the last, with nights
 * anywhere.
 *
 * <p>Where every place may serve as a camp, driving of d hours a day for n + 1 days is driving of
 * (n + 1) d hours with n pauses, wherever they fall. A trip with n nights is therefore a trip of
 * one piece whose limits are less what the nights take: the battery by their load, of which it must
 * hold that of one night before its charge comes, the life support by their length. A cell is
 * surely reached if one trip, out by one known way and home by another, meets all limits for some
 * number of nights that is enough for its driving time. What a night charges beyond its own load
 * may come when the battery is full, so that only "possibly" counts it.
 *
 * <p>By the rules pair and base-rescue both crews may use one vehicle's life support in any of the
 * nights, so that each is counted twice.
 */
public final class DayRingsSolver {
  private final DayRingsRequest request;
  private final TraversalInput ground;
  private final GridSpec spec;
  private final boolean hasEnergy;
  private final double hotelW;
  private final int base;
  private final boolean driveBack;
  private final RingLayers rings;

  private DayRingsSolver(DayRingsRequest request, TraversalInput ground) {
    this.request = request;
    this.ground = ground;
    this.spec = ground.field().spec();
    this.hasEnergy = Costs.hasEnergy(ground.field());
    Double w = ground.vehicle().drive() == null ? null : ground.vehicle().drive().hotelW();
    this.hotelW = w == null ? 0 : w;
    this.driveBack = request.home() == HomeRule.DRIVE_BACK;
    this.base =
        StartCell.require(
            "base '" + request.baseName() + "'",
            request.baseXM(),
            request.baseYM(),
            ground.vehicle().name(),
            ground.field(),
            ground.limit());
    this.rings = new RingLayers(request, ground);
  }

  /**
   * Solves a request.
   *
   * @param walkHome walker and refuges; required by the rule walk-back, otherwise ignored and may
   *     be null
   * @throws org.scarpway.stage.UserError if the base or a refuge is outside the grid or on ground
   *     that cannot be used
   */
  public static RingsAnswer answer(
      DayRingsRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      Workers workers,
      Progress progress) {
    return new DayRingsSolver(request, ground).run(walkHome, workers, progress);
  }

  private RingsAnswer run(WalkHome walkHome, Workers workers, Progress progress) {
    List<String> warnings = new ArrayList<>(request.uncounted());
    if (driveBack) {
      // No stop asks for more, so that the same ways serve every number of nights.
      Nights all = nights(request.days() - 1, 0, walkHome, workers, progress);
      decide(all, 0, request.days(), workers, progress);
      return rings.told(warnings);
    }
    for (int n = 0; n < request.days(); n++) {
      Nights nights = nights(n, n, walkHome, workers, progress);
      if (nights == null) {
        break;
      }
      decide(nights, n, n + 1, workers, progress);
      if (n == 0 && nights.rule().walks() != null) {
        warnings.addAll(nights.rule().walks().notes(rings.state));
      }
    }
    return rings.told(warnings);
  }

  private record Nights(RuleGround rule, TripFronts solved) {}

  /**
   * The ways of trips with a number of nights.
   *
   * @param paid nights whose load and length are subtracted
   * @return null if they leave nothing to drive with
   */
  private Nights nights(
      int nights, int paid, WalkHome walkHome, Workers workers, Progress progress) {
    ReachLimits limits = limits(nights, paid, false);
    if (!(limits.tripS() > 0) || !(limits.energyJ() > 0)) {
      return null;
    }
    ReachRequest asked =
        asked(request, limits.timeS(), finite(limits.energyJ()), finite(limits.lifeSupportS()));
    RuleGround rule =
        RuleGround.of(asked, limits, limits, ground, walkHome, hasEnergy, base, workers, progress);
    TripFronts solved =
        new TripFronts(
            asked,
            limits,
            rule.field(),
            rule.homeField(),
            hasEnergy,
            ground.heightM(),
            base,
            new double[] {0, 0},
            rule.stops(),
            workers,
            progress);
    return new Nights(rule, solved);
  }

  /** The request as one of reach, for what is the same of both. */
  static ReachRequest asked(
      DayRingsRequest request, double timeS, Double energyJ, Double lifeSupportS) {
    return new ReachRequest(
        request.name(),
        request.baseName(),
        request.baseXM(),
        request.baseYM(),
        new ReachRequest.Budget(timeS, energyJ, null, lifeSupportS, null),
        request.home(),
        List.of(),
        0,
        request.rescue(),
        Reserves.NONE,
        0,
        false);
  }

  private static Double finite(double limit) {
    return limit < Double.POSITIVE_INFINITY ? Double.valueOf(limit) : null;
  }

  /**
   * Limits of a trip with a number of nights.
   *
   * @param paid nights whose load and length are subtracted
   * @param charged true to count all that the nights charge
   */
  private ReachLimits limits(int nights, int paid, boolean charged) {
    return limits(request, nights, paid, hotelW, charged);
  }

  static ReachLimits limits(
      DayRingsRequest request, int nights, int paid, double hotelW, boolean charged) {
    boolean rides = request.home() == HomeRule.PAIR || request.home() == HomeRule.BASE_RESCUE;
    int crews = rides ? 2 : 1;
    return new ReachLimits(
        request.home(),
        (nights + 1) * request.driveS(),
        request.energyJ()
            - (charged ? leastJ(request, paid, hotelW) : nightsJ(request, paid, hotelW)),
        Double.POSITIVE_INFINITY,
        request.lifeSupportS() - crews * paid * request.nightS(),
        hotelW,
        request.rescue(),
        Reserves.NONE);
  }

  /**
   * What nights take from the battery at most (J): of each the load that its charge does not make
   * good, and of one the whole load, which the battery must hold before the charge comes. A broken
   * vehicle that waits for rescuers is not charged, nor are they counted on to find one.
   */
  private static double nightsJ(DayRingsRequest request, int nights, double hotelW) {
    double loadJ = hotelW * request.nightS();
    if (request.home() == HomeRule.BASE_RESCUE) {
      return nights * loadJ;
    }
    return uncharged(nights, loadJ, request.nightChargeJ())
        + (nights > 0 ? Math.min(loadJ, request.nightChargeJ()) : 0);
  }

  /** Load of nights that their charges do not make good (J). */
  private static double uncharged(int nights, double loadJ, double chargeJ) {
    return nights * Math.max(0, loadJ - chargeJ);
  }

  /** What nights take from the battery at least, all charges counted (J). */
  private static double leastJ(DayRingsRequest request, int nights, double hotelW) {
    double loadJ = hotelW * request.nightS();
    boolean holds = nights == 0 || loadJ <= request.energyJ();
    return holds ? nights * (loadJ - request.nightChargeJ()) : Double.POSITIVE_INFINITY;
  }

  /**
   * Decides cells by trips with some numbers of nights, the fewest first; by the ways of least
   * energy as well where the quickest leave a cell open.
   */
  private void decide(Nights ways, int from, int to, Workers workers, Progress progress) {
    for (int n = from; n < to; n++) {
      decide(ways.solved(), n, workers);
    }
    if (!ways.solved().knowsLeastEnergyHome() && open(ways.solved(), from, to, workers)) {
      ways.solved().addLeastEnergy(workers, progress);
      for (int cell = 0; cell < spec.cells(); cell++) {
        if (rings.state.get(cell) == ReachState.POSSIBLY && ways.solved().answers(cell)) {
          rings.state.set(cell, (byte) 0);
          rings.day.set(cell, (byte) 0);
        }
      }
      for (int n = from; n < to; n++) {
        decide(ways.solved(), n, workers);
      }
    }
  }

  /** True if other than the quickest ways may decide a cell. */
  private boolean open(TripFronts solved, int from, int to, Workers workers) {
    AtomicBoolean open = new AtomicBoolean();
    for (int n = from; n < to && !open.get(); n++) {
      ReachLimits limits = limits(n, n, false);
      workers.overRows(
          spec.rows(),
          (fromRow, toRow) -> {
            BudgetCheck judge = new BudgetCheck(limits, solved);
            for (int cell = fromRow * spec.cols(); cell < toRow * spec.cols(); cell++) {
              if (!open.get()
                  && rings.state.get(cell) != ReachState.SURELY
                  && solved.answers(cell)
                  && !judge.settledByQuickest(cell, 0)) {
                open.set(true);
              }
            }
          });
    }
    return open.get();
  }

  /** Decides the cells that trips with fewer nights leave open. */
  private void decide(TripFronts solved, int nights, Workers workers) {
    ReachLimits limits = limits(nights, nights, false);
    ReachLimits charged = limits(nights, nights, true);
    boolean sure = limits.tripS() > 0 && limits.energyJ() > 0;
    boolean may =
        charged.tripS() > 0 && charged.energyJ() > 0 && charged.energyJ() > limits.energyJ();
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          BudgetCheck judge = new BudgetCheck(limits, solved);
          BudgetCheck most = new BudgetCheck(charged, solved);
          for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
            if (rings.state.get(cell) == ReachState.SURELY || !solved.answers(cell)) {
              continue;
            }
            if (sure) {
              judge.evaluate(cell, 0, null);
              take(cell, judge, solved);
            }
            if (may && rings.state.get(cell) == 0) {
              most.evaluate(cell, 0, null);
              possibly(cell, most.state != 0, solved);
            }
          }
        });
  }

  private void take(int cell, BudgetCheck judge, TripFronts solved) {
    if (judge.state == ReachState.SURELY) {
      rings.state.set(cell, ReachState.SURELY);
      rings.day.set(cell, (byte) request.dayOf(judge.keptOut.timeS(cell)));
      if (rings.lastNight != null) {
        double driveJ = hasEnergy ? judge.neededEnergyJ : 0;
        rings.lastNight.set(
            cell, (byte) lastNight(judge.keptOut.timeS(cell), judge.keptHome.timeS(cell), driveJ));
      }
    } else {
      possibly(cell, judge.state != 0, solved);
    }
  }

  private void possibly(int cell, boolean may, TripFronts solved) {
    if (may && rings.state.get(cell) == 0) {
      rings.state.set(cell, ReachState.POSSIBLY);
      rings.day.set(cell, (byte) request.dayOf(solved.out(Quantity.TIME_S).value(cell)));
    }
  }

  /** Last night that may be spent at a place with such ways out and home, 0 for none. */
  private int lastNight(double outS, double homeS, double driveJ) {
    int outDays = request.dayOf(outS);
    int homeDays = homeS > 0 ? request.dayOf(homeS) : 0;
    int nightsHome = Math.max(0, homeDays - 1);
    double lastDayS = homeS - nightsHome * request.driveS();
    double chargeJ = request.nightChargeJ();
    double drivenJ = hotelW * request.nightS();
    double arrivedJ = hotelW * (DayRingsRequest.DAY_S - outS + (outDays - 1) * request.driveS());
    double waitedJ = hotelW * DayRingsRequest.DAY_S;
    for (int n = request.days() - Math.max(1, homeDays); n >= outDays; n--) {
      // The crew sleeps here in night n, and drives home from the next morning on.
      double wallS = (n + nightsHome) * DayRingsRequest.DAY_S + lastDayS;
      double nightsJ =
          uncharged(outDays - 1 + nightsHome, drivenJ, chargeJ)
              + uncharged(1, arrivedJ, chargeJ)
              + uncharged(n - outDays, waitedJ, chargeJ)
              + Math.min(n > outDays ? waitedJ : Math.max(arrivedJ, drivenJ), chargeJ);
      if (driveJ + nightsJ <= request.energyJ() && wallS <= request.lifeSupportS()) {
        return n;
      }
    }
    return 0;
  }
}
