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
import org.scarpway.reach.question.CorridorResult.Place;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Follows the centreline of a corridor and finds, for each of its vertices, the latest time at
 * which a crew that waits there can turn for home and still keeps every limit, reserve and home
 * rule of a reach question from the same base. Ways home are those of the question.
 */
public final class TurnBackTimes {
  private static final int HALVINGS = 60;

  /** Waits that are longer count as unlimited (s). */
  private static final double FOREVER_S = 1e9;

  /** A line that turns by less is straight (rad). */
  private static final double STRAIGHT = 1e-9;

  private final CorridorResult route;
  private final int base;
  private final TraversalInput ground;
  private final ReachLimits limits;
  private final TripFronts solved;
  private final DrivenAgain again;
  private final IntFunction<ReachEnd> stopEnds;
  private final LeftFigures figures;
  private final TraversalCost homeField;
  private final WayHome drawing;
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
    this.base =
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
    this.homeField = rule.homeField();
    this.drawing = new WayHome(ground, hasEnergy);
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
    List<Consumable> limited = times.figures.limited();
    return new HomeAlong(question, limited, times.follow(waypoints), times.findings);
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
    boolean atBase = false;
    double stoppedS = 0;
    for (int cell : cellsAt(vertex)) {
      atBase |= cell == base;
      if (!isHome(cell, used, 0)) {
        return new Turn(false, Double.NaN, ending(cell), atBase, null);
      }
      double waitS = longestWaitS(cell, used);
      if (worst < 0 || used.timeS() + waitS < latestS) {
        worst = cell;
        latestS = used.timeS() + waitS;
        end = latestS < Double.POSITIVE_INFINITY ? endAfter(cell, used, waitS) : "";
      }
      stoppedS = limits.askedOfStops() ? Math.max(stoppedS, solved.stops().tellS(cell)) : stoppedS;
    }
    if (!waypoint || atBase) {
      return new Turn(true, latestS, end, atBase, null);
    }
    return new Turn(true, latestS, end, false, way(worst, used, latestS, stoppedS));
  }

  /** The way home by which home is sure until the latest time; the check tells it last. */
  private HomeAlong.Way way(int cell, Used used, double latestS, double stoppedS) {
    boolean ends = latestS < Double.POSITIVE_INFINITY;
    if (ends) {
      driveAgain(cell, used, latestS - used.timeS());
    }
    isHome(cell, used, ends ? latestS - used.timeS() : FOREVER_S);
    double leaveS = (ends ? latestS : used.timeS()) + limits.changeS();
    List<ProfilePoint> line = drawing.drawn(cell, leaveS, judge, solved.stops(), homeField);
    double curvesS = WayHome.curvesS(line, judge, cell);
    judge.homeByKept(cell, used.timeS(), used.energyJ(), used.distanceM());
    Homeward home = figures.of(judge, used);
    return new HomeAlong.Way(
        home, limits.askedOfStops() ? stoppedS : home.timeS(), corners(line), curvesS);
  }

  /** The points where a line changes its direction, and both ends. */
  private static List<Place> corners(List<ProfilePoint> line) {
    List<Place> all = new ArrayList<>();
    for (ProfilePoint p : line) {
      int n = all.size();
      if (n > 1) {
        Place a = all.get(n - 2);
        Place b = all.get(n - 1);
        double cross =
            (b.xM() - a.xM()) * (p.yM() - b.yM()) - (b.yM() - a.yM()) * (p.xM() - b.xM());
        double along =
            (b.xM() - a.xM()) * (p.xM() - b.xM()) + (b.yM() - a.yM()) * (p.yM() - b.yM());
        if (along >= 0 && Math.abs(cross) <= STRAIGHT * along) {
          all.remove(n - 1);
        }
      }
      all.add(new Place(p.xM(), p.yM()));
    }
    return all;
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
