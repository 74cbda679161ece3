package org.scarpway.reach.clearance;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Locale;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Prints how fast widest paths are, by one search ({@code plain}) or by blocks ({@code blocks}),
 * and a digest of the widths; no test. Arguments: {@code plain|blocks hills|rocks SIDE THREADS
 * ROUNDS [file]}; with {@code file} the data are kept outside the heap.
 */
final class WidestSpeed {
  /** Rise over a cell of 5 m that is too steep. */
  private static final float STEEP_M = 1.82f;

  private WidestSpeed() {}

  public static void main(String[] args) {
    Locale.setDefault(Locale.ROOT);
    int side = Integer.parseInt(args[2]);
    int threads = Integer.parseInt(args[3]);
    ScratchFile file = args.length > 5 ? new Memory().scratch() : null;
    TraversalCost field = field(side, args[1].equals("rocks"), file);
    int base = side / 2 * side + side / 2;
    while (field.allowed(base) == 0) {
      base++;
    }
    try (Workers workers = new Workers(threads)) {
      Clearance clearance = Clearance.of(field, workers);
      for (int round = 0; round < Integer.parseInt(args[4]); round++) {
        Floats gapM = Floats.of(side * side, file);
        long start = System.nanoTime();
        long cpu = cpuNs();
        if (args[0].equals("plain")) {
          PlainWidestPaths.spread(clearance, field, base, gapM);
        } else {
          WidestPaths.spread(clearance, field, base, gapM, workers);
        }
        double cpuS = 1e-9 * (cpuNs() - cpu);
        double wallS = 1e-9 * (System.nanoTime() - start);
        System.out.printf(
            "%s %s side %d threads %d: %.2f s, processor %.2f s, %.0f ns per cell, digest %08x%n",
            args[0], args[1], side, threads, wallS, cpuS, 1e9 * cpuS / side / side, digest(gapM));
      }
    }
  }

  private static int digest(Floats gapM) {
    int hash = 0;
    int open = 0;
    for (int i = 0; i < gapM.size(); i++) {
      hash = 31 * hash + Float.floatToRawIntBits(gapM.get(i));
      open += Float.isNaN(gapM.get(i)) ? 0 : 1;
    }
    System.out.printf("  joined to the base %.1f %%%n", 100.0 * open / gapM.size());
    return hash;
  }

  /** Hills with barriers where they are steep, or scattered rocks. */
  private static TraversalCost field(int side, boolean rocks, ScratchFile file) {
    GridSpec spec = Fields.grid(side, side, 5, 0, 0);
    int n = spec.cells();
    Ints allowed = Ints.of(n, file);
    float[] last = new float[side];
    float[] row = new float[side];
    for (int r = 0; r < side; r++) {
      Arrays.fill(row, 0);
      if (!rocks) {
        for (int size = 4096; size >= 4; size /= 2) {
          addOctave(row, r, size);
        }
      }
      for (int c = 0; c < side; c++) {
        int i = r * side + c;
        float east = c == 0 ? 0 : row[c] - row[c - 1];
        float south = r == 0 ? 0 : row[c] - last[c];
        boolean barrier =
            rocks ? hash(r, c, 1) < 0.004 : east * east + south * south > STEEP_M * STEEP_M;
        allowed.set(i, barrier ? 0 : -1);
      }
      float[] free = last;
      last = row;
      row = free;
    }
    Floats level = Floats.of(n, file);
    return new TraversalCost(spec, allowed, level, level, null, Fields.constant(1));
  }

  /** Smooth noise of one wavelength. */
  private static void addOctave(float[] row, int r, int size) {
    double reliefM = Math.pow(size, 0.77);
    double v = smooth((double) (r % size) / size);
    for (int c = 0; c < row.length; c++) {
      double u = smooth((double) (c % size) / size);
      int y = r / size;
      int x = c / size;
      double top = hash(y, x, size) * (1 - u) + hash(y, x + 1, size) * u;
      double bottom = hash(y + 1, x, size) * (1 - u) + hash(y + 1, x + 1, size) * u;
      row[c] += (float) (reliefM * (top * (1 - v) + bottom * v));
    }
  }

  private static double smooth(double t) {
    return t * t * (3 - 2 * t);
  }

  private static double hash(int r, int c, int salt) {
    int h = r * 0x9E3779B1 ^ c * 0x85EBCA6B ^ salt * 0xC2B2AE35;
    h = (h ^ h >>> 15) * 0x2C1B3C6D;
    h = (h ^ h >>> 12) * 0x297A2D39;
    return ((h ^ h >>> 15) >>> 8) * 0x1p-24;
  }

  private static long cpuNs() {
    var system = ManagementFactory.getOperatingSystemMXBean();
    return ((com.sun.management.OperatingSystemMXBean) system).getProcessCpuTime();
  }
}
