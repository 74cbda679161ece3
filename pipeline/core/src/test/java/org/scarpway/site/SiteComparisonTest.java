package org.scarpway.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.PinchPoint;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.vehicle.Mobility;

class SiteComparisonTest {
  /** 100 x 100 cells of 10 m, south-west corner at the origin. */
  private static final GridSpec SPEC = new GridSpec(100, 100, 10, 10, 0, 1000, "");

  private static final SiteParams CIRCLE = new SiteParams(200, 200, 90, Map.of());

  private static FloatGrid filled(double value) {
    FloatGrid g = FloatGrid.empty(SPEC);
    Arrays.fill(g.values(), (float) value);
    return g;
  }

  private static ByteGrid go() {
    ByteGrid g = ByteGrid.empty(SPEC);
    Arrays.fill(g.values(), Mobility.GO);
    return g;
  }

  private static SiteInput site(double x, double y, ReachResult... reach) {
    return new SiteInput("s", x, y, Arrays.stream(reach).map(SiteReachRows::of).toList());
  }

  private static ReachResult reach(ByteGrid state, FloatGrid gapM, TargetReach... targets) {
    return reach(state, gapM, List.of(), targets);
  }

  private static ReachResult reach(
      ByteGrid state, FloatGrid gapM, List<PinchPoint> passages, TargetReach... targets) {
    ReachRequest q =
        Fields.request("day", "s", 0, 0, null, HomeRule.DRIVE_BACK, List.of(), 0, false);
    return new ReachResult(
        q,
        "v",
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        state,
        null,
        gapM,
        null,
        List.of(),
        List.of(),
        List.of(targets),
        passages,
        List.of(),
        List.of(),
        List.of());
  }

  private static PinchPoint passage(double widthM, double behindPct) {
    return new PinchPoint(0, 0, widthM, 0, behindPct, List.of());
  }

  private static TargetReach target(String name, double x, double y, double weight, boolean got) {
    Target t = new Target(name, x, y, weight, 0, 0);
    return new TargetReach(t, got, 0, 0, 0, 0, 0, 0, 0, 0, "", null);
  }

  @Test
  void evenGroundGivesItsOwnFigures() {
    SiteFigures f =
        SiteComparison.measure(
            CIRCLE, SiteGround.of(filled(3), filled(0.25), go()), site(500, 500));
    assertEquals(3, f.value(SiteFigure.MEAN_SLOPE), 1e-9);
    assertEquals(3, f.value(SiteFigure.STEEP_SLOPE), 1e-9);
    assertEquals(0.25, f.value(SiteFigure.MEAN_HAZARD), 1e-9);
    assertEquals(0.75, f.value(SiteFigure.NO_HAZARD), 1e-9);
    assertEquals(0, f.voidPct());
    assertEquals(Double.POSITIVE_INFINITY, f.value(SiteFigure.NO_GO_DISTANCE));
    assertTrue(Double.isNaN(f.value(SiteFigure.TARGETS)));
  }

  /** Of a normal law the half-contour r = 1/2 holds 1 - 100^(-1/4) of 99 %. */
  @Test
  void touchdownsGatherAtTheCentre() {
    FloatGrid h = filled(0);
    int inside = 0;
    for (int cell = 0; cell < SPEC.cells(); cell++) {
      double r = Math.hypot(SPEC.xM(cell % 100) - 500, SPEC.yM(cell / 100) - 500);
      if (r > 200) {
        h.values()[cell] = 1;
      }
      inside += r <= 400 ? 1 : 0;
    }
    SiteParams wide = new SiteParams(800, 800, 0, Map.of());
    SiteFigures f = SiteComparison.measure(wide, SiteGround.of(filled(1), h, go()), site(500, 500));
    assertEquals((1 - Math.pow(100, -0.25)) / 0.99, f.value(SiteFigure.NO_HAZARD), 0.005);
    assertEquals(0.75, f.value(SiteFigure.MEAN_HAZARD), 0.005);
    assertEquals(Math.PI * 1600, inside, 10);
  }

  @Test
  void theLongAxisPointsAlongItsAzimuth() {
    FloatGrid slope = filled(0);
    for (int col = 60; col < 100; col++) {
      slope.values()[50 * 100 + col] = 10;
    }
    SiteParams east = new SiteParams(600, 20, 90, Map.of());
    SiteParams north = new SiteParams(600, 20, 0, Map.of());
    SiteInput s = site(505, 495);
    SiteGround ground = SiteGround.of(slope, filled(0), go());
    assertTrue(SiteComparison.measure(east, ground, s).value(SiteFigure.STEEP_SLOPE) == 10);
    assertEquals(0, SiteComparison.measure(north, ground, s).value(SiteFigure.STEEP_SLOPE));
  }

  @Test
  void groundOutsideTheGridCountsAsHazard() {
    SiteFigures f =
        SiteComparison.measure(CIRCLE, SiteGround.of(filled(3), filled(0), go()), site(0, 500));
    assertEquals(50, f.voidPct(), 1);
    assertEquals(0.5, f.value(SiteFigure.MEAN_HAZARD), 0.01);
    assertEquals(0.5, f.value(SiteFigure.NO_HAZARD), 0.01);
    assertEquals(3, f.value(SiteFigure.MEAN_SLOPE), 1e-9);
  }

