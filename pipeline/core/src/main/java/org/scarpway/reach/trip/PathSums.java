package org.scarpway.reach.trip;

import java.lang.ref.SoftReference;
import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.vehicle.MoveField;

/**
 * Time, energy and distance that add up along the best ways of one front, per cell: what a budget
 * is held against, because one and the same way must meet all of them.
 *
 * <p>A step that ends between two cells takes the interpolated sums of both, which holds where
 * their ways run alongside. Where they part (around an obstacle, or where two fronts meet) there is
 * no way between, so the step is replaced by the one to the cell through which it costs less. So it
 * is where headings are barred, since labels there may promise what {@link Stencil#gain} leaves of
 * a way: sums are of ways that can be driven, never less.
 */
public final class PathSums implements Ride {
  /** Ways whose first headings differ by more than this, of 32, do not run alongside. */
  private static final double PARTING = 6;

  private final CostField labels;
  private final Floats heightM;
  private final boolean hasEnergy;
  private final Stops stops;
  private final boolean isOut;
  private final Costs[] costs;
  private final Floats[] sums;

  /**
   * Out: when everybody is home at the latest; home: by how much that is later than by driving on,
   * at most; null where not asked. Largest values over a way, so that nothing adds up where a step
   * ends between two cells.
   */
  private final Floats stopS;

  /** Most that was put back, or is needed at a stop, over what is used by then; null for none. */
  private final Floats backJ;

  /** Most used before a cell (out), or from any place on the way home, begun with all there is. */
  private final Floats mostJ;

  /** Cells on whose way out a stop breaks a limit other than time; null where none can. */
  private BitSet broken;

  private int a;
  private int b;
  private int used;
  private double share;
  private final Line line;
  private int[] stack = new int[1024];

  private PathSums(
      CostField labels, Floats heightM, boolean hasEnergy, Stops stops, Costs... costs) {
    this.labels = labels;
    this.heightM = heightM;
    this.hasEnergy = hasEnergy;
    this.stops = stops;
    this.isOut = labels.costs().direction() == Direction.OUT;
    this.costs = costs;
    MoveField field = costs[0].field();
    boolean gains =
        hasEnergy && (field.gains() || (!isOut && stops != null && stops.waitS() != null));
    int n = field.spec().cells();
    int layers = (hasEnergy ? 3 : 2) + (asked() ? 1 : 0) + (gains ? 2 : 0);
    ScratchFile file = field.scratch((long) Float.BYTES * layers * n);
    this.sums = new Floats[hasEnergy ? 3 : 2];
    for (int q = 0; q < sums.length; q++) {
      sums[q] = Floats.of(n, Float.NaN, file);
    }
    this.stopS = asked() ? Floats.of(n, Float.NaN, file) : null;
    this.backJ = gains ? Floats.of(n, Float.NaN, file) : null;
    this.mostJ = gains ? Floats.of(n, Float.NaN, file) : null;
    this.line = new Line(labels.costs().field().spec());
  }

  /** The sums of one front, as they were asked for last. */
  private static final class Kept {
    private SoftReference<PathSums> ways;

    synchronized PathSums along(CostField labels, Floats heightM, boolean hasEnergy) {
      PathSums before = ways == null ? null : ways.get();
      if (before == null || !before.heightM().sameAs(heightM) || before.hasEnergy() != hasEnergy) {
        before = PathSums.along(labels, heightM, hasEnergy, null);
        ways = new SoftReference<>(before);
      }
      return before;
    }
  }

  /** Where no stop asks for anything; kept while memory allows. */
  public static PathSums along(CostField labels, Floats heightM, boolean hasEnergy) {
    return labels
        .costs()
        .field()
        .memory()
        .of(labels, Kept.class, Kept::new)
        .along(labels, heightM, hasEnergy);
  }

  /**
   * @param stops what a stop anywhere on the ways asks for; null for nothing
   */
  public static PathSums along(CostField labels, Floats heightM, boolean hasEnergy, Stops stops) {
    Costs c = labels.costs();
    return new PathSums(
            labels,
            heightM,
            hasEnergy,
            stops,
            c.counting(Quantity.TIME_S),
            c.counting(Quantity.DISTANCE_M),
            hasEnergy ? c.counting(Quantity.ENERGY_J) : null)
        .addUp();
  }

  /** The same for a front that was spread at other costs than those of the ground. */
  public static PathSums along(
      CostField labels,
      MoveField field,
      Direction direction,
      Floats heightM,
      boolean hasEnergy,
      Stops stops) {
    return new PathSums(
            labels,
            heightM,
            hasEnergy,
            stops,
            new Costs(field, Quantity.TIME_S, direction),
            new Costs(field, Quantity.DISTANCE_M, direction),
            hasEnergy ? new Costs(field, Quantity.ENERGY_J, direction) : null)
        .addUp();
  }

  private PathSums addUp() {
    walk(new BitSet(sums[0].size()), this::add);
    if (asked() && isOut) {
      holdStops(stops);
    }
    return this;
  }

  private boolean asked() {
    return stops != null && stops.asked();
  }

