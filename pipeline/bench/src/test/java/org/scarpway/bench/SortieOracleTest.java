package org.scarpway.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CircuitConstraint;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import org.junit.jupiter.api.Test;
import org.scarpway.sortie.Act;
import org.scarpway.sortie.DayRules;
import org.scarpway.sortie.Sortie;
import org.scarpway.sortie.SortiePlan;
import org.scarpway.sortie.SortieSolver;

/**
 * A second opinion by OR-Tools CP-SAT: one circuit over base and stops, a start and a day for every
 * stop, free to wait. Times are in whole seconds, the battery of these sorties never binds.
 */
class SortieOracleTest {
  @Test
  void anotherSolverFindsTheSame() {
    Loader.loadNativeLibraries();
    for (int seed = 1; seed <= 6; seed++) {
      int days = 2 + seed % 4;
      Sortie s = SortieInstances.of(9, days, seed);
      SortiePlan plan = SortieSolver.solve(s);
      assertTrue(plan.isProven());
      double mostJ = plan.acts().stream().mapToDouble(Act::worstJ).max().orElse(0);
      assertTrue(mostJ < 0.9 * s.rules().usableJ(), "the battery binds in seed " + seed);
      assertEquals(most(s), plan.value(), 1e-6, "seed " + seed);
    }
  }

  private static double most(Sortie s) {
    CpModel m = new CpModel();
    DayRules r = s.rules();
    int n = s.stops().size();
    long dayS = Math.round(r.perDayS());
    long endS = dayS * r.days();
    CircuitConstraint circuit = m.addCircuit();
    IntVar[] start = new IntVar[n + 1];
    BoolVar[] made = new BoolVar[n + 1];
    BoolVar[][] on = new BoolVar[n + 1][r.days()];
    BoolVar stays = m.newBoolVar("stays");
    circuit.addArc(0, 0, stays);
    for (int j = 1; j <= n; j++) {
      start[j] = m.newIntVar(0, endS, "start" + j);
      made[j] = m.newBoolVar("made" + j);
      circuit.addArc(j, j, made[j].not());
      LinearExprBuilder oneDay = LinearExpr.newBuilder();
      for (int d = 0; d < r.days(); d++) {
        on[j][d] = m.newBoolVar("on" + j + "_" + d);
        oneDay.add(on[j][d]);
        m.addGreaterOrEqual(start[j], d * dayS).onlyEnforceIf(on[j][d]);
        m.addLessOrEqual(start[j], (d + 1) * dayS - stayS(s, j)).onlyEnforceIf(on[j][d]);
      }
      m.addEquality(oneDay, made[j]);
    }
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= n; j++) {
        if (i == j) {
          continue;
        }
        BoolVar arc = m.newBoolVar("arc" + i + "_" + j);
        circuit.addArc(i, j, arc);
        long s0 = (i == 0 ? 0 : stayS(s, i)) + Math.round(s.legs().leastS(i, j));
        LinearExprBuilder leaves = LinearExpr.newBuilder().add(s0);
        if (i > 0) {
          leaves.add(start[i]);
        }
        if (j > 0) {
          m.addGreaterOrEqual(start[j], leaves).onlyEnforceIf(arc);
        } else {
          m.addLessOrEqual(leaves, endS).onlyEnforceIf(arc);
        }
      }
    }
    LinearExprBuilder value = LinearExpr.newBuilder();
    for (int d = 0; d < r.days(); d++) {
      LinearExprBuilder walks = LinearExpr.newBuilder();
      for (int j = 1; j <= n; j++) {
        walks.addTerm(on[j][d], s.at(j).walks());
      }
      m.addLessOrEqual(walks, r.walks());
    }
    for (int j = 1; j <= n; j++) {
      value.addTerm(made[j], Math.round(s.at(j).value()));
    }
    m.maximize(value);
    CpSolver solver = new CpSolver();
    solver.getParameters().setNumWorkers(1).setRandomSeed(1).setMaxDeterministicTime(60);
    assertEquals(CpSolverStatus.OPTIMAL, solver.solve(m));
    return solver.objectiveValue();
  }

  private static long stayS(Sortie s, int place) {
    return Math.round(s.rules().stopS(s.at(place).stayS(), s.at(place).walks()));
  }
}
