package org.scarpway.vehicle;

import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;

/** Ground for tests, derived from heights by central differences or given cell by cell. */
final class Grounds {
  private Grounds() {}

  interface Surface {
    double heightM(double xM, double yM);
  }

  static GridSpec square(int cells, double cellM) {
    return new GridSpec(cells, cells, cellM, cellM, 0, cells * cellM, "");
  }

  static Terrain plane(GridSpec spec, double gradEast, double gradNorth) {
    return of(spec, (x, y) -> gradEast * x + gradNorth * y, 0, 0, 0);
  }

  /** A surface with the same step, roughness and convexity everywhere. */
  static Terrain of(
      GridSpec spec, Surface surface, double stepM, double roughnessM, double convexityM) {
    FloatGrid height = FloatGrid.empty(spec);
    FloatGrid east = FloatGrid.empty(spec);
    FloatGrid north = FloatGrid.empty(spec);
    FloatGrid slope = FloatGrid.empty(spec);
    double h = 0.01;
    for (int row = 0; row < spec.rows(); row++) {
      for (int col = 0; col < spec.cols(); col++) {
        int cell = row * spec.cols() + col;
        double x = spec.xM(col);
        double y = spec.yM(row);
        double ge = (surface.heightM(x + h, y) - surface.heightM(x - h, y)) / (2 * h);
        double gn = (surface.heightM(x, y + h) - surface.heightM(x, y - h)) / (2 * h);
        height.values()[cell] = (float) surface.heightM(x, y);
        east.values()[cell] = (float) ge;
        north.values()[cell] = (float) gn;
        slope.values()[cell] = (float) SlopeGeometry.deg(Math.sqrt(ge * ge + gn * gn));
      }
    }
    return new Terrain(
        height,
        slope,
        east,
        north,
        filled(spec, roughnessM),
        filled(spec, stepM),
        filled(spec, convexityM));
  }

  static FloatGrid filled(GridSpec spec, double value) {
    FloatGrid grid = FloatGrid.empty(spec);
    java.util.Arrays.fill(grid.values(), (float) value);
    return grid;
  }

  static Hazard noHazard(GridSpec spec) {
    return hazard(spec, 1);
  }

  static Hazard hazard(GridSpec spec, double detour) {
    return new Hazard(
        FloatGrid.empty(spec),
        ByteGrid.empty(spec),
        new GeometryFactory().createGeometryCollection(),
        filled(spec, detour));
  }
}