  @Test
  void anEllipseSmallerThanACellIsThatCell() {
    FloatGrid slope = filled(1);
    slope.values()[50 * 100 + 50] = 7;
    SiteFigures f =
        SiteComparison.measure(
            new SiteParams(2, 1, 0, Map.of()),
            SiteGround.of(slope, filled(0), go()),
            site(501, 491));
    assertEquals(7, f.value(SiteFigure.MEAN_SLOPE));
  }

  @Test
  void distanceGoesToTheEdgeOfTheNearestNoGoCell() {
    ByteGrid cls = go();
    cls.values()[50 * 100 + 80] = Mobility.NO_GO;
    SiteGround ground = SiteGround.of(filled(3), filled(0), cls);
    SiteFigures f = SiteComparison.measure(CIRCLE, ground, site(505, 495));
    assertEquals(800 - 505, f.value(SiteFigure.NO_GO_DISTANCE), 1e-9);
    cls.values()[46 * 100 + 53] = 0;
    f = SiteComparison.measure(CIRCLE, ground, site(505, 495));
    assertEquals(Math.hypot(25, 35), f.value(SiteFigure.NO_GO_DISTANCE), 1e-9);
    cls.values()[52 * 100 + 50] = Mobility.NO_GO;
    f = SiteComparison.measure(CIRCLE, ground, site(505, 495));
    assertEquals(15, f.value(SiteFigure.NO_GO_DISTANCE), 1e-9);
  }

  @Test
  void reachFiguresAddUp() {
    ByteGrid state = ByteGrid.empty(SPEC);
    FloatGrid gap = filled(Double.NaN);
    for (int cell = 0; cell < 500; cell++) {
      state.values()[cell] = cell < 400 ? ReachState.SURELY : ReachState.POSSIBLY;
      gap.values()[cell] = cell < 100 ? 90 + cell : cell < 400 ? 35 : 5;
    }
    SiteFigures f =
        SiteComparison.measure(
            CIRCLE,
            SiteGround.of(filled(3), filled(0), go()),
            site(
                500,
                500,
                reach(
                    state,
                    gap,
                    target("a", 15, 995, 2, true),
                    target("b", 15, 985, 3, true),
                    target("c", 500, 500, 9, false)),
                reach(ByteGrid.empty(SPEC), gap, target("a", 15, 995, 2, true))));
    assertEquals(0.02, f.value(SiteFigure.REACH_AREA), 1e-12);
    assertEquals(40_000, f.areas().get(0).surelyM2());
    assertEquals(10_000, f.areas().get(0).possiblyM2());
    assertEquals(2, f.value(SiteFigure.TARGETS));
    assertEquals(5, f.value(SiteFigure.TARGET_WEIGHT));
    assertEquals(35, f.value(SiteFigure.GAP_WIDTH));
  }

  /** Widths say nothing of it: different gaps may be as wide, and there may be other ways. */
  @Test
  void whatOnePassageLosesIsTheGravestOfAllQuestions() {
    ByteGrid state = ByteGrid.empty(SPEC);
    Arrays.fill(state.values(), ReachState.SURELY);
    FloatGrid gap = filled(35);
    SiteGround ground = SiteGround.of(filled(3), filled(0), go());
    ReachResult none = reach(state, gap);
    ReachResult two = reach(state, gap, List.of(passage(4, 12), passage(9, 62.5)));
    ReachResult nowhere = reach(ByteGrid.empty(SPEC), gap);
    assertEquals(0, lostPct(ground, none));
    assertEquals(62.5, lostPct(ground, none, two));
    assertEquals(62.5, lostPct(ground, two, none, nowhere));
    assertTrue(Double.isNaN(lostPct(ground, nowhere)));
  }

  private static double lostPct(SiteGround ground, ReachResult... reach) {
    return SiteComparison.measure(CIRCLE, ground, site(500, 500, reach))
        .value(SiteFigure.SINGLE_GAP_SHARE);
  }

  /** Rows in any order and number. */
  @Test
  void anAnswerByRowsSaysWhatItSaysAsAWhole() {
    ByteGrid state = ByteGrid.empty(SPEC);
    FloatGrid gap = filled(Double.NaN);
    for (int cell = 0; cell < SPEC.cells(); cell++) {
      state.values()[cell] = (byte) (cell % 3);
      gap.values()[cell] = 4 + cell % 7;
    }
    gap.values()[20 * 100 + 30] = 1;
    gap.values()[1] = Float.NaN;
    TargetReach here = target("here", SPEC.xM(30), SPEC.yM(20), 1, true);
    SiteReachRows rows = new SiteReachRows(SPEC);
    for (int end = 100; end > 0; end -= 10) {
      GridSpec part = SPEC.part(end - 10, 0, 10, 100);
      ByteGrid s = ByteGrid.empty(part);
      FloatGrid g = FloatGrid.empty(part);
      System.arraycopy(state.values(), (end - 10) * 100, s.values(), 0, 1000);
      System.arraycopy(gap.values(), (end - 10) * 100, g.values(), 0, 1000);
      rows.add(reach(s, g, List.of(passage(4, 31)), here), end - 10);
    }
    SiteReach site = rows.site();
    assertEquals(SiteReachRows.of(reach(state, gap, List.of(passage(4, 31)), here)), site);
    assertEquals(1, site.narrowestM());
    assertEquals(333_300, site.area().surelyM2());
    assertEquals(31, site.lostPct());
  }
}
