package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.MultiPolygon;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.vector.CellPolygons;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.StoredResult;

/** Writes and reads the files of corridor/NAME/. */
final class CorridorProducts {
  /** The parts of a result that are not in a raster. */
  record Rest(
      double bestCost,
      List<CorridorResult.Visit> visits,
      CorridorResult.Order order,
      List<CorridorResult.ProfilePoint> centreline,
      CorridorResult.Turning turning,
      List<CorridorResult.PinchPoint> pinchPoints,
      double besideM,
      List<CorridorResult.Alternative> alternatives,
      List<CorridorResult.TradeOff> tradeOffs,
      List<String> beyond,
      List<String> warnings) {}

  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  static final String EXCESS = "excess_pct";

  private final GridSpec spec;
  private final Body body;
  private final Supplier<PlaceFrame> frame;
  private final boolean reconnaissance;

  /**
   * @param frame of the elevation model, for tables
   * @param reconnaissance true if tables name classes of route reconnaissance
   */
  CorridorProducts(GridSpec spec, Body body, Supplier<PlaceFrame> frame, boolean reconnaissance) {
    this.spec = spec;
    this.body = body;
    this.frame = frame;
    this.reconnaissance = reconnaissance;
  }

  static List<RasterProduct<CorridorResult, ?>> rasters(CorridorRequest request, String vehicle) {
    return List.of(
        RasterProduct.floats(
            EXCESS,
            BandInfo.of(
                "by how much the best way through a cell exceeds the best of all, "
                    + cost(request)
                    + ", "
                    + vehicle,
                "%"),
            CorridorResult::excessPct));
  }

  private static String cost(CorridorRequest request) {
    return request.cost().name().toLowerCase(Locale.ROOT);
  }

  /**
   * @param cells within each percentage of the request
   */
  void writePolygons(Path dir, CorridorRequest request, List<CellSet> cells) {
    List<Feature> areas = new ArrayList<>();
    for (int i = 0; i < cells.size(); i++) {
      MultiPolygon inside = CellPolygons.multi(CellPolygons.of(cells.get(i)));
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("within_pct", request.withinPct().get(i));
      about.put("cost", cost(request));
      about.put("area_m2", inside.getArea());
      areas.add(new Feature(inside, about));
    }
    Layers.write(
        dir.resolve("corridor.gpkg"),
        spec,
        Layers.polygons(
            new Layers.Words(
                "corridor",
                request.name(),
                "corridor " + request.name(),
                "Ground through which a way costs at most the given percentage more than the best"),
            areas));
    Layers.writeGeoJson(dir.resolve("corridor.geojson"), spec, body, areas);
  }

  /** Writes the lines, the tables, and the parts of the result that are not in a raster. */
  void writeRest(Path dir, CorridorResult c) {
    List<Feature> lines = new ArrayList<>();
    addLine(lines, 0, c.centreline());
    for (CorridorResult.Alternative a : c.alternatives()) {
      addLine(lines, a.rank(), a.line());
    }
    Layers.write(
        dir.resolve("centreline.gpkg"),
        spec,
        Layers.lines(
            new Layers.Words(
                "centreline",
                c.request().name(),
                "best way and alternatives of " + c.request().name(),
                "Rank 0 is the best way for " + c.vehicle() + ", others are alternatives"),
            lines));
    Layers.writeGeoJson(dir.resolve("centreline.geojson"), spec, body, lines);
    writeRoute(dir, c);
    CorridorTables.write(dir, c, frame.get(), reconnaissance);
    if (!c.tradeOffs().isEmpty()) {
      List<Feature> ways = new ArrayList<>();
      for (CorridorResult.TradeOff t : c.tradeOffs()) {
        addLine(ways, ways.size() + 1, t.line());
        if (!ways.isEmpty()) {
          ways.get(ways.size() - 1).attributes().put("hazard_m", t.hazardM());
        }
      }
      Layers.write(
          dir.resolve("trade_offs.gpkg"),
          spec,
          Layers.lines(
              new Layers.Words(
                  "trade_offs",
                  c.request().name(),
                  "trade-offs of " + c.request().name(),
                  "Ways none of which is better than another in time, energy and hazard"),
              ways));
      Layers.writeGeoJson(dir.resolve("trade_offs.geojson"), spec, body, ways);
    }
    StoredResult.write(
        dir,
        new Rest(
            c.bestCost(),
            c.visits(),
            c.order(),
            c.centreline(),
            c.turning(),
            c.pinchPoints(),
            c.besideM(),
            c.alternatives(),
            c.tradeOffs(),
            c.beyond(),
            c.warnings()));
  }

