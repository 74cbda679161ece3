package org.scarpway.dem;

import org.scarpway.geodata.MapCrs;
import org.scarpway.stage.UserError;

/** How truly a map shows lengths on the ground. */
final class MapScale {
  private MapScale() {}

  /**
   * Largest deviation of the scale along x or along y from 1, over a mesh of points in a box.
   * Infinite where the map has no ground inside the box.
   *
   * @param box west, south, east, north in the map's own unit
   */
  static double stretch(MapCrs crs, double[] box, String file) {
    int n = 8;
    double worst = 0;
    int known = 0;
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= n; j++) {
        double x = box[0] + (box[2] - box[0]) * i / n;
        double y = box[1] + (box[3] - box[1]) * j / n;
        double off = Math.max(offOne(crs, x, y, true), offOne(crs, x, y, false));
        boolean inside = i > 0 && j > 0 && i < n && j < n;
        if (!Double.isNaN(off)) {
          worst = Math.max(worst, off);
          known++;
        } else if (inside) {
          worst = Double.POSITIVE_INFINITY;
        }
      }
    }
    if (known == 0) {
      throw UserError.of(
          file,
          "coordinates outside the range of '" + crs.name() + "'",
          "coordinates on the body",
          "correct the file's coordinate reference system");
    }
    return worst;
  }

  private static double offOne(MapCrs crs, double x, double y, boolean alongX) {
    double stepM = 1e-5 * crs.semiMajorM();
    double half = stepM / crs.metresPerUnit() / 2;
    double dx = alongX ? half : 0;
    double dy = alongX ? 0 : half;
    return Math.abs(stepM / groundM(crs, x - dx, y - dy, x + dx, y + dy) - 1);
  }

  /** Length on the ground of a short line of the map: the chord, which no pole disturbs. */
  static double groundM(MapCrs crs, double x1, double y1, double x2, double y2) {
    double[] a = inSpace(crs, crs.toLonLat(x1, y1));
    double[] b = inSpace(crs, crs.toLonLat(x2, y2));
    double dx = b[0] - a[0];
    double dy = b[1] - a[1];
    double dz = b[2] - a[2];
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  }

  /** Cartesian coordinates (m) from the centre of the body. */
  private static double[] inSpace(MapCrs crs, double[] lonLatDeg) {
    double lon = Math.toRadians(lonLatDeg[0]);
    double lat = Math.toRadians(lonLatDeg[1]);
    double ratio = crs.semiMinorM() / crs.semiMajorM();
    double s = Math.sin(lat);
    double prime = crs.semiMajorM() / Math.sqrt(1 - (1 - ratio * ratio) * s * s);
    double axial = prime * Math.cos(lat);
    return new double[] {axial * Math.cos(lon), axial * Math.sin(lon), prime * ratio * ratio * s};
  }
}
