package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;
import org.scarpway.audit.Finding;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.audit.Way;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.corridor.PlannedWay;
import org.scarpway.reach.corridor.PlannedWay.Driven;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReplanRequest;
import org.scarpway.reach.question.ReplanResult.TurnBack;
import org.scarpway.reach.question.TraversalInput;

/**
 * Follows the planned way from stop to stop, and checks at every cell border on it whether the crew
 * still comes home from there by every rule, with what is then left. The search ends at the first
 * place where that is not sure: the place before it is the point of no return, even if home is sure
 * again further on.
 */
final class TurnBackSearch {
  private static final int HALVINGS = 60;

  private final ReplanRequest request;
  private final TraversalInput ground;
  private final List<PlannedWay> ways;
  private final ReachLimits limits;
  private final IntFunction<ReachEnd> stopEnds;
  private final TripFronts solved;
  private final Refinement more;
  private final DrivenAgain again;
  private final LeftFigures figures;
  private final List<Double> arriveS = new ArrayList<>();
  private final List<String> leftOut = new ArrayList<>();
  private final List<ProfilePoint> planned = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();
  private Runnable lessEnergy;
  private BudgetCheck judge;

  /** Cell of the last check. */
  private int judged;

  /** Amounts since the search began; energy is what is used from the battery. */
  private double timeS;

  private double usedJ;
  private double distanceM;

  /** The leg driven last, and the amounts when it began. */
  private Way legWay;

  private Used legBefore;

  /**
   * @param arriveS times of arrival at the stops that fit in the order of the plan (s), NaN for a
   *     stop that is left out
   * @param leftOut one line for each stop to which no way leads
   * @param planned the planned way up to the point of no return
   */
  record Found(
      TurnBack turnBack,
      List<Double> arriveS,
      List<String> leftOut,
      List<ProfilePoint> planned,
      List<Finding> findings) {
    static final Found NONE = new Found(null, List.of(), List.of(), List.of(), List.of());
  }

  TurnBackSearch(
      ReplanRequest request,
      TraversalInput ground,
      List<PlannedWay> ways,
      ReachLimits limits,
      IntFunction<ReachEnd> stopEnds,
      TripFronts solved,
      Refinement more,
      DrivenAgain again,
      LeftFigures figures) {
    this.request = request;
    this.ground = ground;
    this.ways = List.copyOf(ways);
    this.limits = limits;
    this.stopEnds = stopEnds;
    this.solved = solved;
    this.more = more;
    this.again = again;
    this.figures = figures;
    this.judge = new BudgetCheck(limits, solved, more);
    this.usedJ = limits.usedJ();
  }

  /**
   * @param here cell of the crew, from which home is sure
   * @param leastEnergy adds the ways home of least energy to those known
   */
  Found from(int here, int base, Runnable leastEnergy) {
    lessEnergy = leastEnergy;
    int cell = here;
    String name = "";
    for (Target stop : request.stops()) {
      int to = ground.field().spec().cellOf(stop.xM(), stop.yM());
      Driven leg = leg(cell, to);
      if (leg == null) {
        // The crew drives on to the stops that can be reached.
        leftOut.add(
            "stop '"
                + stop.name()
                + "' is left out of the plan: no way ("
                + noWay(to).label()
                + ")");
        arriveS.add(Double.NaN);
        continue;
      }
      TurnBack turn = follow(leg, name, stop.name());
      if (turn == null) {
        double arrivedS = timeS;
        turn = stay(to, stop);
        if (turn == null) {
          arriveS.add(arrivedS);
        }
      }
      if (turn != null) {
        return found(turn);
      }
      cell = to;
      name = stop.name();
    }
    if (!request.stops().isEmpty() && leftOut.size() == request.stops().size()) {
      return new Found(null, arriveS, leftOut, List.of(), findings);
    }
    if (request.endsAtBase()) {
      Driven home = leg(cell, base);
      String baseName = request.question().baseName();
      TurnBack turn =
          home == null
              ? turnAt(
                  cell, name, baseName, Double.NaN, false, baseName + ": " + noWay(base).label())
              : follow(home, name, baseName);
      return found(turn == null ? turnAt(base, name, "", Double.NaN, true, "") : turn);
    }
    return found(turnAt(cell, name, "", Double.NaN, true, ""));
  }

  private Found found(TurnBack turn) {
    return new Found(turn, arriveS, leftOut, planned, findings);
  }

  /** Drives one leg; returns where to turn, or null if home is sure all along it. */
  private TurnBack follow(Driven leg, String from, String next) {
    solved.ask(leg.cells());
    judge = new BudgetCheck(limits, solved, more);
    Used before = new Used(timeS, usedJ, distanceM);
    add(leg.points().get(0));
    for (int i = 1; i < leg.points().size(); i++) {
      ProfilePoint p = leg.points().get(i);
      ProfilePoint q = leg.points().get(i - 1);
      double atS = before.timeS() + p.timeS();
      double atJ = Math.max(0, usedJ + p.energyJ() - q.energyJ());
      double atM = before.distanceM() + p.distanceM();
      int left = leg.cells().get(i - 1);
      if (!isHome(left, atS, atJ, atM) || !isHome(leg.cells().get(i), atS, atJ, atM)) {
        return turnOnLeg(leg, i - 1, from, next, ending());
      }
      timeS = atS;
      usedJ = atJ;
      distanceM = atM;
      add(p);
    }
    legWay = leg.way().way();
    legBefore = before;
    return null;
  }

