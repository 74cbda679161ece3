package org.scarpway.run.product;

import java.util.function.Function;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.CoordinateSequenceFilter;
import org.locationtech.jts.geom.Geometry;

/** Copies a geometry with every vertex transformed to other coordinates. */
final class TranslatedGeometry {
  private TranslatedGeometry() {}

  /**
   * @param move maps a vertex to its new x and y
   */
  static Geometry to(Geometry geometry, Function<Coordinate, double[]> move) {
    Geometry g = geometry.copy();
    g.apply(
        new CoordinateSequenceFilter() {
          @Override
          public void filter(CoordinateSequence seq, int i) {
            double[] xy = move.apply(seq.getCoordinate(i));
            seq.setOrdinate(i, CoordinateSequence.X, xy[0]);
            seq.setOrdinate(i, CoordinateSequence.Y, xy[1]);
          }

          @Override
          public boolean isDone() {
            return false;
          }

          @Override
          public boolean isGeometryChanged() {
            return true;
          }
        });
    return g;
  }
}
