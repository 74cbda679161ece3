package org.scarpway.reach;

import java.util.Arrays;

/** Lattice points in order of a width, the widest first; of equal ones the lowest index. */
final class WidestFirst {
  private int[] points = new int[1024];
  private float[] widths = new float[1024];
  private int size;

  boolean isEmpty() {
    return size == 0;
  }

  void add(int point, float width) {
    if (size == points.length) {
      points = Arrays.copyOf(points, 2 * size);
      widths = Arrays.copyOf(widths, 2 * size);
    }
    int i = size++;
    while (i > 0) {
      int up = (i - 1) / 2;
      if (!before(point, width, points[up], widths[up])) {
        break;
      }
      points[i] = points[up];
      widths[i] = widths[up];
      i = up;
    }
    points[i] = point;
    widths[i] = width;
  }

  /** Takes the first; there must be one. */
  int poll() {
    int first = points[0];
    int point = points[--size];
    float width = widths[size];
    int i = 0;
    while (2 * i + 1 < size) {
      int down = 2 * i + 1;
      if (down + 1 < size
          && before(points[down + 1], widths[down + 1], points[down], widths[down])) {
        down++;
      }
      if (!before(points[down], widths[down], point, width)) {
        break;
      }
      points[i] = points[down];
      widths[i] = widths[down];
      i = down;
    }
    points[i] = point;
    widths[i] = width;
    return first;
  }

  private static boolean before(int point, float width, int other, float otherWidth) {
    return width > otherWidth || (width == otherWidth && point < other);
  }
}
