package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;

/**
 * Number of cells of all ground by class and binding limit.
 *
 * @param cellAreaM2 plan area of a cell (m2)
 * @param counts number of cells; first those of class 0 by the code of the limit, then of class 1
 */
public record ClassCells(double cellAreaM2, List<Long> counts) {
  private static final int CLASSES = 4;
  private static final int LIMITS = 32;

  /** Copies the counts. */
  public ClassCells {
    counts = List.copyOf(counts);
  }

  /** Counts cells as rows of ground come. */
  public static final class Tally {
    private final long[] n = new long[CLASSES * LIMITS];

    /** Counts {@code cells} cells of a strip, from {@code first} on. */
    public void add(Mobility strip, int first, int cells) {
      add(strip.cls().values(), strip.limit().values(), first, cells);
    }

    /** Like {@link #add(Mobility, int, int)}, from classes and codes of limits. */
    public void add(byte[] cls, byte[] limit, int first, int cells) {
      for (int i = first; i < first + cells; i++) {
        n[cls[i] * LIMITS + limit[i]]++;
      }
    }

    /** Returns the numbers so far. */
    public ClassCells cells(double cellAreaM2) {
      List<Long> counts = new ArrayList<>();
      for (long one : n) {
        counts.add(one);
      }
      return new ClassCells(cellAreaM2, counts);
    }
  }

  /** Returns the number of cells of a class on which a limit binds. */
  public long count(int cls, int limit) {
    return counts.get(cls * LIMITS + limit);
  }

  /** Returns the number of cells of a class. */
  public long count(int cls) {
    return counts.subList(cls * LIMITS, (cls + 1) * LIMITS).stream().mapToLong(n -> n).sum();
  }

  /** Returns the number of cells on which a limit binds. */
  public long bound(int limit) {
    long n = 0;
    for (int cls = 0; cls < CLASSES; cls++) {
      n += count(cls, limit);
    }
    return n;
  }

  /** Returns the number of cells with a class. */
  public long judged() {
    return all() - count(0);
  }

  /** Returns the number of all cells. */
  public long all() {
    return counts.stream().mapToLong(n -> n).sum();
  }
}
