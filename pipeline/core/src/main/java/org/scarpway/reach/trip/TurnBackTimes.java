package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntFunction;
import org.scarpway.audit.Finding;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.audit.Way;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Follows the centreline of a corridor and finds, for each of its vertices, the latest time at
 * which a crew that waits there can turn for home and still keeps every limit, reserve and home
 * rule of a reach question from the same base. Ways home are those of the question.
 */
public final class TurnBackTimes {
  private static final int HALVINGS = 60;

  /** Waits that are longer count as unlimited (s). */
  private static final double FOREVER_S = 1e9;

  private final CorridorResult route;
  private final TraversalInput ground;
  private final ReachLimits limits;
  private final TripFronts solved;
  private final DrivenAgain again;
  private final IntFunction<ReachEnd> stopEnds;
  private final LeftFigures figures;
  private final Workers workers;
  private final Progress progress;
  private final List<Finding> findings = new ArrayList<>();
  private BudgetCheck judge;

  private TurnBackTimes(
      CorridorResult route,
      ReachRequest question,
      TraversalInput ground,
      WalkHome walkHome,
      Workers workers,
      Progress progress) {
    this.route = route;
    this.ground = ground;
    this.workers = workers;
    this.progress = progress;
    boolean hasEnergy = Costs.hasEnergy(ground.field());
    int base =
        StartCell.require(
            "base '" + question.baseName() + "'",
            question.baseXM(),
            question.baseYM(),
            ground.vehicle().name(),
            ground.field(),
            ground.limit());
    this.limits = ReachLimits.of(question, ground.vehicle(), hasEnergy, new ArrayList<>());
    Left whole = whole(limits);
    this.figures = new LeftFigures(whole, limits.reserveOf(whole), limits);
    RuleGround rule =
        RuleGround.of(
            question, limits, limits, ground, walkHome, hasEnergy, base, workers, progress);
    this.stopEnds = rule.stopEnds();
    this.solved =
        new TripFronts(
            question,
            limits,
            rule.field(),
            rule.homeField(),
            hasEnergy,
            ground.heightM(),
            base,
            base,
            cells(),
            new double[] {0, 0},
            rule.stops(),
            workers,
            progress);
    Refinement none =
        new Refinement(
            limits,
            rule.field(),
            rule.homeField(),
            hasEnergy,
            ground.heightM(),
            base,
            solved.stops(),
            solved.within());
    this.again =
        new DrivenAgain(
            question,
            limits,
            solved,
            none,
            rule.field(),
            rule.homeField(),
            ground.heightM(),
            walkHome,
            rule.walks(),
            rule.fetched());
    this.judge = new BudgetCheck(limits, solved);
  }

  /**
   * @param route a corridor that begins at the base of the question
   * @param question asks somebody home
   * @param waypoints vertices of its centreline of which the trip home is told and recalculated
   * @param walkHome walker and refuges; required by the rule walk-back, otherwise ignored
   * @throws org.scarpway.stage.UserError if the base is on ground that cannot be used
   */
  public static HomeAlong of(
      CorridorResult route,
      ReachRequest question,
      BitSet waypoints,
      TraversalInput ground,
      WalkHome walkHome,
      Workers workers,
      Progress progress) {
    TurnBackTimes times = new TurnBackTimes(route, question, ground, walkHome, workers, progress);
    return new HomeAlong(question, times.follow(waypoints), times.findings);
  }

  /** What the crew sets out with; null where nothing is limited. */
  private static Left whole(ReachLimits limits) {
    Reserves kept = limits.reserves();
    return new Left(
        amount(limits.timeS(), kept.timePct()),
        amount(limits.energyJ(), kept.energyPct()),
        amount(limits.distanceM(), kept.distancePct()),
        amount(limits.lifeSupportS(), kept.lifeSupportPct()));
  }

  private static Double amount(double planned, double keptPct) {
    double all = Reserves.whole(planned, keptPct);
    return Double.isNaN(all) ? null : (Double) all;
  }

  private BitSet cells() {
    BitSet all = new BitSet();
    for (int i = 0; i < route.centreline().size(); i++) {
      for (int cell : cellsAt(i)) {
        all.set(cell);
      }
    }
    return all;
  }

  /** The cells that the line leaves and enters at a vertex, which may lie on their border. */
  private int[] cellsAt(int vertex) {
    return new int[] {between(vertex - 1, vertex), between(vertex, vertex + 1)};
  }

  private int between(int from, int to) {
    List<ProfilePoint> line = route.centreline();
    ProfilePoint a = line.get(Math.max(0, from));
    ProfilePoint b = line.get(Math.min(line.size() - 1, to));
    return spec().cellOf((a.xM() + b.xM()) / 2, (a.yM() + b.yM()) / 2);
  }

