package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntFunction;
import org.scarpway.audit.Finding;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.corridor.PlannedWay;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReplanRequest;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.question.ReplanResult.StopLeft;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Answers a crew underway: whether it comes home from where it stands with what is left, which
 * stops still fit, and where it must turn. The ways home are those of the reach question to the
 * same base; every rule and reserve of the question holds ({@link BudgetCheck}).
 */
public final class ReplanSolver {
  private static final String UNDECIDED = " (each limit alone can be met)";

  private final ReplanRequest request;
  private final ReachRequest question;
  private final TraversalInput ground;
  private final GridSpec spec;
  private final WalkHome walkHome;
  private final Workers workers;
  private final Progress progress;
  private final List<String> warnings = new ArrayList<>();
  private final boolean hasEnergy;
  private final int base;
  private final int here;
  private final ReachLimits whole;
  private final ReachLimits limits;
  private final RuleGround rule;
  private final IntFunction<ReachEnd> stopEnds;
  private final LeftFigures figures;
  private final WayHome way;
  private TripFronts solved;
  private Refinement more;
  private LeftOpen leftOpen;
  private DrivenAgain again;

  private ReplanSolver(
      ReplanRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      Workers workers,
      Progress progress) {
    this.request = request;
    this.question = request.question();
    this.ground = ground;
    this.spec = ground.field().spec();
    this.walkHome = walkHome;
    this.workers = workers;
    this.progress = progress;
    this.base = cell("base '" + question.baseName() + "'", question.baseXM(), question.baseYM());
    this.here = cell("--at", request.xM(), request.yM());
    this.hasEnergy = Costs.hasEnergy(ground.field());
    this.way = new WayHome(ground, hasEnergy);
    this.whole = ReachLimits.of(question, ground.vehicle(), hasEnergy, warnings);
    Left left = whole.held(request.left());
    this.limits = whole.underway(left);
    this.figures = new LeftFigures(left, whole.reserveOf(left), limits);
    // A rescuer sets out with a battery, a distance budget and life support of its own.
    this.rule =
        RuleGround.of(
            question, limits, whole, ground, walkHome, hasEnergy, base, workers, progress);
    this.stopEnds = rule.stopEnds();
  }

  /**
   * Solves a request.
   *
   * @param walkHome walker and refuges; required by the rule walk-back, otherwise ignored
   * @throws UserError if the crew or the base is outside the grid or on ground that cannot be used
   */
  public static ReplanResult solve(
      ReplanRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      Workers workers,
      Progress progress) {
    if (request.question().home() == HomeRule.NONE) {
      throw UserError.of(
          "reach '" + request.question().name() + "'",
          "home rule none asks nobody home",
          "drive-back, walk-back, pair or base-rescue",
          "choose another question with --question");
    }
    return new ReplanSolver(request, ground, walkHome, workers, progress).run();
  }

  private int cell(String what, double xM, double yM) {
    return StartCell.require(what, xM, yM, ground.vehicle().name(), ground.field(), ground.limit());
  }

  private ReplanResult run() {
    if (rule.field().allowed(here) == 0) {
      boolean open = rule.atLeast() != null && rule.atLeast().within().get(here);
      String why = stopEnds.apply(here).label() + (open ? UNDECIDED : "");
      return byDriveAlone(open ? ReachState.POSSIBLY : 0, why);
    }
    begin();
    BudgetCheck judge = settle();
    judge.evaluate(here, 0, null);
    byte state = stateOf(judge, here, 0);
    String end = endOf(judge, state);
    Homeward home = judge.keptHome == null ? null : homeOf(judge);
    if (state != ReachState.SURELY
        && question.home() != HomeRule.DRIVE_BACK
        && (home == null || !home.suffices())) {
      boolean cutOff = state == 0 && judge.end == ReachEnd.NO_WAY_HOME;
      return byDriveAlone(state, cutOff ? stopEnds.apply(here).label() : end);
    }
    List<ProfilePoint> wayHome =
        way.home(here, judge, solved.stops(), rule.homeField(), limits, warnings);
    List<Finding> findings = new ArrayList<>();
    if (state == ReachState.SURELY) {
      findings.add(again.of("home", here, 0));
    }
    List<StopLeft> stops = new ArrayList<>();
    for (Target t : request.stops()) {
      stops.add(alone(t, judge, findings));
    }
    TurnBackSearch.Found turn = TurnBackSearch.Found.NONE;
    if (state == ReachState.SURELY && !request.stops().isEmpty()) {
      turn = turnBack();
    }
    findings.addAll(turn.findings());
    warnings.addAll(turn.leftOut());
    return new ReplanResult(
        request,
        ground.vehicle().name(),
        state,
        end,
        List.of(),
        home,
        false,
        StopsLeft.inOrder(stops, turn),
        turn.turnBack(),
        wayHome,
        turn.planned(),
        findings,
        warnings);
  }

