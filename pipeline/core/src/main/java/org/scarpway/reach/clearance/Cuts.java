package org.scarpway.reach.clearance;

import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachState;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Ints;

/**
 * Computes, for each of many lines of cells, the ground that is disconnected from the base if that
 * line alone is closed. The lines and the connected components of the ground between them are the
 * nodes of a graph; its articulation points and what they disconnect are found by one depth-first
 * search (Hopcroft &amp; Tarjan 1973, <i>Algorithm 447: efficient algorithms for graph
 * manipulation</i>, Communications of the ACM 16(6):372-378).
 */
final class Cuts {
  private final Clearance clearance;
  private final GridSpec spec;
  private final Ints nodeOf;
  private final int lines;
  private long[] cells;
  private long[] counted;
  private float[] widestM;
  private int nodes;

  /** Neighbours of node i: {@code to[first[i]]} to {@code to[first[i + 1] - 1]}. */
  private int[] first;

  private int[] to;

  // Results of the depth-first search from the base, per node: discovery number, last discovery
  // number in its subtree, lowest discovery number reachable from there (low point), and parent.
  private final int[] found;
  private final int[] end;
  private final int[] low;
  private final int[] before;
  private final long[] lost;
  private final long[] lostSurely;

  /**
   * @param joined cells connected to the base
   * @param base cell of the base; must not be part of any line
   * @param lines cells of each line; no cell may be in two lines
   * @param nodeOf working memory, one value per cell
   */
  Cuts(Clearance clearance, BitSet joined, int base, int[][] lines, Bytes state, Ints nodeOf) {
    this.clearance = clearance;
    this.spec = clearance.spec();
    this.nodeOf = nodeOf;
    this.lines = lines.length;
    this.nodes = lines.length;
    label(joined, lines);
    weigh(joined, state);
    connect(lines);
    this.found = new int[nodes];
    this.end = new int[nodes];
    this.low = new int[nodes];
    this.before = new int[nodes];
    this.lost = new long[lines.length];
    this.lostSurely = new long[lines.length];
    search(base);
  }

  private void label(BitSet joined, int[][] lines) {
    nodeOf.fill(-1);
    for (int i = 0; i < lines.length; i++) {
      for (int cell : lines[i]) {
        nodeOf.set(cell, i);
      }
    }
    for (int cell = joined.nextSetBit(0); cell >= 0; cell = joined.nextSetBit(cell + 1)) {
      if (nodeOf.get(cell) < 0) {
        spread(joined, cell, nodes++);
      }
    }
  }

  private int[] stack = new int[1024];

  /** Flood fill by runs over connected cells that have no node yet. */
  private void spread(BitSet joined, int start, int node) {
    int cols = spec.cols();
    int depth = 0;
    stack[depth++] = start;
    while (depth > 0) {
      int cell = stack[--depth];
      if (nodeOf.get(cell) >= 0) {
        continue;
      }
      int row = cell / cols;
      int from = cell;
      while (from > row * cols && free(joined, from - 1)) {
        from--;
      }
      int end = cell;
      while (end < (row + 1) * cols && free(joined, end)) {
        nodeOf.set(end++, node);
      }
      for (int i = from; i < cell; i++) {
        nodeOf.set(i, node);
      }
      for (int side = -1; side <= 1; side += 2) {
        if (row + side < 0 || row + side >= spec.rows()) {
          continue;
        }
        boolean before = false;
        for (int i = from + side * cols; i < end + side * cols; i++) {
          boolean now = free(joined, i);
          if (now && !before) {
            stack = depth == stack.length ? Arrays.copyOf(stack, 2 * depth) : stack;
            stack[depth++] = i;
          }
          before = now;
        }
      }
    }
  }

  private boolean free(BitSet joined, int cell) {
    return joined.get(cell) && nodeOf.get(cell) < 0;
  }

  private void weigh(BitSet joined, Bytes state) {
    cells = new long[nodes];
    counted = new long[nodes];
    widestM = new float[nodes];
    for (int cell = joined.nextSetBit(0); cell >= 0; cell = joined.nextSetBit(cell + 1)) {
      int node = nodeOf.get(cell);
      cells[node]++;
      counted[node] += state.get(cell) == ReachState.SURELY ? 1 : 0;
      widestM[node] = Math.max(widestM[node], clearance.widestM(cell));
    }
  }

