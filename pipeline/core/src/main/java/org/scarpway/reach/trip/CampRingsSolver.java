package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fronts;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes how far a crew comes by the end of each day and still home by the last, with nights at
 * the base and at given camps only, by the rules drive-back and walk-back.
 *
 * <p>Every camp has a front of one day out and one of one day home. From camp to camp the least
 * energy drawn in the morning of each day, and the most that may be drawn so that home is still
 * reached in so many days, follow day by day. A cell is surely reached on a day if it lies on a way
 * of that day from one camp to another, or home, that keeps hours and battery by the quickest ways;
 * possibly if it keeps the hours. Charges of nights are counted up to a full battery.
 */
public final class CampRingsSolver {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  private final DayRingsRequest request;
  private final TraversalInput ground;
  private final GridSpec spec;
  private final boolean hasEnergy;
  private final double hotelW;
  private final RingLayers rings;
  private final int[] camps;
  private final List<PathSums> out = new ArrayList<>();
  private final List<PathSums> home = new ArrayList<>();

  /** By day and camp: least energy drawn in the morning (J), infinite where nobody is. */
  private double[][] morningJ;

  /** By number of days left and camp: most energy drawn in the morning to be home in time (J). */
  private double[][] mostJ;

  private CampRingsSolver(DayRingsRequest request, TraversalInput ground) {
    this.request = request;
    this.ground = ground;
    this.spec = ground.field().spec();
    this.hasEnergy = Costs.hasEnergy(ground.field());
    Double w = ground.vehicle().drive() == null ? null : ground.vehicle().drive().hotelW();
    this.hotelW = w == null || !hasEnergy ? 0 : w;
    this.rings = new RingLayers(request, ground);
    this.camps = new int[request.camps().size() + 1];
    camps[0] = start("base '" + request.baseName() + "'", request.baseXM(), request.baseYM());
    for (int i = 1; i < camps.length; i++) {
      DayRingsRequest.Camp c = request.camps().get(i - 1);
      camps[i] = start("camp '" + c.name() + "'", c.xM(), c.yM());
    }
  }

  private int start(String what, double xM, double yM) {
    return StartCell.require(what, xM, yM, ground.vehicle().name(), ground.field(), ground.limit());
  }

  /**
   * Solves a request that names camps.
   *
   * @param walkHome walker and refuges; required by the rule walk-back, otherwise ignored and may
   *     be null
   * @throws org.scarpway.stage.UserError if the base, a camp or a refuge is outside the grid or on
   *     ground that cannot be used
   */
  public static RingsAnswer answer(
      DayRingsRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      Workers workers,
      Progress progress) {
    return new CampRingsSolver(request, ground).run(walkHome, workers, progress);
  }

  private RingsAnswer run(WalkHome walkHome, Workers workers, Progress progress) {
    TraversalCost field = ground.field();
    List<String> warnings = new ArrayList<>(request.uncounted());
    double walkS = 0;
    RuleGround rule = null;
    if (request.home() == HomeRule.WALK_BACK) {
      rule =
          RuleGround.of(
              DayRingsSolver.asked(request, request.driveS(), null, null),
              DayRingsSolver.limits(request, 0, 0, hotelW, false),
              null,
              ground,
              walkHome,
              hasEnergy,
              camps[0],
              workers,
              progress);
      field = rule.field();
      walkS = walkHome.limitS();
    }
    for (int camp : camps) {
      out.add(sums(field, Direction.OUT, camp, workers, progress));
      home.add(sums(field, Direction.HOME, camp, workers, progress));
    }
    // The last day may take all its hours, and the crew may walk at the end of it.
    double nightsLastS = request.lifeSupportS() - request.driveS() - walkS;
    int days = (int) Math.min(request.days(), Math.floor(nightsLastS / DayRingsRequest.DAY_S) + 1);
    if (days > 0) {
      byDays(days);
      workers.overRows(spec.rows(), (from, to) -> decide(days, from, to));
    }
    if (rule != null) {
      warnings.addAll(rule.walks().notes(rings.state));
    }
    return rings.told(warnings);
  }

