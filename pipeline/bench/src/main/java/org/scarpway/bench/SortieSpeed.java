package org.scarpway.bench;

import java.lang.management.ManagementFactory;
import java.util.Locale;
import org.scarpway.sortie.SortiePlan;
import org.scarpway.sortie.SortieSolver;

/** Processor time and labels of the sortie search over stops and days, and what it leaves open. */
public final class SortieSpeed {
  private static final int[][] STOPS_DAYS = {
    {15, 4}, {15, 8}, {15, 14}, {18, 14}, {20, 4}, {20, 8}, {20, 14}, {25, 8}, {25, 14}, {30, 8},
    {30, 14}, {50, 8}, {50, 14}, {100, 8}, {100, 14}
  };

  private SortieSpeed() {}

  public static void main(String[] args) {
    System.out.println("| stops | days | value | at most | % more | labels | processor s |");
    System.out.println("|---|---|---|---|---|---|---|");
    // A first one for the compiler.
    SortieSolver.solve(SortieInstances.of(20, 8, 1));
    for (int[] c : STOPS_DAYS) {
      long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
      SortiePlan plan = SortieSolver.solve(SortieInstances.of(c[0], c[1], 100L + c[0]));
      long ns = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before;
      System.out.printf(
          Locale.ROOT,
          "| %d | %d | %.0f | %.0f | %.1f | %d | %.2f |%n",
          c[0],
          c[1],
          plan.value(),
          plan.atMost(),
          plan.mostMorePct(),
          plan.labels(),
          ns / 1e9);
    }
  }
}
