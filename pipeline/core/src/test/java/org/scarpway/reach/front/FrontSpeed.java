package org.scarpway.reach.front;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.zip.CRC32C;
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
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Prints how fast fronts are; no test.
 *
 * <ul>
 *   <li>{@code front SIDE THREADS ROUNDS [open|rough] [file]}: the full directional solve from the
 *       middle of SIDE x SIDE cells, by time, by energy and by a weighted sum of time, energy and
 *       distance. {@code open} is rolling ground; {@code rough} has barriers, barred headings and
 *       steep cells as well. The first front of each round is the way out on a field that no front
 *       has seen before, the later one the way home on the same field. With {@code file} the field
 *       is kept outside the heap. The digest is over all labels and step codes
 *   <li>{@code neighbours FILE SIDE THREADS ROUNDS}: the problem on the graph of 8 neighbours, with
 *       costs read from FILE (float, little-endian); costs found are written to FILE.out (double)
 * </ul>
 */
final class FrontSpeed {
  private FrontSpeed() {}

  public static void main(String[] args) throws IOException {
    Locale.setDefault(Locale.ROOT);
    if (args[0].equals("front")) {
      List<String> options = List.of(args).subList(4, args.length);
      for (boolean rough : new boolean[] {false, true}) {
        if (options.isEmpty() || options.contains(rough ? "rough" : "open")) {
          front(
              Integer.parseInt(args[1]),
              Integer.parseInt(args[2]),
              Integer.parseInt(args[3]),
              rough,
              options.contains("file"));
        }
      }
    } else {
      neighbours(
          Path.of(args[1]),
          Integer.parseInt(args[2]),
          Integer.parseInt(args[3]),
          Integer.parseInt(args[4]));
    }
  }

  private static void front(int side, int threads, int rounds, boolean rough, boolean file) {
    GradeTable table = FrontTest.regenerating();
    for (int round = 0; round < rounds; round++) {
      for (String what : new String[] {"time", "energy", "mix"}) {
        Quantity q = what.equals("time") ? Quantity.TIME_S : Quantity.ENERGY_J;
        TraversalCost field =
            field(Fields.grid(side, side, 5, 0, 0), rough, file)
                .withTables(what.equals("mix") ? table.weighted(0.7, 500, 300) : table);
        String name = (rough ? "rough " : "open ") + what;
        front(name + " first", field, q, Direction.OUT, threads);
        front(name + " later", field, q, Direction.HOME, threads);
      }
    }
  }

  private static void front(
      String name, TraversalCost field, Quantity quantity, Direction direction, int threads) {
    int side = field.spec().rows();
    int middle = side / 2 * side + side / 2;
    Front[] front = new Front[1];
    say(
        name,
        side,
        threads,
        () -> {
          Costs costs = new Costs(field, quantity, direction);
          front[0] = Front.from(costs, Double.POSITIVE_INFINITY, middle);
          help(threads, () -> front[0].work(Progress.NONE));
        });
    double tiles = Math.ceil(side / (double) Front.SIDE) * Math.ceil(side / (double) Front.SIDE);
    long[] effort = front[0].efforts();
    System.out.printf(
        "  runs per tile %.2f, cells taken per cell %.3f, grounds made per tile %.2f, digest %s%n",
        effort[0] / tiles,
        effort[1] / (double) side / side,
        effort[2] / tiles,
        digest(front[0].labels(), side * side));
  }

  private static String digest(CostField labels, int cells) {
    CRC32C sum = new CRC32C();
    ByteBuffer cell = ByteBuffer.allocate(Double.BYTES + 1);
    for (int i = 0; i < cells; i++) {
      sum.update(cell.clear().putDouble(labels.value(i)).put((byte) labels.stepAt(i)).flip());
    }
    return Long.toHexString(sum.getValue());
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
                    new Memory(),
                    grid.spec(),
                    Floats.of(grid.values()),
                    Double.POSITIVE_INFINITY,
                    side / 2 * side + side / 2);
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

  private static TraversalCost field(GridSpec spec, boolean rough, boolean file) {
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
    Random random = new Random(5);
    for (int r = 0; r < side; r++) {
      for (int c = 0; c < side; c++) {
        int i = r * side + c;
        double e = 0.15 * wave(sin, r * 0.05) * wave(sin, c * 0.03 + Math.PI / 2);
        double n2 = 0.15 * wave(sin, r * 0.02 + c * 0.04);
        int open = -1;
        if (rough) {
          double kind = random.nextDouble();
          boolean patch = wave(sin, r * 0.021) * wave(sin, c * 0.017) > 0.5;
          e += 0.2 * random.nextDouble() - 0.1;
          n2 += 0.2 * random.nextDouble() - 0.1;
          if (kind < (patch ? 0.2 : 0.01)) {
            open = 0;
          } else if (kind < (patch ? 0.5 : 0.06)) {
            open = ~(0x3FF << random.nextInt(22));
          } else if (kind < 0.061) {
            e *= 40;
          }
        }
        allowed.set(i, open);
        east.set(i, (float) e);
        north.set(i, (float) n2);
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