  private Homeward homeOf(BudgetCheck judge) {
    return judge.state == ReachState.SURELY
        ? figures.of(judge, Used.NOTHING)
        : figures.broken(judge);
  }

  private TurnBackSearch.Found turnBack() {
    // The plan keeps to ground of the home rule where a way there leads on.
    List<PlannedWay> ways = new ArrayList<>();
    if (rule.field() != ground.field()) {
      TraversalInput kept = ground.withField(rule.field());
      ways.add(new PlannedWay(kept, request.legs(), hasEnergy, workers, progress));
    }
    ways.add(new PlannedWay(ground, request.legs(), hasEnergy, workers, progress));
    Runnable lessEnergy = () -> solved.addLeastEnergyHome(workers, progress);
    return new TurnBackSearch(request, ground, ways, limits, stopEnds, solved, more, again, figures)
        .from(here, base, lessEnergy);
  }

  /**
   * The answer where no way home by the rule is known for which what is left suffices: the drive
   * home of the vehicle by itself.
   */
  private ReplanResult byDriveAlone(byte state, String end) {
    ReachRequest plain = wide(HomeRule.DRIVE_BACK);
    ReachLimits drive = limits.driveBack();
    TraversalCost field = ground.field();
    Stops none = Stops.none(drive);
    double[] stays = {0, 0};
    TripFronts fronts =
        new TripFronts(
            plain,
            drive,
            field,
            field,
            hasEnergy,
            ground.heightM(),
            here,
            base,
            toCheck(),
            stays,
            none,
            workers,
            progress);
    BudgetCheck judge = new BudgetCheck(drive, fronts);
    if (!fronts.knowsLeastEnergyHome() && !judge.settledByQuickest(here, 0)) {
      fronts.addLeastEnergy(workers, progress);
      judge = new BudgetCheck(drive, fronts);
    }
    solved = fronts;
    judge.evaluate(here, 0, null);
    boolean found = judge.keptHome != null;
    String why = found || state != 0 ? end : ReachEnd.NO_WAY_HOME.label();
    List<StopLeft> stops =
        request.stops().stream().map(t -> StopsLeft.notReached(t, (byte) 0, why)).toList();
    return new ReplanResult(
        request,
        ground.vehicle().name(),
        state,
        why,
        found ? ruleShort() : List.of(),
        found ? figures.of(judge, Used.NOTHING) : null,
        found,
        stops,
        null,
        way.home(here, judge, solved.stops(), field, drive, warnings),
        List.of(),
        List.of(),
        warnings);
  }

  /** What a walk or a rescue from here lacks. */
  private List<Shortfall> ruleShort() {
    return switch (question.home()) {
      case WALK_BACK ->
          new WalkNeeds(walkHome, ground.field(), ground.heightM(), base, workers, progress)
              .at(here);
      case BASE_RESCUE -> new RescuerNeeds(whole, ground, base, workers, progress).at(here, limits);
      default -> List.of();
    };
  }

  private void begin() {
    double[] stays = {0, 0};
    for (Target t : request.stops()) {
      stays[1] = Math.max(stays[1], t.stayS());
    }
    solved =
        new TripFronts(
            wide(question.home()),
            limits,
            rule.field(),
            rule.homeField(),
            hasEnergy,
            ground.heightM(),
            here,
            base,
            toCheck(),
            stays,
            rule.stops(),
            workers,
            progress);
    boolean openHere = rule.atLeast() != null && rule.atLeast().within().get(here);
    leftOpen =
        LeftOpen.of(
            wide(question.home()),
            limits,
            ground,
            hasEnergy,
            here,
            base,
            stays,
            openHere ? rule.atLeast() : null,
            workers,
            progress);
    more =
        new Refinement(
            limits,
            rule.field(),
            rule.homeField(),
            hasEnergy,
            ground.heightM(),
            here,
            base,
            solved.stops(),
            solved.within());
    again =
        new DrivenAgain(
            question,
            limits,
            solved,
            more,
            rule.field(),
            rule.homeField(),
            ground.heightM(),
            walkHome,
            rule.walks(),
            rule.fetched());
  }

