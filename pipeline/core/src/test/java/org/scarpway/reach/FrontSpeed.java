package org.scarpway.reach;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Locale;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.MoveField;

/** Prints cells per second of processor time of one front on rolling open ground; no test. */
final class FrontSpeed {
  private FrontSpeed() {}

  public static void main(String[] args) {
    int side = args.length > 0 ? Integer.parseInt(args[0]) : 1000;
    GridSpec spec = Fields.grid(side, side, 5, 0, 0);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    Arrays.fill(allowed, -1);
    for (int i = 0; i < n; i++) {
      int r = i / side;
      int c = i % side;
      east[i] = (float) (0.15 * Math.sin(r * 0.05) * Math.cos(c * 0.03));
      north[i] = (float) (0.15 * Math.cos(r * 0.02 + c * 0.04));
      cap[i] = (float) (3 + Math.sin(r * 0.11 + c * 0.07));
    }
    MoveField field =
        new MoveField(spec, allowed, east, north, cap, new byte[n], FrontTest.regenerating());
    for (int round = 0; round < 4; round++) {
      for (Quantity q : new Quantity[] {Quantity.TIME_S, Quantity.ENERGY_J}) {
        long start = cpuNs();
        Front.spread(new Costs(field, q, Direction.OUT), Progress.NONE, n / 2 + side / 2);
        say(q + ", 128 headings", n, cpuNs() - start);
      }
      long start = cpuNs();
      Fields.neighbours(
          new Costs(field, Quantity.TIME_S, Direction.OUT), n / 2 + side / 2);
      say("TIME_S, neighbours only", n, cpuNs() - start);
    }
  }

  private static long cpuNs() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static void say(String what, int cells, long ns) {
    System.out.printf(Locale.ROOT, "%-24s %.2f Mcell/s%n", what, 1e3 * cells / ns);
  }
}
