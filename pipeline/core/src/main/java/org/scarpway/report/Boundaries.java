package org.scarpway.report;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;

/**
 * Lines along the boundaries between cells, by kind of boundary. A line runs through the middles of
 * the sides of cells, counted in halves of a cell from the north-west corner, and is simplified by
 * at most {@value #TOLERANCE} half cells (Douglas and Peucker 1973, Cartographica 10(2):112-122).
 */
final class Boundaries {
  private static final double TOLERANCE = 1.2;

  private final int rows;
  private final int cols;

  /** Kind of the side north of each cell, 0 for none. */
  private final byte[] north;

  /** Kind of the side west of each cell. */
  private final byte[] west;

  private final ArrayDeque<int[]> line = new ArrayDeque<>();

  /** Tells the kind of boundary between two neighbouring cells, 0 for none. */
  interface Kind {
    int between(int cell, int neighbour);
  }

  Boundaries(int rows, int cols, Kind kind) {
    this.rows = rows;
    this.cols = cols;
    this.north = new byte[(rows + 1) * (cols + 1)];
    this.west = new byte[(rows + 1) * (cols + 1)];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        int cell = r * cols + c;
        if (r > 0) {
          north[at(r, c)] = (byte) kind.between(cell, cell - cols);
        }
        if (c > 0) {
          west[at(r, c)] = (byte) kind.between(cell, cell - 1);
        }
      }
    }
  }

  private int at(int r, int c) {
    return r * (cols + 1) + c;
  }

  /** Returns the lines of one kind, each as x, y, x, y ...; every side is in exactly one. */
  List<int[]> lines(int kind) {
    List<int[]> lines = new ArrayList<>();
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        if (north[at(r, c)] == kind) {
          north[at(r, c)] = 0;
          lines.add(chain(kind, 2 * c + 1, 2 * r, r, c + 1, r, c));
        }
        if (west[at(r, c)] == kind) {
          west[at(r, c)] = 0;
          lines.add(chain(kind, 2 * c, 2 * r + 1, r + 1, c, r, c));
        }
      }
    }
    return lines;
  }

  private int[] chain(int kind, int x, int y, int r1, int c1, int r2, int c2) {
    line.clear();
    line.add(new int[] {x, y});
    extend(kind, r1, c1, true);
    extend(kind, r2, c2, false);
    return simplified(line.toArray(new int[0][]));
  }

  /** Follows unused sides of the kind from a corner of cells. */
  private void extend(int kind, int row, int col, boolean atEnd) {
    int r = row;
    int c = col;
    while (true) {
      int x;
      int y;
      if (c < cols && take(north, at(r, c), kind)) {
        x = 2 * c + 1;
        y = 2 * r;
        c++;
      } else if (c > 0 && take(north, at(r, c - 1), kind)) {
        x = 2 * c - 1;
        y = 2 * r;
        c--;
      } else if (r < rows && take(west, at(r, c), kind)) {
        x = 2 * c;
        y = 2 * r + 1;
        r++;
      } else if (r > 0 && take(west, at(r - 1, c), kind)) {
        x = 2 * c;
        y = 2 * r - 1;
        r--;
      } else {
        return;
      }
      if (atEnd) {
        line.addLast(new int[] {x, y});
      } else {
        line.addFirst(new int[] {x, y});
      }
    }
  }

  private static boolean take(byte[] sides, int i, int kind) {
    if (sides[i] != kind) {
      return false;
    }
    sides[i] = 0;
    return true;
  }

  private static int[] simplified(int[][] p) {
    boolean[] keep = new boolean[p.length];
    keep[0] = true;
    keep[p.length - 1] = true;
    ArrayDeque<int[]> spans = new ArrayDeque<>();
    spans.push(new int[] {0, p.length - 1});
    int kept = p.length > 1 ? 2 : 1;
    while (!spans.isEmpty()) {
      int[] span = spans.pop();
      int furthest = -1;
      double most = TOLERANCE;
      for (int i = span[0] + 1; i < span[1]; i++) {
        double off = off(p[i], p[span[0]], p[span[1]]);
        if (off > most) {
          most = off;
          furthest = i;
        }
      }
      if (furthest > 0) {
        keep[furthest] = true;
        kept++;
        spans.push(new int[] {span[0], furthest});
        spans.push(new int[] {furthest, span[1]});
      }
    }
    int[] flat = new int[2 * kept];
    int n = 0;
    for (int i = 0; i < p.length; i++) {
      if (keep[i]) {
        flat[n++] = p[i][0];
        flat[n++] = p[i][1];
      }
    }
    return flat;
  }

  /** Distance of a point from the stretch between two others. */
  private static double off(int[] p, int[] a, int[] b) {
    double dx = b[0] - a[0];
    double dy = b[1] - a[1];
    double length2 = dx * dx + dy * dy;
    double t = length2 == 0 ? 0 : ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2;
    t = Math.max(0, Math.min(1, t));
    return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
  }
}
