package org.scarpway.dem;

import java.util.Arrays;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.stage.UserError;

/**
 * Scale factor of a map projection (metres on the map per metre on the ground): minimum and maximum
 * over a mesh of points in a box, along x, along y, and along any of x, y and the diagonals.
 */
record MapScale(
    double leastX, double mostX, double leastY, double mostY, double least, double most) {
  private static final int MESH = 8;

  /**
   * Evaluates the scale in a box; infinite, that is unknown, if the map has no valid point in it.
   *
   * @param box west, south, east, north in the map's own unit
   */
  static MapScale of(MapCrs crs, double[] box, String file) {
    double[] least = new double[4];
    double[] most = new double[4];
    Arrays.fill(least, Double.POSITIVE_INFINITY);
    int known = 0;
    for (int i = 0; i <= MESH; i++) {
      for (int j = 0; j <= MESH; j++) {
        double x = box[0] + (box[2] - box[0]) * i / MESH;
        double y = box[1] + (box[3] - box[1]) * j / MESH;
        boolean inside = i > 0 && j > 0 && i < MESH && j < MESH;
        for (int d = 0; d < 4; d++) {
          double k = along(crs, x, y, d != 1 ? 1 : 0, d == 0 ? 0 : d == 3 ? -1 : 1);
          if (!Double.isNaN(k)) {
            least[d] = Math.min(least[d], k);
            most[d] = Math.max(most[d], k);
            known++;
          } else if (inside) {
            most[d] = Double.POSITIVE_INFINITY;
          }
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
    return new MapScale(
        least[0],
        most[0],
        least[1],
        most[1],
        Arrays.stream(least).min().orElseThrow(),
        Arrays.stream(most).max().orElseThrow());
  }

  /** Largest relative error of a length if metres on the map are used as metres on the ground. */
  double distortion() {
    return Math.max(most - 1, 1 - least);
  }

  /** Mean of the smallest and the largest scale factor. */
  double middle() {
    return Math.sqrt(least * most);
  }

  double middleX() {
    return Math.sqrt(leastX * mostX);
  }

  private static double along(MapCrs crs, double x, double y, double dx, double dy) {
    double stepM = 1e-5 * crs.semiMajorM();
    double half = stepM / crs.metresPerUnit() / 2 / Math.hypot(dx, dy);
    return stepM / groundM(crs, x - half * dx, y - half * dy, x + half * dx, y + half * dy);
  }

  /**
   * Length (m) on the ground of a short line on the map: the chord in space, which has no
   * singularity at a pole.
   */
  static double groundM(MapCrs crs, double x1, double y1, double x2, double y2) {
    double[] a = inSpace(crs, crs.toLonLat(x1, y1));
    double[] b = inSpace(crs, crs.toLonLat(x2, y2));
    double dx = b[0] - a[0];
    double dy = b[1] - a[1];
    double dz = b[2] - a[2];
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  }

  /** Geocentric Cartesian coordinates (m). */
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
