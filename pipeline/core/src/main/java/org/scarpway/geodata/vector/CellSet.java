package org.scarpway.geodata.vector;

import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.Stream;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;

/** A set of cells of a grid, one bit each, in a scratch file if that is too large for the heap. */
public final class CellSet {
  private final GridSpec spec;
  private final Memory memory;
  private final Ints words;

  /** Creates an empty set. */
  public CellSet(GridSpec spec, Memory memory) {
    // Several are filled at once, which together must not be too large for the heap.
    this(spec, memory, memory.scratch(spec.cells()));
  }

  /**
   * @param file where the set is stored; null for the heap
   */
  CellSet(GridSpec spec, Memory memory, ScratchFile file) {
    this.spec = spec;
    this.memory = memory;
    this.words = Ints.of((spec.cells() >>> 5) + 1, file);
  }

  /** Creates several empty sets. */
  public static List<CellSet> some(int count, GridSpec spec, Memory memory) {
    return Stream.generate(() -> new CellSet(spec, memory)).limit(count).toList();
  }

  GridSpec spec() {
    return spec;
  }

  Memory memory() {
    return memory;
  }

  /** True if the set has the cell. */
  boolean has(int cell) {
    return (words.get(cell >>> 5) >>> cell & 1) != 0;
  }

  void set(int cell, boolean on) {
    int bit = 1 << cell;
    int word = words.get(cell >>> 5);
    words.set(cell >>> 5, on ? word | bit : word & ~bit);
  }

  /**
   * Adds cells of some rows of the grid.
   *
   * @param wanted tells which, by their index within these rows
   */
  public void add(int firstRow, int rows, IntPredicate wanted) {
    int first = firstRow * spec.cols();
    for (int i = 0; i < rows * spec.cols(); i++) {
      if (wanted.test(i)) {
        set(first + i, true);
      }
    }
  }
}