  /** Adds the edges of the graph; every edge has a line at one end at least. */
  private void connect(int[][] lines) {
    int[] a = new int[1024];
    int[] b = new int[1024];
    int edges = 0;
    for (int i = 0; i < lines.length; i++) {
      for (int cell : lines[i]) {
        int row = cell / spec.cols();
        int col = cell % spec.cols();
        for (int k = 0; k < 4; k++) {
          int r = row + (k == 0 ? -1 : k == 1 ? 1 : 0);
          int c = col + (k == 2 ? -1 : k == 3 ? 1 : 0);
          int other = spec.holds(r, c) ? nodeOf.get(r * spec.cols() + c) : -1;
          if (other >= 0 && other != i) {
            if (edges == a.length) {
              a = Arrays.copyOf(a, 2 * edges);
              b = Arrays.copyOf(b, 2 * edges);
            }
            a[edges] = i;
            b[edges++] = other;
          }
        }
      }
    }
    first = new int[nodes + 1];
    for (int e = 0; e < edges; e++) {
      first[a[e] + 1]++;
      first[b[e] + 1]++;
    }
    for (int i = 0; i < nodes; i++) {
      first[i + 1] += first[i];
    }
    int[] next = first.clone();
    to = new int[2 * edges];
    for (int e = 0; e < edges; e++) {
      to[next[a[e]]++] = b[e];
      to[next[b[e]]++] = a[e];
    }
  }

  /**
   * Number of cells that are disconnected if a line is closed, without those of the line itself.
   */
  long lost(int line) {
    return lost[line];
  }

  /** Number of those cells that are surely reached. */
  long lostSurely(int line) {
    return lostSurely[line];
  }

  private void search(int base) {
    int[] next = Arrays.copyOf(first, nodes);
    int[] order = new int[nodes];
    int time = 0;
    int at = nodeOf.get(base);
    before[at] = -1;
    order[time++] = at;
    found[at] = low[at] = time;
    while (at >= 0) {
      if (next[at] == first[at + 1]) {
        if (before[at] >= 0) {
          low[before[at]] = Math.min(low[before[at]], low[at]);
        }
        at = before[at];
        continue;
      }
      int other = to[next[at]++];
      if (found[other] == 0) {
        before[other] = at;
        at = other;
        order[time++] = at;
        found[at] = low[at] = time;
      } else {
        low[at] = Math.min(low[at], found[other]);
      }
    }
    for (int i = time - 1; i > 0; i--) {
      int node = order[i];
      int up = before[node];
      end[node] = Math.max(end[node], found[node]);
      end[up] = Math.max(end[up], end[node]);
      if (hangsOn(node, up)) {
        lost[up] += cells[node];
        lostSurely[up] += counted[node];
      }
      cells[up] += cells[node];
      counted[up] += counted[node];
    }
  }

  /** True if a node and its subtree have no path to the base except through the line above it. */
  private boolean hangsOn(int node, int up) {
    return up < lines && low[node] >= found[up];
  }

  /**
   * True if a line that disconnects something lies between two areas of at least that width,
   * without a narrower line on the path to them.
   */
  boolean betweenRooms(int line, double[] widthM, double atLeastM) {
    float kept = 0;
    float behind = 0;
    BitSet seen = new BitSet();
    seen.set(line);
    for (int e = first[line]; e < first[line + 1]; e++) {
      if (!seen.get(to[e]) && passable(to[e], widthM, widthM[line])) {
        float room = room(to[e], widthM, widthM[line], seen);
        if (behind(line, to[e])) {
          behind = Math.max(behind, room);
        } else {
          kept = Math.max(kept, room);
        }
      }
    }
    return Math.min(kept, behind) >= atLeastM;
  }

  private boolean passable(int node, double[] widthM, double thisM) {
    return node >= lines || widthM[node] >= thisM;
  }

  private float room(int start, double[] widthM, double thisM, BitSet seen) {
    float widest = 0;
    int depth = 0;
    stack[depth++] = start;
    seen.set(start);
    while (depth > 0) {
      int node = stack[--depth];
      widest = Math.max(widest, widestM[node]);
      for (int e = first[node]; e < first[node + 1]; e++) {
        if (!seen.get(to[e]) && passable(to[e], widthM, thisM)) {
          seen.set(to[e]);
          stack = depth == stack.length ? Arrays.copyOf(stack, 2 * depth) : stack;
          stack[depth++] = to[e];
        }
      }
    }
    return widest;
  }

  private boolean behind(int line, int node) {
    for (int e = first[line]; e < first[line + 1]; e++) {
      int child = to[e];
      if (before[child] == line
          && hangsOn(child, line)
          && found[node] >= found[child]
          && found[node] <= end[child]) {
        return true;
      }
    }
    return false;
  }
}
