package org.scarpway.reach.trip;

import java.lang.ref.SoftReference;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.front.StepCosts;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.vehicle.TraversalCost;

/**
 * Time, energy and distance summed along the least-cost paths of one front, per cell. Budgets are
 * compared with these sums, because one and the same path must meet all of them.
 *
 * <p>A step that ends between two cells takes the interpolated sums of both, which is valid where
 * their paths run side by side. Where they diverge (around an obstacle, or where two fronts meet)
 * or ran over different ground (a sum differs by more than a drive between the cells costs) no path
 * with such sums runs between them, so the step is replaced by the one to the cell through which it
 * costs less. The same is done where headings are barred, since labels there may be below the cost
 * of a drivable path by the share that {@link Stencil#gain} permits. Sums are therefore always
 * those of paths that can be driven, never less.
 */
public final class PathSums implements Ride {
  /** Paths whose first headings differ by more than this, in 32nds of a turn, have diverged. */
  private static final double PARTING = 6;

  /**
   * The edge between the two ends of a step is about this share of the step. Where ways run side by
   * side, no sum differs by more than a drive along that edge costs.
   */
  private static final double EDGE = 0.5;

  private final CostField labels;
  private final Floats heightM;
  private final boolean hasEnergy;
  private final Stops stops;
  private final boolean isOut;

  /** Energy already used where the ways out begin (J). */
  private final double startJ;

  private final StepCosts steps;
  private final Floats[] sums;

  /**
   * Out: latest moment at which everybody is home (s). Home: largest excess of that moment over
   * simply driving on (s). Null if not requested. These are maxima over a path, not sums, so they
   * are not interpolated where a step ends between two cells.
   */
  private final Floats stopS;

  /**
   * Largest energy recovered, or required at a stop, above the energy used by then (J); null for
   * none.
   */
  private final Floats backJ;

  /**
   * Largest energy used before a cell (out), or from any place on the way home, started with a full
   * battery (J).
   */
  private final Floats mostJ;

  /** Step codes by cell during a walk; null if they are read from the labels. */
  private byte[] codes;

  /** Cells whose paths are summed; null for all. */
  private BitSet cells;

  /** Cells on whose way out a stop breaks a limit other than time; null if none can. */
  private BitSet broken;

  private int a;
  private int b;
  private int used;
  private double share;
  private final Line line;
  private int[] stack = new int[1024];

  private PathSums(
      CostField labels,
      TraversalCost field,
      Direction direction,
      Floats heightM,
      boolean hasEnergy,
      Stops stops,
      double startJ) {
    this.labels = labels;
    this.heightM = heightM;
    this.hasEnergy = hasEnergy;
    this.stops = stops;
    this.isOut = labels.costs().direction() == Direction.OUT;
    this.startJ = isOut ? startJ : 0;
    this.steps = new StepCosts(field, direction, hasEnergy, labels.stencil());
    boolean gains =
        hasEnergy && (field.gains() || (!isOut && stops != null && stops.waitS() != null));
    int n = field.spec().cells();
    ScratchFile file = field.scratch(bytesPerCell(hasEnergy, asked(), gains) * (long) n);
    this.sums = new Floats[hasEnergy ? 3 : 2];
    for (int q = 0; q < sums.length; q++) {
      sums[q] = Floats.of(n, Float.NaN, file);
    }
    this.stopS = asked() ? Floats.of(n, Float.NaN, file) : null;
    this.backJ = gains ? Floats.of(n, Float.NaN, file) : null;
    this.mostJ = gains ? Floats.of(n, Float.NaN, file) : null;
    this.line = new Line(labels.costs().field().spec());
  }

  /**
   * @param asked true if stops require something
   * @param gains true if energy may return to the battery
   */
  static int bytesPerCell(boolean hasEnergy, boolean asked, boolean gains) {
    return Float.BYTES * ((hasEnergy ? 3 : 2) + (asked ? 1 : 0) + (gains ? 2 : 0));
  }

  /** Cache of the sums of one front as last requested. */
  private static final class Kept {
    private SoftReference<PathSums> ways;

    synchronized PathSums along(Floats heightM, boolean hasEnergy, Supplier<PathSums> add) {
      PathSums before = ways == null ? null : ways.get();
      if (before == null || !before.heightM().sameAs(heightM) || before.hasEnergy() != hasEnergy) {
        before = add.get();
        ways = new SoftReference<>(before);
      }
      return before;
    }
  }

