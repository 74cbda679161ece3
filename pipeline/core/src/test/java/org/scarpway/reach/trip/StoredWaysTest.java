package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.clearance.WidestPathField;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.FieldRows;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * What answers are said to store against what they take of scratch files, by every home rule, where
 * the time binds and the energy does not: within a factor of 1.5, as estimates promise. Ways that
 * leave time for a stop are told of although not every ground asks for them.
 */
class StoredWaysTest {
  /** Whole tiles and pieces of files. */
  private static final GridSpec SPEC = Fields.grid(128, 128, 20, -1280, -1280);

  /** Enough for a part of the ground that fronts are completed over all of it. */
  private static final double BUDGET_S = 2400;

  /** For more than all of it. */
  private static final double ENERGY_J = 1e9;

  /** 1000 J/m. */
  private static TraversalCost field(Memory memory, double speedMs) {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    Random random = new Random(5);
    float[] share = new float[256];
    for (int k = 0; k < share.length; k++) {
      share[k] = 0.3f + 0.7f * random.nextFloat();
    }
    // Squares of ground, so that the quickest ways are not the shortest.
    for (int cell = 0; cell < n; cell++) {
      int square = ((cell / SPEC.cols()) >> 3) * 16 + ((cell % SPEC.cols()) >> 3);
      cap[cell] = (float) speedMs * share[square];
    }
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {1000, 1000}, 0, 0);
    FieldRows rows = new FieldRows(memory, SPEC, Floats.of(new float[n]), Floats.of(new float[n]));
    rows.add(
        new TraversalCost(SPEC, allowed, new float[n], new float[n], cap, new byte[n], table),
        0,
        SPEC.rows());
    return rows.field();
  }

  private static double takenPerCell(HomeRule home) {
    Memory memory = new Memory();
    TraversalCost field = field(memory, 2);
    TraversalCost loaded = home == HomeRule.DRIVE_BACK ? null : field.withLoad(field(memory, 1.8));
    TraversalCost onFoot = field(memory, 1);
    ReachRequest q =
        new ReachRequest(
            "r",
            "b",
            0,
            0,
            new Budget(BUDGET_S, ENERGY_J, null),
            home,
            List.of(new Band("a", Quantity.TIME_S, BUDGET_S)),
            0,
            new Rescue(0, 0, 0, 0),
            Reserves.NONE,
            false);
    Vehicle.Crew crew = VehicleParts.crew(2, 4, 100.0);
    TraversalInput ground =
        Fields.ground(
            field, new FloatGrid(SPEC, new float[SPEC.cells()]), Fields.cart(2, 0, null, crew));
    long fields = memory.scratchBytes();
    WalkHome walk =
        home == HomeRule.WALK_BACK
            ? new WalkHome(onFoot, BUDGET_S, 0, WalkHome.Limits.NONE, List.of(), List.of())
            : null;
    try (Workers workers = new Workers(1)) {
      WidestPathField room = WidestPathField.about(SPEC.cellOf(0, 0), field, workers);
      room.spread(workers);
      room.bottleneckWidthM();
      long widest = memory.scratchBytes() - fields;
      ReachSolver.answer(
          q,
          loaded == null ? ground : ground.withLoaded(loaded),
          walk,
          List.of(),
          workers,
          Progress.NONE);
      // The search of widest ways ends before anything else is stored; its lattice stays.
      long taken = memory.scratchBytes() - fields - 2 * widest;
      return (double) taken / SPEC.cells() + 5 * Float.BYTES;
    }
  }

  @Test
  void whatAnswersTake() {
    Map<HomeRule, String> wrong = new EnumMap<>(HomeRule.class);
    for (HomeRule home : HomeRule.values()) {
      StoredWays needs =
          StoredWays.of(home, new StoredWays.Limits(true, true, false, true, false, false));
      double told =
          needs.timed().kept()
              + needs.timed().passing()
              + needs.other().kept()
              + needs.other().passing()
              + needs.everywhere();
      double taken = takenPerCell(home);
      if (!(told < 1.5 * taken && taken < 1.5 * told)) {
        wrong.put(home, "told " + told + " taken " + taken);
      }
    }
    assertTrue(wrong.isEmpty(), wrong.toString());
  }
}
