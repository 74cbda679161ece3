package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.reach.corridor.PlannedWay;
import org.scarpway.reach.corridor.PlannedWay.Driven;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.DrivenLeg;
import org.scarpway.reach.question.DrivenLeg.FromHere;
import org.scarpway.reach.question.DrivenLeg.Piece;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * The ways between the places of a sortie, each from every place to every other: the quickest and,
 * where energy may bind, the one of least energy. A way is traced, drawn with its tacks and driven
 * like a leg of a corridor, speed in curves included; time and energy are those of the one line,
 * which the audit recalculates. What coming home takes is looked at in every cell that it crosses.
 */
public final class PlaceWays {
  /** Longest piece of a way (s); rules are held at the worst place of each. */
  private static final double PIECE_S = 900;

  /** Pieces into which a day's driving is divided at least. */
  private static final double PER_DAY = 8;

  private static final List<Quantity> WAYS = List.of(Quantity.TIME_S, Quantity.ENERGY_J);

  private final int[] cells;
  private final List<PlannedWay> planners = new ArrayList<>();
  private final HomeFromHere home;
  private final boolean hasEnergy;
  private final double pieceS;
  private final DrivenLeg[][][] legs;

  private PlaceWays(int[] cells, HomeFromHere home, boolean hasEnergy, double driveS) {
    this.cells = cells;
    this.home = home;
    this.hasEnergy = hasEnergy;
    this.pieceS = Math.min(PIECE_S, driveS / PER_DAY);
    this.legs = new DrivenLeg[cells.length][cells.length][WAYS.size()];
  }

  /**
   * Computes the ways.
   *
   * @param request base, hours, limits and home rule
   * @param walkHome walker and refuges; required by the rule walk-back, otherwise ignored and may
   *     be null
   * @param places cells of the places besides the base, which is place 0; less than 0 for a place
   *     without a cell
   */
  public static PlaceWays of(
      DayRingsRequest request,
      TraversalInput ground,
      WalkHome walkHome,
      int[] places,
      Workers workers,
      Progress progress) {
    int base =
        StartCell.require(
            "base '" + request.baseName() + "'",
            request.baseXM(),
            request.baseYM(),
            ground.vehicle().name(),
            ground.field(),
            ground.limit());
    int[] cells = new int[places.length + 1];
    cells[0] = base;
    System.arraycopy(places, 0, cells, 1, places.length);
    boolean hasEnergy = Costs.hasEnergy(ground.field());
    Double w = ground.vehicle().drive() == null ? null : ground.vehicle().drive().hotelW();
    double hotelW = w == null ? 0 : w;
    TraversalInput driven = ground;
    WalksHome walks = null;
    if (request.home() == HomeRule.WALK_BACK) {
      RuleGround rule =
          RuleGround.of(
              DayRingsSolver.asked(request, Double.POSITIVE_INFINITY, null, null),
              DayRingsSolver.limits(request, request.days() - 1, 0, hotelW, false),
              null,
              ground,
              walkHome,
              hasEnergy,
              base,
              workers,
              progress);
      walks = rule.walks();
      driven = ground.withField(rule.field());
    }
    HomeFromHere home =
        new HomeFromHere(request, ground, walks, hasEnergy, hotelW, base, workers, progress);
    PlaceWays all = new PlaceWays(cells, home, hasEnergy, request.driveS());
    all.fill(0, new PlannedWay(driven, Quantity.TIME_S, hasEnergy, workers, progress));
    if (hasEnergy && all.mayBind(request, hotelW)) {
      all.fill(1, new PlannedWay(driven, Quantity.ENERGY_J, hasEnergy, workers, progress));
    }
    return all;
  }

  private void fill(int k, PlannedWay planner) {
    planners.add(planner);
    for (int i = 0; i < cells.length; i++) {
      int[] ends = cells.clone();
      ends[i] = -1;
      List<DrivenLeg> found = planner.legs(cells[i], ends, this::pieces);
      for (int j = 0; j < ends.length; j++) {
        legs[i][j][k] = found.get(j);
      }
    }
  }

  /** True unless the quickest ways never draw as much as the battery holds, whatever the plan. */
  private boolean mayBind(DayRingsRequest request, double hotelW) {
    if (request.energyJ() == Double.POSITIVE_INFINITY) {
      return false;
    }
    double mostW = hotelW;
    double mostOffJ = 0;
    for (DrivenLeg[][] from : legs) {
      for (DrivenLeg[] to : from) {
        for (Piece p : to[0] == null ? List.<Piece>of() : to[0].pieces()) {
          mostW = p.timeS() > 0 ? Math.max(mostW, p.energyJ() / p.timeS()) : mostW;
          mostOffJ =
              Math.max(mostOffJ, p.mostJ() - p.leastJ() + p.home().rideJ() + p.home().rideOffJ());
        }
      }
    }
    double parkedS = DayRingsRequest.DAY_S - request.driveS();
    double dayJ = mostW * request.driveS() + hotelW * parkedS;
    double netJ = Math.max(0, dayJ - request.nightChargeJ());
    return dayJ + (request.days() - 1) * netJ + mostOffJ > request.energyJ();
  }

  /** True if the vehicle has an energy model. */
  public boolean hasEnergy() {
    return hasEnergy;
  }

  /** Number of places, the base included. */
  public int places() {
    return cells.length;
  }

  /** The ways from one place to another, the quickest first; none where no way leads. */
  public List<DrivenLeg> ways(int from, int to) {
    return Arrays.stream(legs[from][to]).filter(leg -> leg != null).toList();
  }

  /** What coming home takes from a place; from one without a cell there is no way. */
  public FromHere homeFrom(int place) {
    double never = Double.POSITIVE_INFINITY;
    return cells[place] < 0 ? new FromHere(never, 0, 0, never, never) : home.at(cells[place]);
  }

  /** The line of one of the ways, with time, energy and distance from its start. */
  public List<ProfilePoint> line(int from, int to, int way) {
    return planners.get(way).leg(cells[from], cells[to]).points();
  }

  private DrivenLeg pieces(Driven way) {
    List<ProfilePoint> points = way.points();
    ProfilePoint last = points.get(points.size() - 1);
    int count = Math.max(1, (int) Math.ceil(last.timeS() / pieceS));
    List<Piece> pieces = new ArrayList<>();
    int from = 0;
    for (int k = 1; k <= count; k++) {
      int to = from;
      while (to < points.size() - 1
          && (k == count || points.get(to).timeS() * count < k * last.timeS())) {
        to++;
      }
      if (to > from || count == 1) {
        pieces.add(piece(way, from, to));
        from = to;
      }
    }
    return new DrivenLeg(last.distanceM(), pieces);
  }

  private Piece piece(Driven way, int from, int to) {
    ProfilePoint first = way.points().get(from);
    ProfilePoint last = way.points().get(to);
    double timeS = last.timeS() - first.timeS();
    double energyJ = hasEnergy ? last.energyJ() - first.energyJ() : 0;
    double leastJ = 0;
    double mostJ = 0;
    FromHere worst = home.at(way.cells().get(from));
    for (int i = from + 1; i <= to; i++) {
      worst = worst.worse(home.at(way.cells().get(i)));
      if (hasEnergy) {
        double drawnJ = way.points().get(i).energyJ() - first.energyJ();
        leastJ = Math.min(leastJ, drawnJ);
        mostJ = Math.max(mostJ, drawnJ);
      }
    }
    return new Piece(timeS, energyJ, leastJ, mostJ, worst);
  }
}