  /** Sums without requirements for stops; cached while memory allows. */
  public static PathSums along(CostField labels, Floats heightM, boolean hasEnergy) {
    return once(labels, heightM, hasEnergy, () -> along(labels, heightM, hasEnergy, null));
  }

  /**
   * The same from elsewhere, cached likewise.
   *
   * @param add makes the sums if they are not cached
   */
  static PathSums once(
      CostField labels, Floats heightM, boolean hasEnergy, Supplier<PathSums> add) {
    return labels
        .costs()
        .field()
        .memory()
        .of(labels, Kept.class, Kept::new)
        .along(heightM, hasEnergy, add);
  }

  /**
   * Sums that are still to be added up.
   *
   * @param stops requirements of a stop anywhere on the ways; null for none
   */
  static PathSums empty(CostField labels, Floats heightM, boolean hasEnergy, Stops stops) {
    Costs c = labels.costs();
    return new PathSums(labels, c.field(), c.direction(), heightM, hasEnergy, stops, 0);
  }

  /**
   * @param stops requirements of a stop anywhere on the ways; null for none
   */
  public static PathSums along(CostField labels, Floats heightM, boolean hasEnergy, Stops stops) {
    return along(labels, heightM, hasEnergy, stops, 0);
  }

  /**
   * @param stops requirements of a stop anywhere on the ways; null for none
   * @param startJ energy already used from the battery where ways out begin (J)
   */
  static PathSums along(
      CostField labels, Floats heightM, boolean hasEnergy, Stops stops, double startJ) {
    Costs c = labels.costs();
    return along(labels, c.field(), c.direction(), heightM, hasEnergy, stops, startJ);
  }

  /** Sums for a front that was computed with other costs than those of the ground. */
  public static PathSums along(
      CostField labels,
      TraversalCost field,
      Direction direction,
      Floats heightM,
      boolean hasEnergy,
      Stops stops) {
    return along(labels, field, direction, heightM, hasEnergy, stops, 0);
  }

  static PathSums along(
      CostField labels,
      TraversalCost field,
      Direction direction,
      Floats heightM,
      boolean hasEnergy,
      Stops stops,
      double startJ) {
    return new PathSums(labels, field, direction, heightM, hasEnergy, stops, startJ).addUp();
  }

  /**
   * Like {@link #along(CostField, TraversalCost, Direction, Floats, boolean, Stops)}, but only for
   * some cells and those on their paths.
   */
  static PathSums of(
      BitSet cells,
      CostField labels,
      TraversalCost field,
      Direction direction,
      Floats heightM,
      boolean hasEnergy,
      Stops stops,
      double startJ) {
    PathSums all = new PathSums(labels, field, direction, heightM, hasEnergy, stops, startJ);
    all.cells = cells;
    return all.addUp();
  }

  PathSums addUp() {
    walk(new BitSet(sums[0].size()), this::add);
    holdStops();
    return this;
  }

  /** Checks the stops that were known when the sums were asked for. */
  void holdStops() {
    if (asked() && isOut) {
      holdStops(stops);
    }
  }

  private boolean asked() {
    return stops != null && stops.asked();
  }

  /**
   * Checks stops on the ways out against limits other than time; repeated when more rides are
   * known, for the cells that fewer left broken.
   */
  void holdStops(Stops known) {
    BitSet before = broken;
    broken = known.askMore() ? new BitSet(sums[0].size()) : null;
    if (broken != null) {
      BitSet done = new BitSet(sums[0].size());
      if (before != null) {
        done.set(0, sums[0].size());
        done.andNot(before);
      }
      walk(done, (cell, code) -> breaks(cell, code, known));
    }
  }

  /** All values per cell but which stops break a limit. */
  List<Floats> layers() {
    List<Floats> all = new ArrayList<>(List.of(sums));
    if (stopS != null) {
      all.add(stopS);
    }
    if (backJ != null) {
      all.addAll(List.of(backJ, mostJ));
    }
    return all;
  }

  CostField labels() {
    return labels;
  }

  Floats heightM() {
    return heightM;
  }

  boolean hasEnergy() {
    return hasEnergy;
  }

  @Override
  public float timeS(int cell) {
    return sums[0].get(cell);
  }

  @Override
  public float distanceM(int cell) {
    return sums[1].get(cell);
  }

  /** Energy of the way (J), NaN without an energy model. */
  double energyJ(int cell) {
    return hasEnergy ? sums[2].get(cell) + heightTermJ(heightM.get(cell)) : Double.NaN;
  }

  /** Latest time at which everybody is home if the vehicle stops anywhere along the way out (s). */
  float latestS(int cell) {
    return stopS.get(cell);
  }

