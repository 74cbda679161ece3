package org.scarpway.reach.trip;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntUnaryOperator;
import org.scarpway.audit.Finding;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.front.NextCell;
import org.scarpway.reach.front.Trace;
import org.scarpway.reach.question.BandAmounts;
import org.scarpway.reach.question.ReachByBudget;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.PinchPoint;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;

/** A solved reach request; layers are produced on request, for any range of rows. */
public final class ReachAnswer {
  private final ReachRequest request;
  private final String vehicle;
  private final GridSpec spec;
  private final ReachLimits limits;
  private final TripFronts solved;

  /** Null by home rules other than walk-back. */
  private final WalksHome walks;

  /** Null by home rules other than base-rescue. */
  private final Fetching.Fetched fetched;

  private final Refinement more;
  private final Floats gapM;
  private final Verdicts verdicts;
  private final List<Double> bandAreasM2;
  private final List<ReachByBudget> byBudget;
  private final List<TargetReach> targets;
  private final List<PinchPoint> passages;
  private final List<ReachFigure> summary;
  private final List<Finding> drivenAgain;
  private final List<String> warnings;
  private final Workers workers;

  ReachAnswer(
      ReachRequest request,
      String vehicle,
      GridSpec spec,
      ReachLimits limits,
      TripFronts solved,
      WalksHome walks,
      Fetching.Fetched fetched,
      Refinement more,
      Floats gapM,
      Verdicts verdicts,
      List<ReachByBudget> byBudget,
      List<TargetReach> targets,
      List<PinchPoint> passages,
      List<ReachFigure> summary,
      List<Finding> drivenAgain,
      List<String> warnings,
      Workers workers) {
    this.request = request;
    this.vehicle = vehicle;
    this.spec = spec;
    this.limits = limits;
    this.solved = solved;
    this.walks = walks;
    this.fetched = fetched;
    this.more = more;
    this.gapM = gapM;
    this.verdicts = verdicts;
    BandAmounts amounts = verdicts.amounts;
    this.bandAreasM2 =
        amounts == null ? List.of() : amounts.areasM2(request.bands(), spec.cellAreaM2());
    this.byBudget = byBudget;
    this.targets = targets;
    this.passages = passages;
    this.summary = summary;
    this.drivenAgain = drivenAgain;
    this.warnings = warnings;
    this.workers = workers;
  }

  /**
   * Returns the result with the layers of some rows; everything else refers to the whole grid.
   *
   * @param firstRow first row, from 0 in the north
   * @param rows number of rows, at least 1
   */
  public ReachResult rows(int firstRow, int rows) {
    GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
    int first = firstRow * spec.cols();
    int n = part.cells();
    float[] timeS = noData(n);
    float[] energyJ = noData(n);
    float[] distanceM = noData(n);
    float[] homeTimeS = noData(n);
    float[] wayJ = noData(n);
    PathSums quickestOut = solved.outWays().get(0);
    PathSums quickestHome = request.home().drivesHome() ? solved.homeWays().get(0) : null;
    float[] wayHomeJ = quickestHome == null ? null : noData(n);
    boolean asked = solved.stops().asked();
    float[] stopHomeS = asked ? noData(n) : null;
    workers.overRows(
        rows,
        (from, to) -> {
          for (int i = from * spec.cols(); i < to * spec.cols(); i++) {
            int cell = first + i;
            homeTimeS[i] = homeTimeS(cell);
            if (asked) {
              stopHomeS[i] = solved.stops().tellS(cell);
            }
            if (solved.answers(cell)) {
              timeS[i] = (float) solved.out(Quantity.TIME_S).value(cell);
              distanceM[i] = quickestOut.distanceM(cell);
              wayJ[i] = (float) quickestOut.energyJ(cell);
              if (wayHomeJ != null) {
                wayHomeJ[i] = (float) quickestHome.energyJ(cell);
              }
              CostField energy = solved.out(Quantity.ENERGY_J);
              if (energy != null && energy.reached(cell)) {
                energyJ[i] = (float) solved.leastOutJ(cell);
              }
            }
          }
        });
    float[] gap = new float[n];
    gapM.read(first, gap, 0, n);
    byte[] state = new byte[n];
    verdicts.state.read(first, state, 0, n);
    byte[] binding = new byte[n];
    verdicts.binding.read(first, binding, 0, n);
    BandAmounts amounts = verdicts.amounts;
    byte[] band = amounts == null ? new byte[n] : amounts.bands(request.bands(), first, n);
    return new ReachResult(
        request,
        vehicle,
        new FloatGrid(part, timeS),
        new FloatGrid(part, energyJ),
        new FloatGrid(part, distanceM),
        new FloatGrid(part, wayJ),
        wayHomeJ == null ? null : new FloatGrid(part, wayHomeJ),
        new FloatGrid(part, homeTimeS),
        walks == null ? null : layer(walks.energyJ(), part, first),
        walks == null ? null : layer(walks.distanceM(), part, first),
        asked ? new FloatGrid(part, stopHomeS) : null,
        new Steps(part, first),
        new ByteGrid(part, state),
        new ByteGrid(part, binding),
        new FloatGrid(part, gap),
        new ByteGrid(part, band),
        bandAreasM2,
        byBudget,
        targets,
        passages,
        summary,
        drivenAgain,
        warnings);
  }