  /** Why no way leads to a cell. */
  private ReachEnd noWay(int to) {
    return to >= 0 && ground.field().allowed(to) != 0 ? ReachEnd.CUT_OFF : ReachEnd.NO_GO;
  }

  /** The first way on any of the grounds, null if there is none. */
  private Driven leg(int cell, int to) {
    for (PlannedWay way : ways) {
      Driven leg = to < 0 ? null : way.leg(cell, to);
      if (leg != null) {
        return leg;
      }
    }
    return null;
  }

  /** What forbids going on: a place without a walk or a rescue home breaks the home rule. */
  private String ending() {
    return (judge.end == ReachEnd.NO_WAY_HOME ? stopEnds.apply(judged) : judge.end).label();
  }

  /** Adds a point of a leg to the planned way, with amounts since the search began. */
  private void add(ProfilePoint p) {
    planned.add(
        new ProfilePoint(
            distanceM,
            p.xM(),
            p.yM(),
            p.heightM(),
            p.pitchDeg(),
            p.rollDeg(),
            p.speedMs(),
            timeS,
            usedJ - limits.usedJ(),
            p.margin01(),
            p.straightMs()));
  }

  /** Stays at a stop; returns the point of no return if the whole stay is not possible. */
  private TurnBack stay(int cell, Target stop) {
    double stayS = stop.stayS();
    double arrivedS = timeS;
    double arrivedJ = usedJ;
    if (isHome(cell, arrivedS + stayS, arrivedJ + limits.hotelW() * stayS, distanceM)) {
      timeS = arrivedS + stayS;
      usedJ = arrivedJ + limits.hotelW() * stayS;
      findings.add(
          again.of(
              stop.name() + " in order",
              legWay,
              ground.field(),
              legBefore,
              cell,
              stayS,
              judge,
              timeS + limits.changeS()));
      return null;
    }
    String end = ending();
    double possibleS = 0;
    double tooLongS = stayS;
    for (int i = 0; i < HALVINGS; i++) {
      double middleS = 0.5 * (possibleS + tooLongS);
      double middleJ = arrivedJ + limits.hotelW() * middleS;
      if (isHome(cell, arrivedS + middleS, middleJ, distanceM)) {
        possibleS = middleS;
      } else {
        tooLongS = middleS;
      }
    }
    timeS = arrivedS + possibleS;
    usedJ = arrivedJ + limits.hotelW() * possibleS;
    return turnAt(cell, stop.name(), "", possibleS, false, end);
  }

  private boolean isHome(int cell, double atS, double atJ, double atM) {
    judged = cell;
    if (judge.homeFrom(cell, atS, atJ, atM) <= 1) {
      return true;
    }
    if (judge.end != ReachEnd.ENERGY || solved.knowsLeastEnergyHome()) {
      return false;
    }
    lessEnergy.run();
    judge = new BudgetCheck(limits, solved, more);
    return judge.homeFrom(cell, atS, atJ, atM) <= 1;
  }

  private TurnBack turnOnLeg(Driven leg, int at, String from, String next, String end) {
    ProfilePoint p = leg.points().get(at);
    return turn(p.xM(), p.yM(), leg.cells().get(at), from, next, Double.NaN, false, end);
  }

  private TurnBack turnAt(
      int cell, String from, String next, double stayS, boolean whole, String end) {
    GridSpec spec = ground.field().spec();
    int row = cell / spec.cols();
    double xM = spec.xM(cell % spec.cols());
    double yM = spec.yM(row);
    return turn(xM, yM, cell, from, next, stayS, whole, end);
  }

  private TurnBack turn(
      double xM,
      double yM,
      int cell,
      String from,
      String next,
      double stayS,
      boolean whole,
      String end) {
    judge.homeFrom(cell, timeS, usedJ, distanceM);
    Used used = new Used(timeS, usedJ - limits.usedJ(), distanceM);
    int cols = ground.field().spec().cols();
    int row = cell / cols;
    int col = cell % cols;
    findings.add(
        again.of(
            "turn back",
            new Way(new double[] {row}, new double[] {col}, null),
            ground.field(),
            new Used(timeS, usedJ, distanceM),
            cell,
            0,
            judge,
            timeS + limits.changeS()));
    return new TurnBack(
        xM,
        yM,
        timeS,
        distanceM,
        used.energyJ(),
        from,
        next,
        stayS,
        whole,
        end,
        figures.of(judge, used));
  }
}