  /**
   * Time from leaving a cell until everybody is home, wherever the vehicle stops on its way home
   * (s).
   */
  double needS(int cell) {
    return stopS == null ? sums[0].get(cell) : sums[0].get(cell) + Math.max(0.0, stopS.get(cell));
  }

  /** True if a stop on the way out breaks a limit other than time. */
  boolean broken(int cell) {
    return broken != null && broken.get(cell);
  }

  /**
   * Energy used from the battery on arrival by the way out, that used before it included (J);
   * energy returned to a full battery does not count.
   */
  double usedJ(int cell) {
    return energyJ(cell) + (backJ == null ? startJ : backJ.get(cell));
  }

  /** Largest energy used at any moment of the way out to the cell (J). */
  double mostJ(int cell) {
    return mostJ == null ? usedJ(cell) : mostJ.get(cell);
  }

  /**
   * Largest energy used at any moment of the way home, stops included, added to the energy used
   * before (J).
   */
  @Override
  public double needJ(int cell, double before) {
    return backJ == null
        ? before + energyJ(cell)
        : Math.max(before + energyJ(cell) + backJ.get(cell), mostJ.get(cell));
  }

  /** The computation for a cell, run after the cells that its path depends on. */
  private interface Visit {
    void at(int cell, int code);
  }

  /**
   * Visits all cells with a path, each after those that its path depends on.
   *
   * @param done cells that are left out, and those that have been visited
   */
  private void walk(BitSet done, Visit visit) {
    codes = labels.stepsByCell();
    int end = sums[0].size();
    for (int start = next(0); start >= 0 && start < end; start = next(start + 1)) {
      if (!done.get(start) && reached(start)) {
        walk(start, done, visit);
      }
    }
    codes = null;
  }

  private int stepAt(int cell) {
    return codes == null ? labels.stepAt(cell) : codes[cell] & 0xFF;
  }

  private boolean reached(int cell) {
    return codes == null ? labels.reached(cell) : (codes[cell] & 0xFF) != Stencil.NONE;
  }

  private int next(int cell) {
    return cells == null ? cell : cells.nextSetBit(cell);
  }

  private void walk(int start, BitSet done, Visit visit) {
    int depth = 0;
    stack[depth++] = start;
    while (depth > 0) {
      int cell = stack[depth - 1];
      int code = stepAt(cell);
      int before = depth;
      if (!done.get(cell) && code < Stencil.CODES) {
        depth = need(labels.stencil().first(cell, code), done, depth);
        if (Stencil.endsBetween(code)) {
          depth = need(labels.stencil().second(cell, code), done, depth);
        }
      }
      if (depth == before) {
        if (!done.get(cell)) {
          visit.at(cell, code);
          done.set(cell);
        }
        depth--;
      }
    }
  }

  private int need(int cell, BitSet done, int depth) {
    if (done.get(cell)) {
      return depth;
    }
    if (depth == stack.length) {
      stack = Arrays.copyOf(stack, 2 * depth);
    }
    stack[depth] = cell;
    return depth + 1;
  }

  private void add(int cell, int code) {
    if (code == Stencil.STRAIGHT) {
      addStraight(cell);
      return;
    }
    double[] cost = choose(cell, code);
    for (int q = 0; q < sums.length; q++) {
      float atA = sums[q].get(a);
      float atB = sums[q].get(b);
      double before = (1 - share) * atA + share * atB;
      sums[q].set(cell, (float) (before + cost[q]));
    }
    if (stopS != null) {
      stopOfStep(cell, cost[0]);
    }
    if (backJ != null) {
      double heldJ = waits() ? sums[2].get(cell) + heightTermJ(heightM(cell, -1)) : energyJ(cell);
      double back = Math.max(backJ.get(a), backJ.get(b));
      back = Math.max(back, waits() ? waitedOnStep(cell) : -heldJ);
      backJ.set(cell, (float) back);
      double most = Math.max(mostJ.get(a), mostJ.get(b));
      mostJ.set(cell, (float) Math.max(most, heldJ + back));
    }
  }

  /**
   * Sets the two cells between which a step ends and the step code to use.
   *
   * @return costs of the step by quantity, until the next call
   */
  private double[] choose(int cell, int code) {
    Stencil stencil = labels.stencil();
    a = stencil.first(cell, code);
    share = stencil.share(labels.costs(), cell, code);
    double shareOfStep = share;
    b = share > 0 ? stencil.second(cell, code) : a;
    used = code;
    if (share > 0 && (parts(a, b) || windowed(cell) || windowed(a) || windowed(b))) {
      throughOne(cell, code);
    }
    double[] cost = steps.of(cell, used, shareOfStep);
    if (share > 0 && apart(cost)) {
      throughOne(cell, code);
      return steps.of(cell, used, shareOfStep);
    }
    return cost;
  }

