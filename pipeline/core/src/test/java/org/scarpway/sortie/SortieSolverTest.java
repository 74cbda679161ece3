package org.scarpway.sortie;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class SortieSolverTest {
  @Test
  void equalsEveryOrderedSubset() {
    for (int seed = 0; seed < 60; seed++) {
      Sortie s = SeededSorties.plain(6, 2 + seed % 4, seed);
      SortiePlan plan = SortieSolver.solve(s);
      assertEquals(EveryOrder.most(s), plan.value(), 1e-9, "seed " + seed);
      assertTrue(plan.isProven());
    }
  }

  @Test
  void equalsEveryOrderedSubsetUnderEveryRule() {
    int planned = 0;
    int none = 0;
    for (int seed = 0; seed < 400; seed++) {
      Sortie s = SeededSorties.rich(4, seed);
      SortiePlan plan = SortieSolver.solve(s);
      double most = EveryOrder.most(s);
      if (most == Double.NEGATIVE_INFINITY) {
        assertNull(plan, "seed " + seed);
        none++;
      } else {
        assertNotNull(plan, "seed " + seed);
        assertEquals(most, plan.value(), 1e-9, "seed " + seed);
        planned += plan.visits().size() > 2 ? 1 : 0;
      }
    }
    assertTrue(planned > 60 && none > 5, planned + " planned, " + none + " without a plan");
  }

  @Test
  void knownValues() {
    assertEquals(40, SortieSolver.solve(SeededSorties.plain(12, 4, 112)).value());
    assertEquals(92, SortieSolver.solve(SeededSorties.plain(12, 8, 112)).value());
    assertEquals(102, SortieSolver.solve(SeededSorties.plain(15, 8, 115)).value());
  }

  /** However soon the search ends, no plan is said to bring more than all stops together. */
  @Test
  void noBoundIsAboveAllStops() {
    for (int seed = 0; seed < 12; seed++) {
      Sortie sortie = SeededSorties.plain(8 + seed, 30, seed);
      double all = sortie.stops().stream().mapToDouble(SortieStop::value).sum();
      SortiePlan plan = SortieSolver.solve(sortie, 50);
      assertTrue(plan.atMost() <= all + 1e-9, plan.atMost() + " of " + all);
      assertTrue(plan.value() <= plan.atMost() + 1e-9);
    }
  }
}