  private GridSpec spec() {
    return ground.field().spec();
  }

  private List<Turn> follow(BitSet waypoints) {
    List<ProfilePoint> line = route.centreline();
    List<Visit> visits = route.visits();
    List<Turn> all = new ArrayList<>();
    double stayedS = 0;
    double usedJ = limits.usedJ();
    int next = 1;
    for (int i = 0; i < line.size(); i++) {
      ProfilePoint p = line.get(i);
      usedJ = i == 0 ? usedJ : Math.max(0, usedJ + p.energyJ() - line.get(i - 1).energyJ());
      boolean leaves = i > 0 && isStop(i - 1, next);
      if (leaves) {
        double stayS = visits.get(next).stayS();
        stayedS += stayS;
        usedJ += limits.hotelW() * stayS;
        next++;
      }
      Used used = new Used(p.timeS() + stayedS, usedJ, p.distanceM());
      all.add(turn(i, used, waypoints.get(i)));
    }
    return all;
  }

  /** True if the leg to a stop ends at this vertex. */
  private boolean isStop(int vertex, int visit) {
    List<Visit> visits = route.visits();
    return visit + 1 < visits.size()
        && route.centreline().get(vertex).distanceM() >= visits.get(visit).distanceM();
  }

  private Turn turn(int vertex, Used used, boolean waypoint) {
    int worst = -1;
    double latestS = Double.POSITIVE_INFINITY;
    String end = "";
    for (int cell : cellsAt(vertex)) {
      if (!isHome(cell, used, 0)) {
        return new Turn(false, Double.NaN, ending(cell), null);
      }
      double waitS = longestWaitS(cell, used);
      if (worst < 0 || used.timeS() + waitS < latestS) {
        worst = cell;
        latestS = used.timeS() + waitS;
        end = latestS < Double.POSITIVE_INFINITY ? endAfter(cell, used, waitS) : "";
      }
    }
    if (!waypoint) {
      return new Turn(true, latestS, end, null);
    }
    if (latestS < Double.POSITIVE_INFINITY) {
      driveAgain(worst, used, latestS - used.timeS());
    }
    isHome(worst, used, 0);
    return new Turn(
        true,
        latestS,
        end,
        figures.of(judge, new Used(used.timeS(), used.energyJ(), used.distanceM())));
  }

  private void driveAgain(int cell, Used used, double waitS) {
    isHome(cell, used, waitS);
    int cols = spec().cols();
    Way there = new Way(new double[] {Math.floorDiv(cell, cols)}, new double[] {cell % cols}, null);
    double atS = used.timeS() + waitS;
    findings.add(
        again.of(
            "turn back",
            there,
            ground.field(),
            after(used, waitS),
            cell,
            0,
            judge,
            atS + limits.changeS()));
  }

  private Used after(Used used, double waitS) {
    return new Used(
        used.timeS() + waitS, used.energyJ() + limits.hotelW() * waitS, used.distanceM());
  }

  /** The longest wait after which home is sure; infinite if nothing limits it (s). */
  private double longestWaitS(int cell, Used used) {
    if (isHome(cell, used, FOREVER_S)) {
      return Double.POSITIVE_INFINITY;
    }
    double sureS = 0;
    double tooLongS = FOREVER_S;
    for (int i = 0; i < HALVINGS; i++) {
      double middleS = 0.5 * (sureS + tooLongS);
      if (isHome(cell, used, middleS)) {
        sureS = middleS;
      } else {
        tooLongS = middleS;
      }
    }
    return sureS;
  }

  private String endAfter(int cell, Used used, double waitS) {
    isHome(cell, used, 2 * waitS + 1);
    return ending(cell);
  }

  /** What forbids it in the last check: a place without a walk or a rescue breaks the home rule. */
  private String ending(int cell) {
    boolean known = cell >= 0 && solved.answers(cell);
    if (cell >= 0 && limits.askedOfStops() && (!known || judge.end == ReachEnd.NO_WAY_HOME)) {
      return stopEnds.apply(cell).label();
    }
    return (known ? judge.end : limits.tripEnd()).label();
  }

  private boolean isHome(int cell, Used used, double waitS) {
    if (cell < 0 || !solved.answers(cell)) {
      return false;
    }
    Used then = after(used, waitS);
    if (judge.homeFrom(cell, then.timeS(), then.energyJ(), then.distanceM()) <= 1) {
      return true;
    }
    if (judge.end != ReachEnd.ENERGY || solved.knowsLeastEnergyHome()) {
      return false;
    }
    solved.addLeastEnergyHome(workers, progress);
    judge = new BudgetCheck(limits, solved);
    return judge.homeFrom(cell, then.timeS(), then.energyJ(), then.distanceM()) <= 1;
  }
}