  /** The question without bands, over all ground: its fronts serve every place. */
  private ReachRequest wide(HomeRule home) {
    return new ReachRequest(
        question.name(),
        question.baseName(),
        question.baseXM(),
        question.baseYM(),
        question.budget(),
        home,
        List.of(),
        question.stayS(),
        question.rescue(),
        question.reserves(),
        question.drivenAgain(),
        true);
  }

  /** The cells of the crew and of its stops. */
  private BitSet toCheck() {
    BitSet cells = new BitSet();
    cells.set(here);
    for (Target t : request.stops()) {
      int cell = spec.cellOf(t.xM(), t.yM());
      if (cell >= 0) {
        cells.set(cell);
      }
    }
    return cells;
  }

  private BudgetCheck settle() {
    BudgetCheck judge = new BudgetCheck(limits, solved);
    boolean settled = solved.knowsLeastEnergyHome() || judge.settledByQuickest(here, 0);
    for (Target t : request.stops()) {
      int cell = cellOf(t);
      settled &=
          solved.knowsLeastEnergyHome() || cell < 0 || judge.settledByQuickest(cell, t.stayS());
    }
    if (!settled) {
      solved.addLeastEnergy(workers, progress);
    }
    for (double[] weights : more.rounds()) {
      if (!leavesOpen(new BudgetCheck(limits, solved, more))) {
        break;
      }
      more.weigh(weights, answered(), solved, workers, progress);
    }
    return new BudgetCheck(limits, solved, more);
  }

  private boolean leavesOpen(BudgetCheck judge) {
    judge.evaluate(here, 0, null);
    boolean open = judge.weighable();
    for (Target t : request.stops()) {
      int cell = cellOf(t);
      if (!open && cell >= 0) {
        judge.evaluate(cell, t.stayS(), null);
        open = judge.weighable();
      }
    }
    return open;
  }

  /** The cells to check to which a way was found, and that of the crew. */
  private BitSet answered() {
    BitSet cells = new BitSet();
    cells.set(here);
    request.stops().stream().mapToInt(this::cellOf).filter(c -> c >= 0).forEach(cells::set);
    return cells;
  }

  /** The cell of a stop to which a way was found, else -1. */
  private int cellOf(Target t) {
    int cell = spec.cellOf(t.xM(), t.yM());
    return cell >= 0 && solved.answers(cell) ? cell : -1;
  }

  /** The state that the check found, or possibly if lower bounds on the rescue leave it open. */
  private byte stateOf(BudgetCheck judge, int cell, double stayS) {
    boolean open = judge.state == 0 && leftOpen.holds(leftOpen.judge(), cell, stayS);
    return open ? ReachState.POSSIBLY : judge.state;
  }

  private static String endOf(BudgetCheck judge, byte state) {
    if (state == ReachState.SURELY) {
      return "";
    }
    ReachEnd end = judge.end == null ? ReachEnd.NO_WAY_HOME : judge.end;
    return end.label() + (state == ReachState.POSSIBLY ? UNDECIDED : "");
  }

  /** The answer for going to one stop and home; whether it fits after others is not known yet. */
  private StopLeft alone(Target t, BudgetCheck judge, List<Finding> findings) {
    int cell = cellOf(t);
    if (cell < 0) {
      int at = spec.cellOf(t.xM(), t.yM());
      boolean shut = at >= 0 && ground.field().allowed(at) == 0;
      return StopsLeft.notReached(
          t, (byte) 0, shut ? ReachEnd.NO_GO.label() : "no way within the time left");
    }
    judge.evaluate(cell, t.stayS(), null);
    byte state = stateOf(judge, cell, t.stayS());
    if (state != ReachState.SURELY) {
      return StopsLeft.notReached(t, state, endOf(judge, state));
    }
    Homeward home = figures.of(judge, Used.NOTHING);
    double outS = judge.outTimeS;
    findings.add(again.of(t.name(), cell, t.stayS()));
    return new StopLeft(t, state, "", outS, home, false, Double.NaN);
  }
}
