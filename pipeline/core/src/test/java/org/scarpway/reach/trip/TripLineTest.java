package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.front.Trace;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Which ground the lines of a trip are laid over, by hand: level cells of 10 m on which nothing but
 * what a stop asks for stands in the way of a straight line.
 */
class TripLineTest {
  private static final double NONE = Double.POSITIVE_INFINITY;

  /** Ways that were found, and nothing else of them. */
  private record Found(PathSums out, PathSums home, Stops stops) implements FoundWays {
    @Override
    public CostField out(Quantity q) {
      return out.labels();
    }

    @Override
    public CostField home(Quantity q) {
      return home.labels();
    }

    @Override
    public List<PathSums> outWays() {
      return List.of(out);
    }

    @Override
    public List<PathSums> homeWays() {
      return List.of(home);
    }

    @Override
    public double stopS(int cell) {
      return stops.homeS().get(cell);
    }

    @Override
    public boolean neverInTime(int cell, double stayS) {
      return false;
    }

    @Override
    public double leastEnergyJ(int cell, boolean oneWay) {
      return Double.NaN;
    }

    @Override
    public double leastDistanceM(int cell, boolean oneWay) {
      return Double.NaN;
    }

    /** Drawn by these ways, whatever else is said of them. */
    private TripLine trip(int cell, double stayS, double neededS) {
      BudgetCheck judge = new BudgetCheck(stops.limits(), this);
      judge.keptOut = out;
      judge.keptHome = home;
      judge.neededTimeS = neededS;
      return TripLine.of(cell, stayS, judge, stops, Trace.Drawn.AS_STRAIGHT_AS_CAN_BE);
    }
  }

  private static PathSums ways(CostField labels, Stops stops) {
    return PathSums.along(
        labels, Floats.of(new float[labels.costs().field().spec().cells()]), true, stops);
  }

  private static TraversalCost level(GridSpec spec, double speedMs) {
    int[] allowed = new int[spec.cells()];
    Arrays.fill(allowed, -1);
    float[] zero = new float[spec.cells()];
    GradeTable table =
        new GradeTable(-1, 1, new double[] {speedMs, speedMs}, new double[] {100, 100}, 40, 0);
    return new TraversalCost(spec, allowed, zero, zero, null, null, table);
  }

  /**
   * From every cell of a lane it takes as long to get home as there is left of 100 000 s, as far as
   * numbers of 24 bits tell: a straight line, one more second and there is none.
   */
  @Test
  void linesAreLaidOverWhatIsInTimeButForRounding() {
    int n = 45;
    int far = n - 1;
    double wholeS = 100_000;
    double cellS = 10 / 1.9;
    double stayS = 700;
    TraversalCost lane = level(Fields.grid(1, n, 10, 0, 0), 1.9);
    CostField outLabels =
        Front.spread(new Costs(lane, Quantity.TIME_S, Direction.OUT), Progress.NONE, 0);
    CostField homeLabels =
        Front.spread(new Costs(lane, Quantity.TIME_S, Direction.HOME), Progress.NONE, 0);
    assertNotEquals(Stencil.STRAIGHT, outLabels.stepAt(far));
    ReachLimits limits = Fields.limits(HomeRule.WALK_BACK, wholeS, NONE, NONE, NONE, 40);
    for (boolean late : new boolean[] {false, true}) {
      float[] outS = new float[n];
      float[] homeS = new float[n];
      for (int c = 0; c < n; c++) {
        double most = wholeS + (late ? 2 : 0);
        outS[c] = (float) (most - cellS * c);
        homeS[c] = (float) (most - (cellS * far + stayS + cellS * (far - c)));
      }
      Stops outStops = new Stops(limits, Floats.of(outS), null, List.of());
      Stops homeStops = new Stops(limits, Floats.of(homeS), null, List.of());
      TripLine there =
          new Found(ways(outLabels, outStops), ways(homeLabels, outStops), outStops)
              .trip(far, stayS, wholeS);
      TripLine back =
          new Found(ways(outLabels, homeStops), ways(homeLabels, homeStops), homeStops)
              .trip(far, stayS, wholeS);
      if (late) {
        assertTrue(there.out().length > 10, Arrays.toString(there.out()));
        assertTrue(back.home().length > 10, Arrays.toString(back.home()));
      } else {
        // A corner in the middle of the line changes nothing.
        assertTrue(there.out().length <= 3, Arrays.toString(there.out()));
        assertTrue(back.home().length <= 3, Arrays.toString(back.home()));
      }
      assertTrue(there.home().length > 10, "the way home is later");
    }
  }