  /** What decides the band of each cell; null if no bands are asked for. */
  public BandAmounts bandAmounts() {
    return verdicts.amounts;
  }

  /** The steps of some rows; one thread each, since rasters are written side by side. */
  private final class Steps implements ReachResult.Steps {
    private final GridSpec part;
    private final int first;

    Steps(GridSpec part, int first) {
      this.part = part;
      this.first = first;
    }

    @Override
    public ByteGrid out() {
      CostField labels = solved.out(Quantity.TIME_S);
      return of(cell -> NextCell.code(labels, cell));
    }

    @Override
    public ByteGrid home() {
      CostField labels = request.home().drivesHome() ? solved.home(Quantity.TIME_S) : null;
      return of(cell -> labels == null ? 0 : NextCell.code(labels, cell));
    }

    @Override
    public ByteGrid walk() {
      if (walks == null) {
        return null;
      }
      Line line = new Line(spec);
      Floats timeS = walks.timeS();
      return of(
          cell ->
              Float.isNaN(timeS.get(cell))
                  ? 0
                  : NextCell.codeToAnySource(walks.labels(cell), cell, line));
    }

    @Override
    public ByteGrid fetch() {
      return fetched == null ? null : of(cell -> NextCell.code(fetched.out(cell), cell));
    }

    @Override
    public ByteGrid ride() {
      return fetched == null ? null : of(cell -> NextCell.code(fetched.home(cell), cell));
    }

    private ByteGrid of(IntUnaryOperator code) {
      ByteGrid codes = ByteGrid.empty(part);
      for (int i = 0; i < part.cells(); i++) {
        codes.values()[i] = (byte) code.applyAsInt(first + i);
      }
      return codes;
    }
  }

  private static FloatGrid layer(Floats all, GridSpec part, int first) {
    FloatGrid grid = FloatGrid.empty(part);
    all.read(first, grid.values(), 0, part.cells());
    return grid;
  }

  /**
   * The drivable trip behind the state of a cell; null if the cell is not surely reached.
   *
   * @param stayS length of the stay at the far end (s)
   */
  TripLine trip(int cell, double stayS) {
    if (!solved.answers(cell)) {
      return null;
    }
    BitSet weighed = new BitSet();
    weighed.set(cell);
    more.ask(weighed, workers);
    BudgetCheck judge = new BudgetCheck(limits, solved, more);
    judge.evaluate(cell, stayS, null);
    return judge.state == ReachState.SURELY
        ? TripLine.of(cell, stayS, judge, solved.stops(), Trace.Drawn.AS_STRAIGHT_AS_CAN_BE)
        : null;
  }

  /** Audit findings of the recalculated trips. */
  public List<Finding> drivenAgain() {
    return drivenAgain;
  }

  private float homeTimeS(int cell) {
    if (request.home() == HomeRule.WALK_BACK) {
      return (float) solved.stopS(cell);
    }
    CostField home = solved.home(Quantity.TIME_S);
    return home.reached(cell) && (!solved.ended() || solved.answers(cell))
        ? (float) home.value(cell)
        : Float.NaN;
  }

  private static float[] noData(int n) {
    float[] a = new float[n];
    Arrays.fill(a, Float.NaN);
    return a;
  }
}
