package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.DayRingsRequest.Camp;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Relations that hold of rings by day whatever the ground, over seeded rough ground. */
class DayRingsSolverTest {
  private static final GridSpec SPEC = Fields.grid(81, 81, 1, -40.5, -40.5);
  private static final double NONE = Double.POSITIVE_INFINITY;

  private static DayRings rings(
      TraversalCost field, int days, double driveS, double lifeS, List<Camp> camps) {
    DayRingsRequest request =
        new DayRingsRequest(
            "r",
            "b",
            0,
            0,
            days,
            driveS,
            NONE,
            0,
            lifeS,
            HomeRule.DRIVE_BACK,
            new Rescue(0, 0, 0, 0),
            camps);
    try (Workers workers = new Workers(2)) {
      var ground = Fields.ground(field, FloatGrid.empty(SPEC));
      RingsAnswer answer =
          camps == null
              ? DayRingsSolver.answer(request, ground, null, workers, Progress.NONE)
              : CampRingsSolver.answer(request, ground, null, workers, Progress.NONE);
      return answer.rows(0, SPEC.rows());
    }
  }

  /** Nights anywhere: out and home take no more than all days, and the day follows from the way. */
  @Test
  void nightsAnywhereOnlyCutTheDrive() {
    Random random = new Random(3);
    for (int round = 0; round < 6; round++) {
      TraversalCost field = FrontTest.rough(SPEC, 100 + round);
      int days = 1 + random.nextInt(5);
      double driveS = 10 + 20 * random.nextDouble();
      DayRings r = rings(field, days, driveS, NONE, null);
      double[] outS = Fields.timesOut(field, 0, 0);
      double[] homeS = Fields.timesHome(field, 0, 0);
      int in = 0;
      for (int i = 0; i < SPEC.cells(); i++) {
        double wholeS = outS[i] + homeS[i];
        boolean surely = DayRings.surely(r.state().values()[i]);
        // Labels are compared with sums along ways, the same but for the error of the scheme.
        if (Math.abs(wholeS - days * driveS) > 0.03 * days * driveS) {
          assertEquals(wholeS < days * driveS, surely, "cell " + i);
        }
        double ofDay = outS[i] / driveS % 1;
        if (surely && ofDay > 0.1 && ofDay < 0.9) {
          assertEquals((int) Math.ceil(outS[i] / driveS), r.day().values()[i], "cell " + i);
        }
        in += surely ? 1 : 0;
      }
      assertTrue(in > 20, "too little to tell: " + in);
    }
  }

  /** A day, an hour or a supply more never takes ground away; every camp more adds some or none. */
  @Test
  void moreNeverTakesGroundAway() {
    for (int round = 0; round < 4; round++) {
      TraversalCost field = FrontTest.rough(SPEC, 200 + round);
      Camp east = camp(field, 3, 1);
      Camp south = camp(field, -1, -4);
      double lifeS = 2.2 * DayRingsRequest.DAY_S;
      byte[] least = rings(field, 2, 15, lifeS, null).state().values();
      within(least, rings(field, 3, 15, lifeS, null).state().values());
      within(least, rings(field, 2, 18, lifeS, null).state().values());
      within(least, rings(field, 2, 15, 4 * lifeS, null).state().values());
      byte[] base = rings(field, 3, 15, NONE, List.of()).state().values();
      byte[] one = rings(field, 3, 15, NONE, List.of(east)).state().values();
      byte[] two = rings(field, 3, 15, NONE, List.of(east, south)).state().values();
      within(base, one);
      within(one, two);
      within(two, rings(field, 3, 15, NONE, null).state().values());
      // From the base alone every day is the same.
      within(base, rings(field, 1, 15, NONE, null).state().values());
      within(rings(field, 1, 15, NONE, null).state().values(), base);
    }
  }

  /** A camp in the open cell nearest to a place. */
  private static Camp camp(TraversalCost field, double xM, double yM) {
    int cell = SPEC.cellOf(xM, yM);
    cell = field.allowed(cell) == 0 ? StartCell.nearest(field, cell) : cell;
    return new Camp("c", SPEC.xM(cell % SPEC.cols()), SPEC.yM(cell / SPEC.cols()));
  }

  private static void within(byte[] less, byte[] more) {
    int in = 0;
    for (int i = 0; i < less.length; i++) {
      assertTrue(!DayRings.surely(less[i]) || DayRings.surely(more[i]), "cell " + i);
      in += DayRings.surely(less[i]) ? 1 : 0;
    }
    assertTrue(in > 5, "too little to tell: " + in);
  }
}
