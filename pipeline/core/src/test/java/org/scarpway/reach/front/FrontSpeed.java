package org.scarpway.reach.front;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Collections;
import java.util.Locale;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Prints how fast fronts are; no test.
 *
 * <ul>
 *   <li>{@code front SIDE THREADS ROUNDS [file]}: the full directional solve on rolling open ground
 *       of SIDE x SIDE cells, from the middle; with {@code file} the field is kept outside the heap
 *   <li>{@code neighbours FILE SIDE THREADS ROUNDS}: the problem on the graph of 8 neighbours, with
 *       costs read from FILE (float, little-endian); costs found are written to FILE.out (double)
 * </ul>
 */
final class FrontSpeed {
  private FrontSpeed() {}

  public static void main(String[] args) throws IOException {
    Locale.setDefault(Locale.ROOT);
    if (args[0].equals("front")) {
      front(
          Integer.parseInt(args[1]),
          Integer.parseInt(args[2]),
          Integer.parseInt(args[3]),
          args.length > 4);
    } else {
      neighbours(
          Path.of(args[1]),
          Integer.parseInt(args[2]),
          Integer.parseInt(args[3]),
          Integer.parseInt(args[4]));
    }
  }

  private static void front(int side, int threads, int rounds, boolean file) {
    TraversalCost field = rolling(Fields.grid(side, side, 5, 0, 0), file);
    for (int round = 0; round < rounds; round++) {
      for (Quantity q : new Quantity[] {Quantity.TIME_S, Quantity.ENERGY_J}) {
        Front[] front = new Front[1];
        int middle = side / 2 * side + side / 2;
        say(
            q.toString(),
            side,
            threads,
            () -> {
              Costs costs = new Costs(field, q, Direction.OUT);
              front[0] = Front.from(costs, Double.POSITIVE_INFINITY, middle);
              help(threads, () -> front[0].work(Progress.NONE));
            });
        double tiles =
            Math.ceil(side / (double) Front.SIDE) * Math.ceil(side / (double) Front.SIDE);
        long[] effort = front[0].efforts();
        System.out.printf(
            "  runs per tile %.2f, cells taken per cell %.3f, grounds made per tile %.2f,"
                + " label of the last cell %.6f%n",
            effort[0] / tiles,
            effort[1] / (double) side / side,
            effort[2] / tiles,
            front[0].labels().value(side * side - 1));
      }
    }
  }

  private static void neighbours(Path path, int side, int threads, int rounds) throws IOException {
    int n = side * side;
    float[] cost = new float[n];
    ByteBuffer.wrap(Files.readAllBytes(path))
        .order(ByteOrder.LITTLE_ENDIAN)
        .asFloatBuffer()
        .get(cost);
    FloatGrid grid = new FloatGrid(Fields.grid(side, side, 1, 0, 0), cost);
    NeighbourSpread[] spread = new NeighbourSpread[1];
    for (int round = 0; round < rounds; round++) {
      say(
          "neighbours",
          side,
          threads,
          () -> {
            spread[0] =
                new NeighbourSpread(
                    new Memory(), grid, Double.POSITIVE_INFINITY, side / 2 * side + side / 2);
            help(threads, () -> spread[0].work(Progress.NONE));
          });
    }
    try (FileChannel out =
        FileChannel.open(
            Path.of(path + ".out"),
            StandardOpenOption.CREATE,
            StandardOpenOption.TRUNCATE_EXISTING,
            StandardOpenOption.WRITE)) {
      ByteBuffer row = ByteBuffer.allocate(8 * side).order(ByteOrder.LITTLE_ENDIAN);
      for (int r = 0; r < side; r++) {
        row.clear();
        for (int c = 0; c < side; c++) {
          row.putDouble(spread[0].cost(r * side + c));
        }
        row.flip();
        out.write(row);
      }
    }
  }

  private static TraversalCost rolling(GridSpec spec, boolean file) {
    int side = spec.rows();
    int n = spec.cells();
    ScratchFile scratch = file ? new Memory().scratch() : null;
    Ints allowed = Ints.of(n, scratch);
    Floats east = Floats.of(n, scratch);
    Floats north = Floats.of(n, scratch);
    Floats cap = Floats.of(n, scratch);
    double[] sin = new double[1 << 12];
    for (int i = 0; i < sin.length; i++) {
      sin[i] = Math.sin(2 * Math.PI * i / sin.length);
    }
    for (int r = 0; r < side; r++) {
      for (int c = 0; c < side; c++) {
        int i = r * side + c;
        allowed.set(i, -1);
        east.set(i, (float) (0.15 * wave(sin, r * 0.05) * wave(sin, c * 0.03 + Math.PI / 2)));
        north.set(i, (float) (0.15 * wave(sin, r * 0.02 + c * 0.04)));
        cap.set(i, (float) (3 + wave(sin, r * 0.11 + c * 0.07)));
      }
    }
    return new TraversalCost(spec, allowed, east, north, cap, FrontTest.regenerating());
  }

  private static double wave(double[] sin, double angle) {
    return sin[(int) (angle * sin.length / (2 * Math.PI)) & (sin.length - 1)];
  }

  private static void help(int threads, Runnable helper) {
    try (Workers workers = new Workers(threads)) {
      workers.all(Collections.nCopies(threads, helper));
    }
  }

  private static void say(String what, int side, int threads, Runnable work) {
    long start = System.nanoTime();
    long cpu = cpuNs();
    work.run();
    double wallS = 1e-9 * (System.nanoTime() - start);
    double cpuS = 1e-9 * (cpuNs() - cpu);
    double mcell = 1e-6 * side * side;
    System.out.printf(
        "%s side %d threads %d: %.2f Mcell/s, %.3f s, processor %.3f s, %.0f ns per cell%n",
        what, side, threads, mcell / wallS, wallS, cpuS, 1e3 * cpuS / mcell);
  }

  /** Processor time of the whole process, so garbage collection counts as well. */
  private static long cpuNs() {
    var system = java.lang.management.ManagementFactory.getOperatingSystemMXBean();
    return ((com.sun.management.OperatingSystemMXBean) system).getProcessCpuTime();
  }
}
