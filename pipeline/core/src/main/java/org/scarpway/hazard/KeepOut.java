package org.scarpway.hazard;

import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.scarpway.stage.UserError;

/** Keep-out ground: polygons with a margin around them. */
public final class KeepOut {
  private KeepOut() {}

  /**
   * The union of all areas, grown by the margin. Self-crossing rings are repaired first; a hole
   * that the margin fills is gone. Points and lines count where there is a margin.
   */
  public static Geometry area(List<Geometry> areas, double marginM) {
    if (!(marginM >= 0) || Double.isInfinite(marginM)) {
      throw UserError.of(
          "hazard.margin_m",
          "margin is " + marginM + " m",
          "0 or more, finite",
          "correct it in the job file");
    }
    Geometry union =
        UnaryUnionOp.union(areas.stream().map(GeometryFixer::fix).toList(), new GeometryFactory());
    Geometry grown = marginM > 0 ? union.buffer(marginM) : union;
    return grown.isEmpty() ? new GeometryFactory().createPolygon() : grown;
  }
}
