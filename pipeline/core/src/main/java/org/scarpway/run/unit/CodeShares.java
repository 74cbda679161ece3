package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;

/**
 * Counts the codes of the cells inside a polygon that follows cell edges. Time grows with its cells
 * and corners alone.
 */
record CodeShares(GridSpec spec, Bytes codes) {
  private static final int CODES = 256;

  /**
   * An edge of the outline that runs along a column of corners, over the rows from one to another.
   */
  private record Side(int col, int fromRow, int toRow) {}

  /**
   * A code and its share of the polygon's cells.
   *
   * @param share 0 to 1
   */
  record Share(int code, double share) {}

  /** The codes in a polygon, the most frequent first; ties by code. */
  List<Share> of(Polygon p) {
    long[] n = new long[CODES];
    List<Side> sides = sides(p);
    List<Side> active = new ArrayList<>();
    byte[] row = new byte[spec.cols()];
    int next = 0;
    int at = sides.isEmpty() ? 0 : sides.get(0).fromRow;
    while (next < sides.size() || !active.isEmpty()) {
      int here = at;
      active.removeIf(s -> s.toRow <= here);
      while (next < sides.size() && sides.get(next).fromRow <= at) {
        active.add(sides.get(next++));
      }
      active.sort(Comparator.comparingInt(Side::col));
      for (int i = 0; i + 1 < active.size(); i += 2) {
        int from = active.get(i).col;
        int cells = active.get(i + 1).col - from;
        codes.read(at * spec.cols() + from, row, 0, cells);
        for (int k = 0; k < cells; k++) {
          n[row[k] & 0xFF]++;
        }
      }
      at++;
    }
    return shares(n);
  }

  private static List<Share> shares(long[] n) {
    double all = 0;
    for (long cells : n) {
      all += cells;
    }
    List<Share> shares = new ArrayList<>();
    for (int code = 0; code < CODES; code++) {
      if (n[code] > 0) {
        shares.add(new Share(code, n[code] / all));
      }
    }
    shares.sort(Comparator.comparingDouble(Share::share).reversed());
    return shares;
  }

  private List<Side> sides(Polygon p) {
    List<Side> all = new ArrayList<>();
    addSides(all, p.getExteriorRing().getCoordinates());
    for (int h = 0; h < p.getNumInteriorRing(); h++) {
      addSides(all, p.getInteriorRingN(h).getCoordinates());
    }
    all.sort(Comparator.comparingInt(Side::fromRow));
    return all;
  }

  private void addSides(List<Side> all, Coordinate[] ring) {
    for (int i = 0; i + 1 < ring.length; i++) {
      int from = row(ring[i].y);
      int to = row(ring[i + 1].y);
      if (from != to) {
        int col = (int) Math.round((ring[i].x - spec.westM()) / spec.cellXM());
        all.add(new Side(col, Math.min(from, to), Math.max(from, to)));
      }
    }
  }

  private int row(double yM) {
    return (int) Math.round((spec.northM() - yM) / spec.cellYM());
  }
}
