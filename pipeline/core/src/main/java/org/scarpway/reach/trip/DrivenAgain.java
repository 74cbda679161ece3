package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.SplittableRandom;
import org.scarpway.audit.Finding;
import org.scarpway.audit.HomeRule;
import org.scarpway.audit.HomeRule.Part;
import org.scarpway.audit.HomeRule.Peak;
import org.scarpway.audit.HomeRule.Proof;
import org.scarpway.audit.HomeRule.TwoCrews;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.audit.Limit;
import org.scarpway.audit.Limits;
import org.scarpway.audit.Trip;
import org.scarpway.audit.TripAudit;
import org.scarpway.audit.Way;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.front.Tacking;
import org.scarpway.reach.front.Trace;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Exports the trips behind the state "surely reached", for targets and a sample of cells, and has
 * {@link TripAudit} recalculate them independently of the fronts. A way can be drawn as a line in
 * several ways (straightened once, straightened as far as possible, step by step, searched anew).
 * Each of these lines can be driven, so one that breaks no rule is sufficient.
 */
final class DrivenAgain {
  /** Fixed, so that every run samples the same cells. */
  private static final long SEED = 20_260_712;

  private final ReachRequest request;
  private final ReachLimits limits;
  private final TripFronts solved;
  private final Refinement more;
  private final TraversalCost outField;
  private final TraversalCost homeField;
  private final Floats heightM;
  private final WalkHome walkHome;
  private final WalksHome walks;
  private final Fetching.Fetched fetched;
  private final GridSpec spec;

  /**
   * @param outField field of the way out
   * @param homeField field of the way home
   * @param walks the walks home by the rule walk-back, null by other rules
   * @param fetched the rescuer's ways by the rule base-rescue, null by other rules
   */
  DrivenAgain(
      ReachRequest request,
      ReachLimits limits,
      TripFronts solved,
      Refinement more,
      TraversalCost outField,
      TraversalCost homeField,
      Floats heightM,
      WalkHome walkHome,
      WalksHome walks,
      Fetching.Fetched fetched) {
    this.request = request;
    this.limits = limits;
    this.solved = solved;
    this.more = more;
    this.outField = outField;
    this.homeField = homeField;
    this.heightM = heightM;
    this.walkHome = walkHome;
    this.walks = walks;
    this.fetched = fetched;
    this.spec = outField.spec();
  }

  private record Asked(String name, int cell, double stayS) {}

