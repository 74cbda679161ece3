package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.scarpway.geodata.BandInfo;
import org.scarpway.geodata.CellPolygons;
import org.scarpway.geodata.CsvTable;
import org.scarpway.geodata.CsvTable.Column;
import org.scarpway.geodata.Feature;
import org.scarpway.geodata.RasterIo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.CorridorRequest;
import org.scarpway.reach.CorridorResult;

/** The files of corridor/NAME/, both ways. */
final class CorridorProducts {
  /** What of a result is in no raster. */
  record Rest(
      double bestCost,
      List<CorridorResult.ProfilePoint> centreline,
      List<CorridorResult.PinchPoint> pinchPoints,
      List<CorridorResult.Alternative> alternatives,
      List<String> warnings) {}

  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  private final GridSpec spec;
  private final RasterIo io;

  CorridorProducts(GridSpec spec, RasterIo io) {
    this.spec = spec;
    this.io = io;
  }

  void write(Path dir, CorridorResult c) {
    String cost = c.request().cost().name().toLowerCase(Locale.ROOT);
    io.write(
        dir.resolve("excess_pct.tif"),
        c.excessPct(),
        BandInfo.of(
            "by how much the best way through a cell exceeds the best of all, "
                + cost
                + ", "
                + c.vehicle(),
            "%"));
    List<Feature> areas = new ArrayList<>();
    float[] excess = c.excessPct().values();
    for (double pct : c.request().withinPct()) {
      var inside = CellPolygons.trace(spec, cell -> excess[cell] <= pct);
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("within_pct", pct);
      about.put("cost", cost);
      about.put("area_m2", inside.getArea());
      areas.add(new Feature(inside, about));
    }
    Layers.write(dir.resolve("corridor.gpkg"), spec, Layers.polygons("corridor", areas));
    List<Feature> lines = new ArrayList<>();
    lines.add(line(0, c.centreline()));
    for (CorridorResult.Alternative a : c.alternatives()) {
      lines.add(line(a.rank(), a.line()));
    }
    Layers.write(dir.resolve("centreline.gpkg"), spec, Layers.lines("centreline", lines));
    writeProfile(dir.resolve("profile.csv"), c.centreline());
    writePinchPoints(dir.resolve("pinch_points.csv"), c.pinchPoints());
    writeAlternatives(dir.resolve("alternatives.csv"), c);
    StoredResult.write(
        dir,
        new Rest(c.bestCost(), c.centreline(), c.pinchPoints(), c.alternatives(), c.warnings()));
  }

  CorridorResult load(Path dir, CorridorRequest request, String vehicle) {
    Rest rest = StoredResult.read(dir, Rest.class);
    return new CorridorResult(
        request,
        vehicle,
        new FloatGrid(spec, io.readFloats(dir.resolve("excess_pct.tif")).values()),
        rest.bestCost(),
        rest.centreline(),
        rest.pinchPoints(),
        rest.alternatives(),
        rest.warnings());
  }

  private static Feature line(int rank, List<CorridorResult.ProfilePoint> points) {
    Coordinate[] at =
        points.stream().map(p -> new Coordinate(p.xM(), p.yM())).toArray(Coordinate[]::new);
    LineString line = GEOMETRY.createLineString(at);
    CorridorResult.ProfilePoint end = points.get(points.size() - 1);
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("rank", rank);
    about.put("length_m", end.distanceM());
    about.put("time_s", end.timeS());
    about.put("energy_j", end.energyJ());
    return new Feature(line, about);
  }

  private static void writeProfile(Path file, List<CorridorResult.ProfilePoint> points) {
    List<List<Object>> rows = new ArrayList<>();
    for (CorridorResult.ProfilePoint p : points) {
      rows.add(
          List.of(
              p.distanceM(),
              p.xM(),
              p.yM(),
              p.heightM(),
              p.pitchDeg(),
              p.rollDeg(),
              p.speedMs(),
              p.timeS(),
              p.energyJ() / 1000,
              p.margin01()));
    }
    CsvTable.write(
        file,
        List.of(
            Column.number("distance_m", 2),
            Column.number("x_m", 2),
            Column.number("y_m", 2),
            Column.number("height_m", 3),
            Column.number("pitch_deg", 2),
            Column.number("roll_deg", 2),
            Column.number("speed_ms", 3),
            Column.number("time_s", 1),
            Column.number("energy_kj", 2),
            Column.number("margin", 3)),
        rows);
  }

  private static void writePinchPoints(Path file, List<CorridorResult.PinchPoint> points) {
    List<List<Object>> rows = new ArrayList<>();
    for (CorridorResult.PinchPoint p : points) {
      rows.add(List.of(p.xM(), p.yM(), p.widthM(), p.distanceM()));
    }
    CsvTable.write(
        file,
        List.of(
            Column.number("x_m", 2),
            Column.number("y_m", 2),
            Column.number("width_m", 1),
            Column.number("distance_m", 1)),
        rows);
  }

  private static void writeAlternatives(Path file, CorridorResult c) {
    List<List<Object>> rows = new ArrayList<>();
    CorridorResult.ProfilePoint end = c.centreline().get(c.centreline().size() - 1);
    rows.add(List.of(0L, end.timeS(), end.energyJ() / 3.6e6, end.distanceM(), 0.0, 100.0));
    for (CorridorResult.Alternative a : c.alternatives()) {
      rows.add(
          List.of(
              (long) a.rank(),
              a.timeS(),
              a.energyJ() / 3.6e6,
              a.distanceM(),
              a.excessPct(),
              a.sharedPct()));
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("rank"),
            Column.number("time_s", 1),
            Column.number("energy_kwh", 4),
            Column.number("distance_m", 1),
            Column.number("excess_pct", 2),
            Column.number("shared_pct", 1)),
        rows);
  }
}