  private static final GridSpec PLAIN = Fields.grid(21, 41, 10, 0, 0);
  private static final int BASE = 10 * 41 + 2;
  private static final int FAR = 10 * 41 + 38;

  /** Two columns across the straight line. */
  private static boolean across(int cell) {
    return cell / 41 >= 5 && cell / 41 <= 15 && cell % 41 >= 20 && cell % 41 <= 21;
  }

  private static boolean crosses(int[] corners) {
    boolean any = false;
    for (int i = 1; i < corners.length; i++) {
      int row = corners[i - 1] / 41;
      int col = corners[i - 1] % 41;
      int dr = corners[i] / 41 - row;
      int dc = corners[i] % 41 - col;
      for (int piece = 0; piece < 400; piece++) {
        double share = (piece + 0.5) / 400;
        any |= across((int) Math.rint(row + share * dr) * 41 + (int) Math.rint(col + share * dc));
      }
    }
    return any;
  }

  /** Stops across the line take so long, elsewhere nothing. */
  private static Floats across(double s) {
    float[] values = new float[PLAIN.cells()];
    for (int c = 0; c < values.length; c++) {
      values[c] = across(c) ? (float) s : 0;
    }
    return Floats.of(values);
  }

  private static Front out(TraversalCost plain) {
    return Front.from(new Costs(plain, Quantity.TIME_S, Direction.OUT), NONE, BASE);
  }

  /**
   * 180 s out, 180 s at the far end and 180 s home, past what lies across after 90 s and 450 s. A
   * stop there must come 10 s, 270 s or 600 s after the start: too late both ways, home only,
   * never.
   */
  @Test
  void linesKeepOffWhatIsTooLateOnTheirWay() {
    double wholeS = 10_000;
    TraversalCost plain = level(PLAIN, 2);
    ReachLimits limits = Fields.limits(HomeRule.WALK_BACK, wholeS, NONE, NONE, NONE, 40);
    for (double untilS : new double[] {10, 270, 600}) {
      Stops stops = new Stops(limits, across(wholeS - untilS), null, List.of());
      Front front = out(plain);
      front.keepTo(stops.homeS(), wholeS);
      front.work(Progress.NONE);
      try (Workers workers = new Workers(1)) {
        CostField home = NeedFront.spread(plain, stops, BASE, workers, Progress.NONE);
        TripLine trip =
            new Found(ways(front.labels(), stops), ways(home, stops), stops).trip(FAR, 180, wholeS);
        String where = untilS + ": " + Arrays.toString(trip.out()) + Arrays.toString(trip.home());
        assertEquals(FAR, trip.cell());
        assertEquals(BASE, trip.out()[0], where);
        assertEquals(FAR, trip.out()[trip.out().length - 1], where);
        assertEquals(untilS > 90, crosses(trip.out()), where);
        assertEquals(untilS > 450, crosses(trip.home()), where);
        assertTrue(trip.out().length < 8 && trip.home().length < 8, where);
        // Whoever rides home in another vehicle may pass there at any time.
        Stops riding =
            new Stops(limits, stops.homeS(), null, List.of(ways(home, Stops.none(limits))));
        TripLine pair =
            new Found(ways(front.labels(), riding), ways(home, stops), riding)
                .trip(FAR, 180, wholeS);
        assertEquals(untilS > 90, crosses(pair.out()), where);
        assertTrue(crosses(pair.home()), where);
      }
    }
  }
}
