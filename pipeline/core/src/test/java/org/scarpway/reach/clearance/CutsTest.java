package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachState;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** What lines cut off, against filling the ground again for each of them, cell by cell. */
class CutsTest {
  /** Random ground with lines on it. */
  private static final class Plan {
    private final Random random;
    private final GridSpec spec;
    private final BitSet joined;
    private final int base;
    private final int[][] lines;
    private final double[] widthM;
    private final Clearance clearance;
    private final byte[] state;
    private final Cuts cuts;

    private Plan(Random random, int rows, int cols, double barred, int most) {
      this.random = random;
      this.spec = Fields.grid(rows, cols, 1, 0, 0);
      this.base = random.nextInt(spec.cells());
      boolean[] open = new boolean[spec.cells()];
      for (int i = 0; i < open.length; i++) {
        open[i] = i == base || random.nextDouble() >= barred;
      }
      TraversalCost field =
          Fields.level(spec, (x, y) -> open[spec.rowOf(y) * cols + spec.colOf(x)] ? 1 : 0);
      BitSet free = new BitSet();
      for (int i = 0; i < open.length; i++) {
        free.set(i, open[i]);
      }
      this.joined = filled(List.of(base), free);
      this.lines = lines(most);
      this.widthM = random.doubles(lines.length, 1, 4).map(Math::rint).toArray();
      this.state = new byte[spec.cells()];
      for (int i = 0; i < state.length; i++) {
        state[i] = (byte) random.nextInt(3);
      }
      try (Workers workers = new Workers(1)) {
        this.clearance = Clearance.of(field, workers);
      }
      Ints work = Ints.of(spec.cells(), null);
      this.cuts = new Cuts(clearance, joined, base, lines, Bytes.of(state), work);
    }

    private List<Integer> around(int cell) {
      List<Integer> cells = new ArrayList<>();
      int col = cell % spec.cols();
      if (cell >= spec.cols()) {
        cells.add(cell - spec.cols());
      }
      if (cell + spec.cols() < spec.cells()) {
        cells.add(cell + spec.cols());
      }
      if (col > 0) {
        cells.add(cell - 1);
      }
      if (col < spec.cols() - 1) {
        cells.add(cell + 1);
      }
      return cells;
    }

    private BitSet filled(List<Integer> from, BitSet free) {
      BitSet seen = new BitSet();
      Deque<Integer> waiting = new ArrayDeque<>(from);
      while (!waiting.isEmpty()) {
        int cell = waiting.pop();
        if (free.get(cell) && !seen.get(cell)) {
          seen.set(cell);
          waiting.addAll(around(cell));
        }
      }
      return seen;
    }

    /**
     * Straight runs of up to seven cells along a row or column; some touch each other, none cross.
     */
    private int[][] lines(int most) {
      List<int[]> found = new ArrayList<>();
      BitSet used = new BitSet();
      used.set(base);
      for (int tries = 0; tries < 40 * most && found.size() < most; tries++) {
        int cell = random.nextInt(spec.cells());
        int step = random.nextBoolean() ? 1 : spec.cols();
        int length = 1 + random.nextInt(7);
        List<Integer> run = new ArrayList<>();
        for (int i = 0; i < length && cell < spec.cells(); i++) {
          if (!joined.get(cell) || used.get(cell) || (step == 1 && cell % spec.cols() == 0)) {
            break;
          }
          run.add(cell);
          cell += step;
        }
        if (!run.isEmpty()) {
          run.forEach(used::set);
          found.add(run.stream().mapToInt(i -> i).toArray());
        }
      }
      return found.toArray(int[][]::new);
    }

    private BitSet lostBy(int line) {
      BitSet free = (BitSet) joined.clone();
      for (int cell : lines[line]) {
        free.clear(cell);
      }
      BitSet lost = (BitSet) free.clone();
      lost.andNot(filled(List.of(base), free));
      return lost;
    }

    /**
     * The widest disc on either side without a narrower line on the way; the smaller of the two.
     */
    private double rooms(int line) {
      BitSet lost = lostBy(line);
      int[] lineOf = new int[spec.cells()];
      Arrays.fill(lineOf, -1);
      for (int i = 0; i < lines.length; i++) {
        for (int cell : lines[i]) {
          lineOf[cell] = i;
        }
      }
      double[] widest = new double[2];
      for (int side = 0; side < 2; side++) {
        BitSet seen = new BitSet();
        Deque<Integer> waiting = new ArrayDeque<>();
        for (int cell : lines[line]) {
          waiting.addAll(around(cell));
        }
        while (!waiting.isEmpty()) {
          int cell = waiting.pop();
          int on = lineOf[cell];
          boolean passable = on < 0 || (on != line && widthM[on] >= widthM[line]);
          if (joined.get(cell) && !seen.get(cell) && passable && lost.get(cell) == (side == 0)) {
            seen.set(cell);
            widest[side] = Math.max(widest[side], clearance.widestM(cell));
            waiting.addAll(around(cell));
          }
        }
      }
      return Math.min(widest[0], widest[1]);
    }

    /** How many lines cut something off. */
    private int compare(String what) {
      int cutting = 0;
      for (int i = 0; i < lines.length; i++) {
        BitSet lost = lostBy(i);
        String where = what + " line " + i;
        assertEquals(lost.cardinality(), cuts.lost(i), where);
        long surely = lost.stream().filter(c -> state[c] == ReachState.SURELY).count();
        assertEquals(surely, cuts.lostSurely(i), where);
        if (!lost.isEmpty()) {
          cutting++;
          double rooms = rooms(i);
          assertTrue(cuts.betweenRooms(i, widthM, rooms), where + ": " + rooms);
          assertEquals(false, cuts.betweenRooms(i, widthM, rooms + 1e-3), where + ": " + rooms);
        }
      }
      return cutting;
    }
  }

  @Test
  void whatEachLineCutsOffIsWhatIsNotFilledWithoutIt() {
    Random seeds = new Random(7);
    int cutting = 0;
    for (int k = 0; k < 60; k++) {
      double barred = 0.15 + 0.05 * (k % 5);
      cutting += new Plan(seeds, 20 + k % 7, 31 - k % 5, barred, 20).compare("ground " + k);
    }
    assertTrue(cutting > 100, cutting + " cut something off");
  }

  /** More lines and edges than are looked after at first. */
  @Test
  void manyLines() {
    assertTrue(new Plan(new Random(3), 120, 130, 0.3, 900).compare("many") > 50);
  }
}
