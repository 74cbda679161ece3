package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.clearance.ReachPinchPoints;
import org.scarpway.reach.clearance.WidestPathField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReachSummary;
import org.scarpway.reach.question.RescueTime;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes how far from a base a vehicle can go and still come home. The home rules are in the
 * package description.
 */
public final class ReachSolver {
  private static final String UNDECIDED = " (each limit alone can be met)";

  private final ReachRequest request;
  private final TraversalInput ground;
  private final TraversalCost open;
  private final GridSpec spec;
  private final int cells;

  private ReachSolver(ReachRequest request, TraversalInput ground) {
    this.request = request;
    this.ground = ground;
    this.open = ground.field();
    this.spec = open.spec();
    this.cells = spec.cells();
  }

  /**
   * Solves a request and returns all layers in memory.
   *
   * @param walkHome walker and refuges; required by the rule walk-back, otherwise ignored and may
   *     be null
   * @throws UserError if the base or a refuge is outside the grid or on ground that cannot be used,
   *     or if the vehicle's data do not suffice for a limit or rule
   */
  public static ReachResult solve(
      ReachRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      List<Target> targets,
      Workers workers,
      Progress progress) {
    ReachAnswer answer = answer(request, ground, walkHome, targets, workers, progress);
    return answer.rows(0, ground.field().spec().rows());
  }

  /**
   * Like solve, but layers are produced on request, row by row, so they need not all fit in memory.
   */
  public static ReachAnswer answer(
      ReachRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      List<Target> targets,
      Workers workers,
      Progress progress) {
    return new ReachSolver(request, ground).run(walkHome, targets, workers, progress);
  }

