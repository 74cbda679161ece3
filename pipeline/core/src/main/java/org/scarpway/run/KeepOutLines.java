package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Point;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.KeepOutFile;
import org.scarpway.stage.Digits;
import org.scarpway.vehicle.Vehicle;

/** What the keep-out areas of a job mean for a place: which is there or nearest, why, how far. */
final class KeepOutLines {
  private static final GeometryFactory JTS = new GeometryFactory();

  private final OpenJob open;
  private final Point place;
  private final Geometry cell;

  private KeepOutLines(OpenJob open, double xM, double yM) {
    this.open = open;
    this.place = JTS.createPoint(new Coordinate(xM, yM));
    GridSpec spec = open.spec();
    int at = spec.cellOf(xM, yM);
    double west = spec.xM(at % spec.cols()) - spec.cellXM() / 2;
    double south = spec.yM(at / spec.cols()) - spec.cellYM() / 2;
    this.cell =
        JTS.toGeometry(new Envelope(west, west + spec.cellXM(), south, south + spec.cellYM()));
  }

  /** An area of a file and how far the place is from it (m). */
  private record Near(String words, Geometry area, double awayM) {}

  /**
   * Returns a line for each area that holds the place or closes its cell to a vehicle by its
   * margin, else one for the nearest; none if the job has no areas.
   */
  static List<String> of(OpenJob open, double xM, double yM) {
    return new KeepOutLines(open, xM, yM).lines();
  }

  private List<String> lines() {
    List<Near> all = new ArrayList<>();
    for (Path file : open.job().hazard().keepOut()) {
      List<KeepOutFile.Named> areas = KeepOutFile.named(file, open.stages().frame());
      for (int i = 0; i < areas.size(); i++) {
        Geometry area = areas.get(i).area();
        String words = areas.get(i).textOr(i + 1, file);
        all.add(new Near(words, area, place.distance(area)));
      }
    }
    all.sort(Comparator.comparingDouble(Near::awayM));
    List<String> lines = new ArrayList<>();
    for (Near near : all) {
      List<String> closedTo = closedTo(near.area);
      if (near.awayM == 0) {
        double depthM = place.distance(near.area.getBoundary());
        lines.add("inside " + near.words + ", " + metres(depthM) + " from its edge");
      } else if (!closedTo.isEmpty()) {
        lines.add(away(near) + ": its margin closes this cell to " + String.join(", ", closedTo));
      }
    }
    if (lines.isEmpty() && !all.isEmpty()) {
      lines.add(away(all.get(0)) + ", the nearest");
    }
    return lines;
  }

  private static String away(Near near) {
    return metres(near.awayM) + " from the edge of " + near.words;
  }

  private static String metres(double m) {
    return Digits.of(m) + " m";
  }

  /** Vehicles that may not come as near as the cell is: the margin and half their width. */
  private List<String> closedTo(Geometry area) {
    double marginM = open.job().hazard().marginM();
    double fromCellM = cell.distance(area);
    return open.job().vehicles().stream()
        .filter(v -> fromCellM <= marginM + v.body().widthM() / 2)
        .map(Vehicle::name)
        .toList();
  }
}