  /** Writes the best way leg by leg, and its stops. */
  private void writeRoute(Path dir, CorridorResult c) {
    List<RouteLeg> surveyed = RouteSurvey.legs(c);
    List<List<CorridorResult.ProfilePoint>> parts = RouteSurvey.lines(c);
    List<Feature> legs = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      RouteLeg leg = surveyed.get(i);
      if (leg.lengthM() > 0) {
        Map<String, Object> about = new LinkedHashMap<>();
        about.put("leg", i + 1);
        about.put("from", leg.from());
        about.put("to", leg.to());
        about.put("length_m", leg.lengthM());
        about.put("time_s", leg.timeS());
        about.put("steepest_up_pct", leg.steepestUpPct());
        about.put("steepest_down_pct", leg.steepestDownPct());
        legs.add(new Feature(line(parts.get(i)), about));
      }
    }
    List<Feature> stops = new ArrayList<>();
    for (CorridorResult.Visit v : c.visits()) {
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("position", stops.size() + 1);
      about.put("name", v.name());
      about.put("time_s", v.timeS());
      about.put("energy_j", v.energyJ());
      about.put("distance_m", v.distanceM());
      about.put("stay_min", v.stayS() / 60);
      stops.add(new Feature(GEOMETRY.createPoint(new Coordinate(v.xM(), v.yM())), about));
    }
    String name = c.request().name();
    String of = " of " + name + ", " + c.vehicle();
    Layers.write(
        dir.resolve("route.gpkg"),
        spec,
        Layers.lines(
            new Layers.Words("legs", name, "legs of " + name, "The best way leg by leg" + of),
            legs),
        Layers.points(
            new Layers.Words(
                "stops", name, "stops of " + name, "Stops in the order of travel" + of),
            stops));
    Layers.writeGeoJson(dir.resolve("legs.geojson"), spec, body, legs);
    Layers.writeGeoJson(dir.resolve("stops.geojson"), spec, body, stops);
  }

  static CorridorResult load(
      Path dir, CorridorRequest request, String vehicle, FloatGrid excessPct) {
    Rest rest = StoredResult.read(dir, Rest.class);
    return new CorridorResult(
        request,
        vehicle,
        excessPct,
        rest.bestCost(),
        rest.visits(),
        rest.order(),
        rest.centreline(),
        rest.turning(),
        rest.pinchPoints(),
        rest.besideM(),
        rest.alternatives(),
        rest.tradeOffs(),
        rest.beyond(),
        rest.warnings());
  }

  /** Adds a path as a line; a path between stops in one cell has no length and is left out. */
  private static void addLine(
      List<Feature> lines, int rank, List<CorridorResult.ProfilePoint> points) {
    CorridorResult.ProfilePoint end = points.get(points.size() - 1);
    if (!(end.distanceM() > 0)) {
      return;
    }
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("rank", rank);
    about.put("length_m", end.distanceM());
    about.put("time_s", end.timeS());
    about.put("energy_j", end.energyJ());
    lines.add(new Feature(line(points), about));
  }

  private static LineString line(List<CorridorResult.ProfilePoint> points) {
    return GEOMETRY.createLineString(
        points.stream().map(p -> new Coordinate(p.xM(), p.yM())).toArray(Coordinate[]::new));
  }
}