  /**
   * @param cells number of surely reached cells to sample
   * @return a finding for each reached target and for each sampled cell, in order
   */
  List<Finding> of(Bytes state, List<Target> reached, int cells, Workers workers) {
    List<Asked> asked = new ArrayList<>();
    for (Target t : reached) {
      asked.add(new Asked(t.name(), spec.cellOf(t.xM(), t.yM()), t.stayS()));
    }
    for (int cell : sample(state, cells)) {
      asked.add(new Asked("", cell, request.stayS()));
    }
    BitSet weighed = new BitSet();
    asked.forEach(a -> weighed.set(a.cell));
    more.ask(weighed, workers);
    Finding[] found = new Finding[asked.size()];
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < found.length; i++) {
      int at = i;
      work.add(() -> found[at] = drive(asked.get(at)));
    }
    workers.all(work);
    return List.of(found);
  }

  /** A random sample of up to {@code most} distinct surely reached cells, in order of index. */
  private static int[] sample(Bytes state, int most) {
    int surely = 0;
    for (int i = 0; i < state.size(); i++) {
      surely += state.get(i) == ReachState.SURELY ? 1 : 0;
    }
    int wanted = Math.min(most, surely);
    int[] drawn = new int[wanted];
    SplittableRandom random = new SplittableRandom(SEED);
    int n = 0;
    int left = surely;
    for (int i = 0; n < wanted; i++) {
      if (state.get(i) == ReachState.SURELY) {
        if (random.nextInt(left) < wanted - n) {
          drawn[n++] = i;
        }
        left--;
      }
    }
    return drawn;
  }

  /** Recalculates the trip to a surely reached cell, with the stay there and the way home. */
  Finding of(String name, int cell, double stayS) {
    return drive(new Asked(name, cell, stayS));
  }

  /**
   * Recalculates one leg of a route, the stay at its end and the way home from there.
   *
   * @param leg its last corner is the centre of the cell
   * @param before amounts used when the leg begins
   * @param judge check whose last call was for this cell, after the stay, and found a way home
   * @param leaveS time at which the cell is left (s)
   */
  Finding of(
      String name,
      Way leg,
      TraversalCost legField,
      Used before,
      int cell,
      double stayS,
      BudgetCheck judge,
      double leaveS) {
    Asked asked = new Asked(name, cell, stayS);
    Finding first = null;
    for (Trace.Drawn drawn : Trace.Drawn.values()) {
      int[] corners = TripLine.home(cell, leaveS, judge, solved.stops(), drawn);
      Way home = way(corners, judge.keptHome.labels().costs());
      Trip trip =
          new Trip(name, leg, stayS, limits.changeS(), home, legField, homeField, heightM, before);
      Finding f = TripAudit.of(trip, limits(), rule(asked, judge, drawn));
      if (f.holds()) {
        return f;
      }
      first = first == null ? f : first;
    }
    return first;
  }

  private Finding drive(Asked asked) {
    BudgetCheck judge = new BudgetCheck(limits, solved, more);
    judge.evaluate(asked.cell, asked.stayS, null);
    if (judge.state != ReachState.SURELY) {
      throw new IllegalStateException(
          "cell " + asked.cell + " is surely reached and has no trip that meets everything");
    }
    Finding first = null;
    for (Trace.Drawn drawn : Trace.Drawn.values()) {
      Finding f = TripAudit.of(trip(asked, judge, drawn), limits(), rule(asked, judge, drawn));
      if (f.holds()) {
        return f;
      }
      first = first == null ? f : first;
    }
    return first;
  }

  private Trip trip(Asked asked, BudgetCheck judge, Trace.Drawn drawn) {
    TripLine line = TripLine.of(asked.cell, asked.stayS, judge, solved.stops(), drawn);
    PathSums home = judge.keptHome;
    return new Trip(
        asked.name,
        way(line.out(), judge.keptOut.labels().costs().alongTravel()),
        asked.stayS,
        limits.changeS(),
        home == null ? null : way(line.home(), home.labels().costs()),
        outField,
        homeField,
        heightM,
        new Used(0, limits.usedJ(), 0));
  }

  /** The way home for a crew that stops in a cell. */
  private static Way homeFrom(int cell, CostField labels, Trace.Drawn drawn) {
    return way(Trace.toSource(labels, cell, c -> true, drawn).cells(), labels.costs());
  }

  /** A way with its tacks drawn; corners and costs are in the direction of travel. */
  private static Way way(int[] corners, Costs alongTravel) {
    LegLine leg = LegLine.of(alongTravel.field().spec(), corners);
    return Tacking.along(leg, alongTravel).way();
  }

  private Limits limits() {
    Reserves kept = limits.reserves();
    double none = Double.POSITIVE_INFINITY;
    Limit onFoot =
        walkHome == null
            ? new Limit("walk home", none, none)
            : new Limit("walk home", walkHome.enduranceS(), walkHome.limitS());
    return new Limits(
        limit("time", limits.timeS(), kept.timePct()),
        limit("life support", limits.lifeSupportS(), kept.lifeSupportPct()),
        limit("energy", limits.energyJ(), kept.energyPct()),
        limit("distance", limits.distanceM(), kept.distancePct()),
        onFoot,
        fetched == null
            ? new Limit("rescuer's life support", none, none)
            : limit(
                "rescuer's life support",
                fetched.own().lifeSupportS(),
                fetched.own().reserves().lifeSupportPct()),
        limits.hotelW());
  }

  private static Limit limit(String name, double planned, double keptPct) {
    double given = Reserves.whole(planned, keptPct);
    return new Limit(name, Double.isNaN(given) ? planned : Math.max(planned, given), planned);
  }

  private HomeRule rule(Asked asked, BudgetCheck judge, Trace.Drawn drawn) {
    return switch (request.home()) {
      case NONE, DRIVE_BACK -> HomeRule.none();
      case WALK_BACK -> onFoot(drawn);
      case PAIR -> inTheOther(judge.keptHome.timeS(asked.cell), drawn);
      case BASE_RESCUE -> fetched(drawn);
    };
  }

  private HomeRule onFoot(Trace.Drawn drawn) {
    return new HomeRule() {
      @Override
      public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
        double s = solved.stopS(cell);
        return s < Double.POSITIVE_INFINITY ? List.of(new Need(s, s, 0, 0, s, 0)) : List.of();
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
        WalkHome.Limits held = walkHome.limits();
        boolean sustained = walks.sustained(cell);
        TraversalCost walker = sustained ? held.sustained() : walkHome.field();
        Way way = homeFrom(cell, walks.labels(cell), drawn);
        Peak peak = sustained || held.peak() == null ? null : new Peak(held.peak(), held.peakS());
        return List.of(
            Proof.walk(
                new Part(0, 0, way, walker, heightM),
                solved.stopS(cell),
                held.energyJ(),
                held.distanceM(),
                peak));
      }
    };
  }

  /**
   * Both crews use one vehicle's life support from the change of vehicles on, which in the plan
   * follows the stay; the time of the ride so far is therefore counted twice.
   */
  private HomeRule inTheOther(double homeS, Trace.Drawn drawn) {
    double changeS = limits.changeS();
    return new HomeRule() {
      @Override
      public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
        if (onTheWayHome) {
          double onS = changeS + homeS;
          return List.of(new Need(0, limits.breathedS(onS) - onS, 0, 0, 0, 0));
        }
        List<Need> needs = new ArrayList<>();
        for (Ride ride : rides()) {
          double onS = changeS + ride.timeS(cell);
          double waitJ = limits.hotelW() * changeS;
          double rideJ = ride.needJ(cell, usedJ + waitJ) - usedJ;
          if (onS < Double.POSITIVE_INFINITY) {
            needs.add(new Need(onS, limits.breathedS(onS), rideJ, ride.distanceM(cell), 0, 0));
          }
        }
        return needs;
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
        return onTheWayHome ? List.of() : rides(cell, used, drawn);
      }
    };
  }

  /** Rides home, those of weighted limits too, since a place may be reached by these alone. */
  private List<Ride> rides() {
    List<Ride> all = new ArrayList<>(solved.stops().rides());
    all.addAll(more.home());
    return all;
  }

  private List<PathSums> waysHome() {
    List<PathSums> all = new ArrayList<>(solved.homeWays());
    all.addAll(more.home());
    return all;
  }

  /** The ways home in the other vehicle; one of them must be within what is left of every limit. */
  private List<Proof> rides(int cell, Used used, Trace.Drawn drawn) {
    double changeS = limits.changeS();
    double aliveS = used.timeS() + (limits.lifeSupportS() - used.timeS()) / 2;
    double mostS = Math.min(limits.timeS(), aliveS);
    List<Proof> all = new ArrayList<>();
    for (PathSums ride : waysHome()) {
      if (ride.labels().reached(cell)) {
        double saidS = used.timeS() + changeS + ride.timeS(cell);
        Way way = homeFrom(cell, ride.labels(), drawn);
        all.add(
            new Proof(
                "the ride home",
                List.of(new Part(changeS, limits.hotelW() * changeS, way, homeField, heightM)),
                used,
                Math.min(mostS, saidS),
                limits.energyJ(),
                limits.distanceM(),
                Double.POSITIVE_INFINITY));
      }
    }
    return all;
  }

  /** The vehicle from the base: alarm, way out, loading, way home on a battery of its own. */
  private Proof rescue(int cell, Used used, Trace.Drawn drawn) {
    Rescue rescue = limits.rescue();
    CostField there = fetched.out(cell);
    CostField back = fetched.home(cell);
    int[] corners = Trace.toSource(there, cell, c -> true, drawn).cells();
    for (int i = 0; i < corners.length / 2; i++) {
      int swapped = corners[i];
      corners[i] = corners[corners.length - 1 - i];
      corners[corners.length - 1 - i] = swapped;
    }
    Way out = way(corners, there.costs().alongTravel());
    Way home = homeFrom(cell, back, drawn);
    double loadJ = limits.hotelW() * rescue.loadS();
    double waitedJ = limits.energyJ() - used.energyJ();
    boolean waits = solved.stops().waitS() != null;
    double mostS = limits.tripS();
    ReachLimits own = fetched.own();
    double mostWaitS = waits ? waitedJ / limits.hotelW() : Double.POSITIVE_INFINITY;
    if (fetched.quickest(cell)) {
      // For the quickest ways the front gives the time.
      mostS = Math.min(mostS, used.timeS() + solved.stopS(cell));
      mostWaitS = waits ? Math.min(mostWaitS, solved.stops().waitS().get(cell)) : mostWaitS;
    }
    return new Proof(
        "the rescue",
        List.of(
            new Part(rescue.alarmS(), 0, out, there.costs().field(), heightM),
            new Part(rescue.loadS(), loadJ, home, back.costs().field(), heightM)),
        new Used(used.timeS(), 0, 0),
        mostS,
        own.energyJ(),
        own.distanceM(),
        mostWaitS,
        null,
        new TwoCrews(rescue.alarmS(), own.lifeSupportS()));
  }

  /** The least life support that a vehicle from the base uses up; that of its quickest ways (s). */
  private double livedS(int cell) {
    double outS = fetched.out().get(0).value(cell);
    return fetched.own().rescuerS(outS, fetched.home().get(0).value(cell));
  }

  private HomeRule fetched(Trace.Drawn drawn) {
    return new HomeRule() {
      @Override
      public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
        double s = solved.stopS(cell);
        double waitJ = solved.stops().waitJ(cell);
        return s < Double.POSITIVE_INFINITY
            ? List.of(new Need(s, s, waitJ, 0, 0, s > 0 ? livedS(cell) : 0))
            : List.of();
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
        // No rescue is needed at the base.
        return solved.stopS(cell) > 0 ? List.of(rescue(cell, used, drawn)) : List.of();
      }
    };
  }
}