  /** Holds stops on the ways out against limits other than time (anew where more is known). */
  void holdStops(Stops known) {
    broken = known.askMore() ? new BitSet(sums[0].size()) : null;
    if (broken != null) {
      walk(new BitSet(sums[0].size()), (cell, code) -> breaks(cell, code, known));
    }
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

  /** NaN without an energy model. */
  double energyJ(int cell) {
    return hasEnergy ? sums[2].get(cell) + heightTermJ(heightM.get(cell)) : Double.NaN;
  }

  /** Latest time at which everybody is home if the vehicle stops, anywhere along the way out. */
  float latestS(int cell) {
    return stopS.get(cell);
  }

  /** From leaving a cell until everybody is home, wherever the vehicle stops on its way home. */
  double needS(int cell) {
    return stopS == null ? sums[0].get(cell) : sums[0].get(cell) + Math.max(0.0, stopS.get(cell));
  }

  /** Whether a stop on the way out breaks a limit other than time. */
  boolean broken(int cell) {
    return broken != null && broken.get(cell);
  }

  /** Used on arrival by the way out: what was put back into a full battery does not count. */
  double usedJ(int cell) {
    return backJ == null ? energyJ(cell) : energyJ(cell) + backJ.get(cell);
  }

  /** Most that was used on the way out until then (J). */
  double mostJ(int cell) {
    return mostJ == null ? energyJ(cell) : mostJ.get(cell);
  }

  /** Most that is used on the way home at any moment, a stop counted, after so much (J). */
  @Override
  public double needJ(int cell, double before) {
    return backJ == null
        ? before + energyJ(cell)
        : Math.max(before + energyJ(cell) + backJ.get(cell), mostJ.get(cell));
  }

  /** What is worked out for a cell once the cells that its way depends on are done. */
  private interface Visit {
    void at(int cell, int code);
  }

  /** Visits all cells with a way, each after those that its way depends on. */
  private void walk(BitSet done, Visit visit) {
    for (int start = 0; start < sums[0].size(); start++) {
      if (labels.reached(start) && !done.get(start)) {
        walk(start, done, visit);
      }
    }
  }

  private void walk(int start, BitSet done, Visit visit) {
    int depth = 0;
    stack[depth++] = start;
    while (depth > 0) {
      int cell = stack[depth - 1];
      int code = labels.stepAt(cell);
      int before = depth;
      if (!done.get(cell) && code < Stencil.CODES) {
        depth = need(labels.stencil().first(cell, code), done, depth);
        if (labels.stencil().share(labels.costs(), cell, code) > 0) {
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
    Stencil stencil = labels.stencil();
    double shareOfStep = choose(cell, code);
    for (int q = 0; q < sums.length; q++) {
      float atA = sums[q].get(a);
      float atB = sums[q].get(b);
      double before = (1 - share) * atA + share * atB;
      sums[q].set(cell, (float) (before + stencil.cost(costs[q], cell, used, shareOfStep)));
    }
    if (stopS != null) {
      stopOfStep(cell, shareOfStep);
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
   * The cells that a step leads between and how it is driven.
   *
   * @return where on its edge the step ends as the front has it
   */
  private double choose(int cell, int code) {
    Stencil stencil = labels.stencil();
    a = stencil.first(cell, code);
    share = stencil.share(labels.costs(), cell, code);
    double shareOfStep = share;
    b = share > 0 ? stencil.second(cell, code) : a;
    used = code;
    if (share > 0 && (parts(a, b) || windowed(cell) || windowed(a) || windowed(b))) {
      int end = stencil.throughEnd(labels.costs(), cell, code, labels.value(a), labels.value(b));
      used = Stencil.toCell(code, end);
      a = end == 0 ? a : b;
      b = a;
      share = 0;
    }
    return shareOfStep;
  }

  private double heightM(int cell) {
    return heightM.get(cell);
  }

  private double waitJ(int cell) {
    return waits() ? stops.waitJ(cell) : 0;
  }

  /** Whether a vehicle that stops on the way home waits for another. */
  private boolean waits() {
    return !isOut && stops != null && stops.waitS() != null;
  }

  /**
   * The most that waiting takes over what is left to be used from there, anywhere on a step: the
   * longest wait of its cells, begun where the step has been driven and as high as it leads.
   */
  private double waitedOnStep(int cell) {
    double waitJ = Math.max(waitJ(cell), Math.max(waitJ(a), waitJ(b)));
    for (int which = 0; which < 2; which++) {
      int m = labels.stencil().between(cell, used, which);
      waitJ = m >= 0 && labels.reached(m) ? Math.max(waitJ, waitJ(m)) : waitJ;
    }
    double leftJ = (1 - share) * sums[2].get(a) + share * sums[2].get(b);
    return waitJ - leftJ - heightTermJ(heightM(cell, 1));
  }

  private double heightTermJ(double atM) {
    return costs[2].heightTermJ(heightM.get(labels.sources()[0]), atM);
  }

  /** Highest (1) or lowest (-1) of the cells of the step that was chosen (m). */
  private double heightM(int cell, int up) {
    double most = up * heightM(cell);
    most = Math.max(most, Math.max(up * heightM(a), up * heightM(b)));
    for (int which = 0; which < 2; which++) {
      int m = labels.stencil().between(cell, used, which);
      // What lies beside the step only may be without a height.
      most = m >= 0 && up * heightM(m) > most ? up * heightM(m) : most;
    }
    return up * most;
  }

  private double homeS(int cell) {
    return stops.homeS().get(cell);
  }

  /** Cells on the line to a source, in the order of travel or against it. */
  private void addStraight(int cell) {
    int source = labels.straightSource(cell, line);
    line.between(cell, source);
    for (int q = 0; q < sums.length; q++) {
      sums[q].set(cell, source == cell ? 0 : (float) line.cost(costs[q]));
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
      double pieceS = line.cost(costs[0], i);
      if (i > 0) {
        // Until the cell is left: out what lies behind it on the line has yet to be driven then.
        double leftS = isOut ? wholeS - onS : onS + pieceS - wholeS;
        most = Math.max(most, homeS(line.cell(i)) + leftS);
      }
      onS += pieceS;
    }
    return most;
  }

  private void energyOnLine(int cell, int source) {
    double heldJ = 0;
    double back = 0;
    double most = 0;
    int n = source == cell ? 0 : line.count();
    double leftJ = 0;
    for (int i = n - 1; i >= 0; i--) {
      int here = line.cell(i);
      int next = line.cell(Math.min(n - 1, i + 1));
      if (waits()) {
        // Until the cell is left, and as high as the line leads in it.
        double high = Math.max(heightM(line.cell(Math.max(0, i - 1))), heightM(next));
        back = Math.max(back, waitJ(here) - leftJ - heightTermJ(Math.max(high, heightM(here))));
        leftJ += line.cost(costs[2], i);
      }
      heldJ += line.cost(costs[2], i) + costs[2].heightTermJ(heightM(next), heightM(here));
      back = Math.max(back, waitJ(here) - heldJ);
      most = Math.max(most, heldJ + back);
    }
    backJ.set(cell, (float) back);
    mostJ.set(cell, (float) most);
  }

  /**
   * Getting home may take long from a cell between, so these count too: out until they are left,
   * which is before what lies in the cell itself is driven; home likewise.
   */
  private void stopOfStep(int cell, double shareOfStep) {
    Stencil stencil = labels.stencil();
    double between = stencil.largestBetween(stops.homeS(), cell, used);
    if (isOut) {
      double leftS = sums[0].get(cell) - lastS(cell, cell);
      double most = Math.max(stopS.get(a), stopS.get(b));
      most = Math.max(most, leftS + between);
      stopS.set(cell, (float) Math.max(most, sums[0].get(cell) + homeS(cell)));
    } else {
      double leftS = stencil.cost(costs[0], cell, used, shareOfStep) - lastS(a, b);
      double most = Math.max(stopS.get(a), stopS.get(b));
      most = Math.max(most, leftS - sums[0].get(cell) + between);
      stopS.set(cell, (float) Math.max(most, homeS(cell) - sums[0].get(cell)));
    }
  }

  /** The last quarter of a step to the far ring lies in the cell that it leads to (s). */
  private double lastS(int one, int other) {
    int heading = (int) Stencil.heading(used);
    int next = (heading + 1) & (Headings.COUNT - 1);
    double least =
        Math.min(
            Math.min(costs[0].perM(one, heading), costs[0].perM(one, next)),
            Math.min(costs[0].perM(other, heading), costs[0].perM(other, next)));
    return 0.25 * labels.stencil().lengthM(used) * (least < Double.POSITIVE_INFINITY ? least : 0);
  }

  /** Marks a cell whose way, or a stop on the step to it, breaks a limit other than time. */
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
      // Cells count until they are left, at most when all of the step has been driven.
      double mostUsedJ = usedAtJ(cell, heightM(cell, 1));
      bad |= !known.hold(a, timeS, mostUsedJ, drivenM) || !known.hold(b, timeS, mostUsedJ, drivenM);
      for (int which = 0; !bad && which < 2; which++) {
        int m = labels.stencil().between(cell, code, which);
        // What lies beside the step only, and is closed, is not entered.
        bad = m >= 0 && labels.reached(m) && !known.hold(m, timeS, mostUsedJ, drivenM);
      }
    }
    broken.set(cell, bad);
  }

  /** The most that is used by then where a way out has led so high just before (J). */
  private double usedAtJ(int cell, double highM) {
    return hasEnergy ? usedJ(cell) - heightTermJ(heightM(cell)) + heightTermJ(highM) : Double.NaN;
  }

  /** Whether some headings are barred: a way between two others may then not be driven. */
  private boolean windowed(int cell) {
    int allowed = labels.costs().field().allowed(cell);
    return allowed != 0 && allowed != -1;
  }

  private boolean parts(int a, int b) {
    int codeA = labels.stepAt(a);
    int codeB = labels.stepAt(b);
    if (codeA >= Stencil.CODES || codeB >= Stencil.CODES) {
      return false;
    }
    double d = Math.abs(Stencil.heading(codeA) - Stencil.heading(codeB));
    return Math.min(d, 32 - d) > PARTING;
  }
}