  private ReachAnswer run(
      WalkHome walkHome, List<Target> targets, Workers workers, Progress progress) {
    Quantity banded = bandQuantity(request);
    int base =
        StartCell.require(
            "base '" + request.baseName() + "'",
            request.baseXM(),
            request.baseYM(),
            ground.vehicle().name(),
            ground.field(),
            ground.limit());
    List<String> warnings = new ArrayList<>();
    boolean hasEnergy = Costs.hasEnergy(open);
    if (banded == Quantity.ENERGY_J && !hasEnergy) {
      throw UserError.of(
          "reach '" + request.name() + "'",
          "bands of energy for a vehicle without an energy model",
          "bands of time or distance",
          "change the bands or complete the vehicle file");
    }
    ReachLimits limits = ReachLimits.of(request, ground.vehicle(), hasEnergy, warnings);
    String usedUp =
        RescueTime.usedUp(
            request.home(),
            request.budget(),
            request.reserves(),
            request.rescue(),
            ground.vehicle(),
            Math.min(spec.cellXM(), spec.cellYM()));
    if (usedUp != null) {
      warnings.add(usedUp);
    }
    if (ground.loaded() == null
        && (request.home() == HomeRule.PAIR || request.home() == HomeRule.BASE_RESCUE)) {
      throw new IllegalArgumentException("the rule asks for a loaded vehicle");
    }
    RuleGround rule =
        RuleGround.of(
            request, limits, limits, ground, walkHome, hasEnergy, base, workers, progress);
    WalksHome walks = rule.walks();
    TraversalCost field = rule.field();
    TraversalCost homeField = rule.homeField();
    double[] stays = {request.stayS(), request.stayS()};
    for (Target t : targets) {
      stays[0] = Math.min(stays[0], stayS(t));
      stays[1] = Math.max(stays[1], stayS(t));
    }
    WidestPathField room = WidestPathField.about(base, open, workers);
    room.spread(workers);
    Floats gapM = room.bottleneckWidthM();
    ScratchFile file = open.scratch(11L * cells);
    TripFronts solved =
        new TripFronts(
            request,
            limits,
            field,
            homeField,
            hasEnergy,
            ground.heightM(),
            base,
            stays,
            rule.stops(),
            workers,
            progress);
    Verdicts v = new Verdicts(cells, banded != null, file);
    BudgetShares shares = new BudgetShares(limits, solved.stops());
    BeyondReach beyond = BeyondReach.of(open, base, limits, solved, rule.stopEnds(), workers);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          BudgetCheck judge = new BudgetCheck(limits, solved);
          for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
            if (solved.answers(cell)) {
              decide(v, shares, cell, judge, banded);
            } else {
              v.binding.set(cell, beyond.end(cell).code());
            }
          }
        });
    Refinement more =
        new Refinement(
            limits,
            field,
            homeField,
            hasEnergy,
            ground.heightM(),
            base,
            solved.stops(),
            solved.within());
    double undecidedPct = ReachSummary.undecidedPct(v.state);
    List<Target> staying = targets.stream().map(t -> t.withStay(stayS(t))).toList();
    new WeightingRounds(limits, solved, more, spec, request.stayS(), staying)
        .run(v.state, (cell, judge) -> decide(v, shares, cell, judge, banded), workers, progress);
    LeftOpen left =
        LeftOpen.of(
            request,
            limits,
            ground,
            hasEnergy,
            base,
            base,
            stays,
            rule.atLeast(),
            workers,
            progress);
    if (left.anything()) {
      workers.overRows(
          spec.rows(),
          (from, to) -> {
            BudgetCheck judge = left.judge();
            for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
              if (v.state.get(cell) == 0 && left.holds(judge, cell, request.stayS())) {
                v.state.set(cell, ReachState.POSSIBLY);
              }
            }
          });
    }
    countPossible(v, shares, solved, limits, workers);
    List<TargetReach> reached = new ArrayList<>();
    for (Target t : targets) {
      TargetReach r = target(t, solved, new BudgetCheck(limits, solved, more), limits, v, banded);
      boolean open =
          !r.reached()
              && !r.end().endsWith(UNDECIDED)
              && left.holds(left.judge(), spec.cellOf(t.xM(), t.yM()), stayS(t));
      reached.add(open ? notReached(t, r.end() + UNDECIDED) : r);
    }
    reached = TargetReasons.of(request, ground, walkHome, reached, v.state, workers, progress);
    warnAtEdge(v, warnings);
    DrivenAgain again =
        new DrivenAgain(
            request,
            limits,
            solved,
            more,
            field,
            homeField,
            ground.heightM(),
            walkHome,
            walks,
            rule.fetched());
    List<ReachFigure> summary =
        new ArrayList<>(ReachSummary.of(spec, base, v.state, v.binding, gapM, undecidedPct));
    summary.addAll(limits.reserveFigures());
    summary.addAll(ReachSummary.suits(request.budget().suits()));
    if (walks != null) {
      warnings.addAll(walks.notes(v.state));
      summary.addAll(walks.figures(v.state));
    }
    return new ReachAnswer(
        request,
        ground.vehicle().name(),
        spec,
        limits,
        solved,
        walks,
        rule.fetched(),
        more,
        gapM,
        v,
        shares.of(spec.cellAreaM2()),
        reached,
        ReachPinchPoints.of(open, room.clearance(), base, v.state, reached),
        summary,
        again.of(v.state, surely(reached), request.drivenAgain(), workers),
        warnings,
        workers);
  }

  /**
   * Returns the quantity of the bands, null without bands.
   *
   * @throws UserError if they are not of one quantity in increasing order
   */
  public static Quantity bandQuantity(ReachRequest request) {
    List<Band> bands = request.bands();
    for (int i = 1; i < bands.size(); i++) {
      if (bands.get(i).quantity() != bands.get(0).quantity()
          || bands.get(i).amount() <= bands.get(i - 1).amount()) {
        throw UserError.of(
            "reach '" + request.name() + "'",
            "band " + bands.get(i).label() + " after " + bands.get(i - 1).label(),
            "increasing amounts of one quantity",
            "sort the bands and use one kind of unit");
      }
    }
    if (bands.size() > 255) {
      throw UserError.of(
          "reach '" + request.name() + "'", bands.size() + " bands", "255 at most", "drop some");
    }
    return bands.isEmpty() ? null : bands.get(0).quantity();
  }

  private void decide(
      Verdicts v, BudgetShares shares, int cell, BudgetCheck judge, Quantity banded) {
    judge.evaluate(cell, request.stayS(), banded);
    v.state.set(cell, judge.state);
    v.binding.set(cell, judge.end == null ? 0 : judge.end.code());
    if (judge.state == ReachState.SURELY) {
      if (banded != null) {
        v.amounts.set(cell, judge.bandAmount);
      }
      shares.surely(judge, cell, request.stayS());
    }
  }

  private void countPossible(
      Verdicts v, BudgetShares shares, TripFronts solved, ReachLimits limits, Workers workers) {
    if (!shares.asked()) {
      return;
    }
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          BudgetCheck judge = new BudgetCheck(limits, solved);
          for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
            if (v.state.get(cell) == ReachState.POSSIBLY) {
              shares.possibly(judge, cell, request.stayS());
            }
          }
        });
  }

  private TargetReach target(
      Target t,
      TripFronts solved,
      BudgetCheck judge,
      ReachLimits limits,
      Verdicts v,
      Quantity banded) {
    int cell = spec.cellOf(t.xM(), t.yM());
    if (cell < 0) {
      return notReached(t, "outside the elevation model");
    }
    if (!solved.answers(cell)) {
      return notReached(t, label(v.binding.get(cell)));
    }
    judge.evaluate(cell, stayS(t), banded);
    if (judge.state != ReachState.SURELY) {
      return notReached(
          t, judge.end.label() + (judge.state == ReachState.POSSIBLY ? UNDECIDED : ""));
    }
    return new TargetReach(
        t,
        true,
        judge.outTimeS,
        judge.homeTimeS,
        judge.totalTimeS,
        judge.totalEnergyJ,
        judge.totalDistanceM,
        spare(limits.timeS(), judge.neededTimeS),
        spare(limits.energyJ(), judge.neededEnergyJ),
        spare(limits.lifeSupportS(), judge.neededAliveS),
        "",
        null);
  }

  /** What is left beyond the reserve, NaN without a limit. */
  private static double spare(double planned, double needed) {
    return planned < Double.POSITIVE_INFINITY ? planned - needed : Double.NaN;
  }

  /** Surely reached targets, each with the stay that applies there. */
  private List<Target> surely(List<TargetReach> reached) {
    return reached.stream()
        .filter(TargetReach::reached)
        .map(t -> t.target().withStay(stayS(t.target())))
        .toList();
  }

  private double stayS(Target t) {
    return t.stayS() > 0 ? t.stayS() : request.stayS();
  }

  private static TargetReach notReached(Target t, String end) {
    double nan = Double.NaN;
    return new TargetReach(t, false, nan, nan, nan, nan, nan, nan, nan, nan, end, null);
  }

  private static String label(byte code) {
    for (ReachEnd e : ReachEnd.values()) {
      if (e.code() == code) {
        return e.label();
      }
    }
    return "";
  }

  private void warnAtEdge(Verdicts v, List<String> warnings) {
    int last = spec.rows() - 1;
    for (int row = 0; row <= last; row++) {
      boolean whole = row == 0 || row == last;
      int step = whole ? 1 : Math.max(1, spec.cols() - 1);
      for (int col = 0; col < spec.cols(); col += step) {
        if (v.state.get(row * spec.cols() + col) != 0) {
          warnings.add("runs into the edge of the elevation model: the true reach may be larger");
          return;
        }
      }
    }
  }
}