  /** Lets the step end in one of its two cells, that through which it costs less. */
  private void throughOne(int cell, int code) {
    Stencil stencil = labels.stencil();
    int end = stencil.throughEnd(labels.costs(), cell, code, labels.value(a), labels.value(b));
    used = Stencil.toCell(code, end);
    a = end == 0 ? a : b;
    b = a;
    share = 0;
  }

  /**
   * True if a sum of the two cells differs by more than a drive between them costs: their paths ran
   * over different ground, and nobody can drive the mean of both.
   */
  private boolean apart(double[] cost) {
    for (int q = 0; q < sums.length; q++) {
      if (Math.abs(sums[q].get(a) - sums[q].get(b)) > EDGE * cost[q]) {
        return true;
      }
    }
    return false;
  }

  private double heightM(int cell) {
    return heightM.get(cell);
  }

  private double waitJ(int cell) {
    return waits() ? stops.waitJ(cell) : 0;
  }

  /** True if a vehicle that stops on the way home waits for another. */
  private boolean waits() {
    return !isOut && stops != null && stops.waitS() != null;
  }

  /**
   * Upper bound, over a step, on the energy of waiting beyond what is still to be used from there
   * (J): the longest wait of its cells, begun at the end of the step and at its highest point.
   */
  private double waitedOnStep(int cell) {
    double waitJ = Math.max(waitJ(cell), Math.max(waitJ(a), waitJ(b)));
    for (int which = 0; which < 2; which++) {
      int m = labels.stencil().between(cell, used, which);
      waitJ = m >= 0 && reached(m) ? Math.max(waitJ, waitJ(m)) : waitJ;
    }
    double leftJ = (1 - share) * sums[2].get(a) + share * sums[2].get(b);
    return waitJ - leftJ - heightTermJ(heightM(cell, 1));
  }

  private double heightTermJ(double atM) {
    return steps.of(2).heightTermJ(heightM.get(labels.sources()[0]), atM);
  }

  /** Height of the highest (1) or lowest (-1) cell of the chosen step (m). */
  private double heightM(int cell, int up) {
    double most = up * heightM(cell);
    most = Math.max(most, Math.max(up * heightM(a), up * heightM(b)));
    for (int which = 0; which < 2; which++) {
      int m = labels.stencil().between(cell, used, which);
      // A cell that only touches the step may have no height.
      most = m >= 0 && up * heightM(m) > most ? up * heightM(m) : most;
    }
    return up * most;
  }

  private double homeS(int cell) {
    return stops.homeS().get(cell);
  }

  /**
   * Sets the sums of a cell from the straight line to its source, in the order of travel or against
   * it.
   */
  private void addStraight(int cell) {
    int source = labels.straightSource(cell, line);
    line.between(cell, source);
    for (int q = 0; q < sums.length; q++) {
      sums[q].set(cell, source == cell ? 0 : (float) line.cost(steps.of(q)));
    }
    if (stopS != null) {
      stopS.set(cell, (float) stopsOnLine(cell, source));
    }
    if (backJ != null) {
      energyOnLine(cell, source);
    }
  }

  private double stopsOnLine(int cell, int source) {
    double wholeS = sums[0].get(cell);
    double most = homeS(cell) + (isOut ? wholeS : -wholeS);
    double onS = 0;
    for (int i = 0; source != cell && i < line.count(); i++) {
      double pieceS = line.cost(steps.of(0), i);
      if (i > 0) {
        // Time until the cell is left; on the way out the rest of the line is still to be driven
        // then.
        double leftS = isOut ? wholeS - onS : onS + pieceS - wholeS;
        most = Math.max(most, homeS(line.cell(i)) + leftS);
      }
      onS += pieceS;
    }
    return most;
  }

  private void energyOnLine(int cell, int source) {
    double heldJ = 0;
    double back = startJ;
    double most = startJ;
    int n = source == cell ? 0 : line.count();
    double leftJ = 0;
    for (int i = n - 1; i >= 0; i--) {
      int here = line.cell(i);
      int next = line.cell(Math.min(n - 1, i + 1));
      if (waits()) {
        // Evaluated when the cell is left and at the highest point of the line in it.
        double high = Math.max(heightM(line.cell(Math.max(0, i - 1))), heightM(next));
        back = Math.max(back, waitJ(here) - leftJ - heightTermJ(Math.max(high, heightM(here))));
        leftJ += line.cost(steps.of(2), i);
      }
      heldJ += line.cost(steps.of(2), i) + steps.of(2).heightTermJ(heightM(next), heightM(here));
      back = Math.max(back, waitJ(here) - heldJ);
      most = Math.max(most, heldJ + back);
    }
    backJ.set(cell, (float) back);
    mostJ.set(cell, (float) most);
  }

