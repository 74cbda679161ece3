package org.scarpway.site;

import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.Mobility;

/** Distance to the nearest no-go ground. */
final class NoGoDistance {
  private NoGoDistance() {}

  /**
   * Distance (m) from a point to the nearest point of a cell that is neither go nor slow; 0 on such
   * a cell, {@code mostM} if none is nearer. Ground outside the grid is unknown and ignored.
   */
  static double ofM(GridSpec g, ClassRows rows, double xM, double yM, double mostM) {
    byte[] cls = new byte[g.cols()];
    double best2 = mostM * mostM;
    int row0 = Math.max(0, Math.min(g.rows() - 1, g.rowOf(yM)));
    int col0 = Math.max(0, Math.min(g.cols() - 1, g.colOf(xM)));
    for (int step = -1; step <= 1; step += 2) {
      for (int row = step < 0 ? row0 : row0 + 1; row >= 0 && row < g.rows(); row += step) {
        double north = gap(yM - g.yM(row), g.cellYM());
        if (north * north >= best2) {
          break;
        }
        rows.read(row, cls);
        best2 = Math.min(best2, alongRow(g, cls, col0, xM, north * north, best2));
      }
    }
    return Math.sqrt(best2);
  }

  private static double alongRow(
      GridSpec g, byte[] cls, int col0, double xM, double north2, double most2) {
    double best2 = most2;
    for (int step = -1; step <= 1; step += 2) {
      for (int col = step < 0 ? col0 : col0 + 1; col >= 0 && col < g.cols(); col += step) {
        double east = gap(xM - g.xM(col), g.cellXM());
        if (east * east + north2 >= best2) {
          break;
        }
        byte c = cls[col];
        if (c != Mobility.GO && c != Mobility.SLOW) {
          best2 = east * east + north2;
        }
      }
    }
    return best2;
  }

  /** Distance from a point to a cell along one axis. */
  private static double gap(double toCentreM, double cellM) {
    return Math.max(0, Math.abs(toCentreM) - cellM / 2);
  }
}