  private PathSums sums(
      TraversalCost field, Direction direction, int camp, Workers workers, Progress progress) {
    progress.begin("a day's drive about camps of '" + request.name() + "'", spec.cells());
    Fronts.Spread front =
        Fronts.begin(field, Quantity.TIME_S, direction, request.driveS(), progress, camp);
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      work.add(front::work);
    }
    workers.all(work);
    PathSums sums = KeptSums.along(Quantity.TIME_S, front.labels(), ground.heightM(), hasEnergy);
    progress.end();
    return sums;
  }

  private double limitJ() {
    return hasEnergy ? request.energyJ() : NEVER;
  }

  private void byDays(int days) {
    int n = camps.length;
    morningJ = new double[days][n];
    mostJ = new double[days][n];
    for (double[] row : morningJ) {
      Arrays.fill(row, NEVER);
    }
    for (double[] row : mostJ) {
      Arrays.fill(row, Double.NEGATIVE_INFINITY);
    }
    morningJ[0][0] = 0;
    for (int k = 1; k < days; k++) {
      for (int p = 0; p < n; p++) {
        for (int q = 0; q < n; q++) {
          double eveningJ = arriveJ(morningJ[k - 1][p], p, camps[q]);
          double nightJ = eveningJ + parkedJ(p, camps[q]);
          if (nightJ <= limitJ()) {
            double dawnJ = Math.max(0, nightJ - request.nightChargeJ());
            morningJ[k][q] = Math.min(morningJ[k][q], dawnJ);
          }
        }
      }
    }
    for (int m = 1; m < days; m++) {
      for (int p = 0; p < n; p++) {
        // Home on this day, or to another camp and home from there on the days after it.
        double most = startJ(limitJ(), 0, camps[p]);
        for (int q = 0; q < n && m > 1; q++) {
          double duskJ = limitJ() - parkedJ(p, camps[q]);
          double dawnJ = mostJ[m - 1][q] + request.nightChargeJ() - parkedJ(p, camps[q]);
          most = Math.max(most, startJ(Math.min(duskJ, dawnJ), q, camps[p]));
        }
        mostJ[m][p] = most;
      }
    }
  }

  /** Load of the vehicle for the rest of a day on which it drove from a camp to a cell (J). */
  private double parkedJ(int p, int cell) {
    return hotelW * (DayRingsRequest.DAY_S - out.get(p).timeS(cell));
  }

  /** Energy drawn on arrival at a cell (J); infinite if there is no such drive today. */
  private double arriveJ(double drawnJ, int p, int cell) {
    PathSums way = out.get(p);
    if (drawnJ == NEVER || !(way.timeS(cell) <= request.driveS())) {
      return NEVER;
    }
    if (!hasEnergy) {
      return drawnJ;
    }
    // A battery that is not full has room for what is won downhill.
    double most = Math.max(way.mostJ(cell), way.usedJ(cell));
    return drawnJ + most > limitJ() ? NEVER : drawnJ + Math.max(way.energyJ(cell), way.usedJ(cell));
  }

  /** Most energy drawn at a cell so that a drive to a camp ends with no more than that (J). */
  private double startJ(double endJ, int to, int cell) {
    PathSums way = home.get(to);
    if (!(way.timeS(cell) <= request.driveS()) || !(endJ >= 0)) {
      return Double.NEGATIVE_INFINITY;
    }
    return hasEnergy ? Math.min(endJ - usedHomeJ(way, cell), limitJ() - way.needJ(cell, 0)) : endJ;
  }

  /** Energy of a way home, what is won downhill not counted beyond a full battery (J). */
  private static double usedHomeJ(PathSums way, int cell) {
    return Math.max(way.energyJ(cell), way.needJ(cell, 0));
  }

  private void decide(int days, int fromRow, int toRow) {
    for (int cell = fromRow * spec.cols(); cell < toRow * spec.cols(); cell++) {
      for (int k = 0; k < days && rings.state.get(cell) != ReachState.SURELY; k++) {
        byte found = onDay(days, k, cell);
        if (found == ReachState.SURELY || (found != 0 && rings.state.get(cell) == 0)) {
          rings.state.set(cell, found);
          rings.day.set(cell, (byte) (k + 1));
        }
      }
    }
  }

  /** State of a cell by a drive of day k + 1. */
  private byte onDay(int days, int k, int cell) {
    byte state = 0;
    for (int p = 0; p < camps.length; p++) {
      float outS = out.get(p).timeS(cell);
      if (morningJ[k][p] == NEVER || !(outS <= request.driveS())) {
        continue;
      }
      double arrivedJ = arriveJ(morningJ[k][p], p, cell);
      for (int q = 0; q < camps.length; q++) {
        double driveS = outS + home.get(q).timeS(cell);
        int left = days - k - 1;
        boolean inTime = driveS <= request.driveS() && (q == 0 || (left > 0 && homeIn(left, q)));
        if (inTime) {
          state = ReachState.POSSIBLY;
          if (arrivedJ <= startJ(dusk(left, q, driveS), q, cell)) {
            return ReachState.SURELY;
          }
        }
      }
    }
    return state;
  }

  /** True if home can be reached from a camp in so many days. */
  private boolean homeIn(int days, int q) {
    return mostJ[days][q] >= 0;
  }

  /** Most energy drawn on arrival at a camp in the evening (J). */
  private double dusk(int left, int q, double driveS) {
    if (q == 0) {
      return limitJ();
    }
    double parkedJ = hotelW * (DayRingsRequest.DAY_S - driveS);
    return Math.min(limitJ(), mostJ[left][q] + request.nightChargeJ()) - parkedJ;
  }
}