  /**
   * Includes the cells that a step crosses, since getting home from one of them may take longer. On
   * the way out each counts until it is left, which is before the part of the step in the end cell
   * is driven; home likewise.
   */
  private void stopOfStep(int cell, double timeS) {
    Stencil stencil = labels.stencil();
    double between = stencil.largestBetween(stops.homeS(), cell, used);
    if (isOut) {
      double leftS = sums[0].get(cell) - lastS(cell, cell);
      double most = Math.max(stopS.get(a), stopS.get(b));
      most = Math.max(most, leftS + between);
      stopS.set(cell, (float) Math.max(most, sums[0].get(cell) + homeS(cell)));
    } else {
      double leftS = timeS - lastS(a, b);
      double most = Math.max(stopS.get(a), stopS.get(b));
      most = Math.max(most, leftS - sums[0].get(cell) + between);
      stopS.set(cell, (float) Math.max(most, homeS(cell) - sums[0].get(cell)));
    }
  }

  /**
   * Time of the last quarter of a step to the far ring, which lies in the cell where it ends (s).
   */
  private double lastS(int one, int other) {
    int heading = (int) Stencil.heading(used);
    int next = (heading + 1) & (Headings.COUNT - 1);
    double least =
        Math.min(
            Math.min(steps.of(0).perM(one, heading), steps.of(0).perM(one, next)),
            Math.min(steps.of(0).perM(other, heading), steps.of(0).perM(other, next)));
    return 0.25 * labels.stencil().lengthM(used) * (least < Double.POSITIVE_INFINITY ? least : 0);
  }

  /** Marks a cell if a stop on its path or on the step to it breaks a limit other than time. */
  private void breaks(int cell, int code, Stops known) {
    double timeS = sums[0].get(cell);
    double arrivedJ = usedJ(cell);
    double drivenM = sums[1].get(cell);
    boolean bad = !known.hold(cell, timeS, arrivedJ, drivenM);
    if (code == Stencil.STRAIGHT) {
      int source = labels.straightSource(cell, line);
      line.between(cell, source);
      double high = heightM(source);
      for (int i = 0; source != cell && i < line.count(); i++) {
        high = Math.max(high, heightM(line.cell(i)));
      }
      double mostUsedJ = usedAtJ(cell, high);
      for (int i = 1; !bad && source != cell && i < line.count() - 1; i++) {
        bad = !known.hold(line.cell(i), timeS, mostUsedJ, drivenM);
      }
    } else {
      choose(cell, code);
      bad |= broken.get(a) || broken.get(b);
      // Cells count until they are left, at the latest when the whole step has been driven.
      double mostUsedJ = usedAtJ(cell, heightM(cell, 1));
      bad |= !known.hold(a, timeS, mostUsedJ, drivenM) || !known.hold(b, timeS, mostUsedJ, drivenM);
      for (int which = 0; !bad && which < 2; which++) {
        int m = labels.stencil().between(cell, code, which);
        // A closed cell that only touches the step is not entered.
        bad = m >= 0 && reached(m) && !known.hold(m, timeS, mostUsedJ, drivenM);
      }
    }
    broken.set(cell, bad);
  }

  /** Upper bound on the energy used when a way out has just reached that height (J). */
  private double usedAtJ(int cell, double highM) {
    return hasEnergy ? usedJ(cell) - heightTermJ(heightM(cell)) + heightTermJ(highM) : Double.NaN;
  }

  /**
   * True if some headings of the cell are barred; a path between two others may then not be
   * drivable.
   */
  private boolean windowed(int cell) {
    int allowed = labels.costs().field().allowed(cell);
    return allowed != 0 && allowed != -1;
  }

  private boolean parts(int a, int b) {
    int codeA = stepAt(a);
    int codeB = stepAt(b);
    if (codeA >= Stencil.CODES || codeB >= Stencil.CODES) {
      return false;
    }
    double d = Math.abs(Stencil.heading(codeA) - Stencil.heading(codeB));
    return Math.min(d, 32 - d) > PARTING;
  }
}
