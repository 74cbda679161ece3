package org.scarpway.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.report.MapLayer.Rounded;
import org.scarpway.report.ReportData.ReachCells;
import org.scarpway.vehicle.ShownMobility;

/** Everything that the map of the page shows and tells, as data of the page. */
final class MapData {
  /** A block of data in the page. */
  record Block(String id, String text) {}

  private final Ground ground;
  private final GridSpec spec;
  private final List<MapLayer> layers = new ArrayList<>();
  private final ObjectNode map = JsonNodeFactory.instance.objectNode();

  private MapData(Ground ground) {
    this.ground = ground;
    this.spec = ground.spec;
  }

  /**
   * @param mostChars that all blocks may take together; the layers lose cells until they fit
   */
  static List<Block> of(Ground ground, Relief relief, String lattice, long mostChars) {
    MapData data = new MapData(ground);
    data.frame(lattice);
    data.ground(relief);
    data.vehicles();
    data.reaches();
    data.corridors();
    data.places();
    data.fit(mostChars);
    return data.blocks();
  }

  private List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block("map-data", manifest()));
    layers.forEach(layer -> blocks.add(new Block("pack-" + layer.id, layer.tiles.text())));
    return blocks;
  }

  private String manifest() {
    ArrayNode list = map.putArray("layers");
    layers.forEach(layer -> list.add(layer.about()));
    return quiet(map.toString());
  }

  /** Returns the same JSON without anything that looks like a tag or the end of an attribute. */
  private static String quiet(String json) {
    StringBuilder text = new StringBuilder(json.length());
    for (int i = 0; i < json.length(); i++) {
      char c = json.charAt(i);
      if (c == '\\') {
        char next = json.charAt(++i);
        text.append(next == '"' ? "\\u0022" : "\\" + next);
      } else if (c == '<') {
        text.append("\\u003c");
      } else {
        text.append(c);
      }
    }
    return text.toString();
  }

  /** Halves the side of the cells of whichever layer takes most for what it is worth. */
  private void fit(long mostChars) {
    long room = mostChars - manifest().length();
    while (layers.stream().mapToLong(l -> l.tiles.chars()).sum() > room) {
      List<MapLayer> costliest = new ArrayList<>(layers);
      costliest.sort(Comparator.comparingLong(l -> -l.tiles.chars() / l.worth));
      if (costliest.stream().noneMatch(l -> l.tiles.coarsen())) {
        return;
      }
    }
  }

  private void frame(String lattice) {
    map.put("tile", TilePack.TILE).put("rows", spec.rows()).put("cols", spec.cols());
    map.put("west", spec.westM()).put("north", spec.northM());
    map.put("dx", spec.cellXM()).put("dy", spec.cellYM()).put("lattice", lattice);
    double turnDeg =
        TrueNorth.azimuthDeg(
            ground.data.lonLat(),
            (spec.westM() + spec.eastM()) / 2,
            (spec.southM() + spec.northM()) / 2);
    map.put("northDeg", Double.isNaN(turnDeg) ? 0 : turnDeg);
    map.put(
        "ramp",
        IntStream.range(0, 64)
            .mapToObj(i -> String.format(Locale.ROOT, "%06x", Palette.ramp(i / 63.0)))
            .collect(Collectors.joining()));
  }

  private MapLayer add(MapLayer layer) {
    layers.add(layer);
    return layer;
  }

  private static ObjectNode about(String group) {
    return JsonNodeFactory.instance.objectNode().put("group", group);
  }

  private void ground(Relief relief) {
    ReportData data = ground.data;
    add(MapLayer.relief("relief", relief.full(data.dem(), data.terrain()), 4, about("ground")));
    add(
        MapLayer.quantity(
            "height",
            "height",
            "m",
            data.dem().heightM(),
            1,
            0.25,
            Rounded.NEAREST,
            least(data.dem().heightM()),
            Double.NaN,
            1,
            about("ground")));
    add(
        MapLayer.quantity(
            "slope",
            "slope",
            "deg",
            data.terrain().slopeDeg(),
            1,
            0.25,
            Rounded.UP,
            0,
            Double.NaN,
            2,
            about("ground")));
    if (data.hazard() != null) {
      add(
          MapLayer.quantity(
              "hazard",
              "hazard",
              "of 1",
              data.hazard().hazard01(),
              1,
              0.02,
              Rounded.UP,
              0,
              1,
              2,
              about("ground")));
      outlines(map.putArray("keepOut"), data.hazard().keepOut());
    }
  }

  private static double least(FloatGrid grid) {
    double least = Double.POSITIVE_INFINITY;
    for (float v : grid.values()) {
      least = v < least ? v : least;
    }
    return Double.isInfinite(least) ? 0 : Math.floor(least);
  }

  private void vehicles() {
    ArrayNode vehicles = map.putArray("vehicles");
    for (int i = 0; i < ground.data.mobility().size(); i++) {
      ShownMobility m = ground.data.mobility().get(i);
      String name = m.vehicle().name();
      String group = "vehicle " + i;
      ObjectNode v = vehicles.addObject().put("name", name);
      v.put(
          "class",
          add(MapLayer.classes(
                  "class-" + i,
                  "go, slow, no-go",
                  m.cls(),
                  ClassStyle.mobility(),
                  16,
                  about(group)))
              .id);
      v.put(
          "limit",
          add(MapLayer.classes(
                  "limit-" + i,
                  "limit that binds",
                  m.limit(),
                  ClassStyle.limits(),
                  12,
                  about(group)))
              .id);
      v.put(
          "headings",
          add(MapLayer.quantity(
                  "headings-" + i,
                  "headings allowed",
                  "%",
                  m.headingsPct(),
                  1,
                  1,
                  Rounded.DOWN,
                  0,
                  100,
                  1,
                  about(group)))
              .id);
      v.put(
          "speed",
          add(MapLayer.quantity(
                  "speed-" + i,
                  "mean speed",
                  "m/s",
                  m.speedMs(),
                  1,
                  0.05,
                  Rounded.DOWN,
                  0,
                  Double.NaN,
                  1,
                  about(group)))
              .id);
      if (m.noGo01().isPresent()) {
        v.put(
            "risk",
            add(MapLayer.quantity(
                    "risk-" + i,
                    "P(no-go)",
                    "of 1",
                    m.noGo01().get(),
                    1,
                    0.02,
                    Rounded.UP,
                    0,
                    1,
                    1,
                    about(group)))
                .id);
      }
    }
  }

  private void reaches() {
    ArrayNode reaches = map.putArray("reaches");
    for (int i = 0; i < ground.data.reaches().size(); i++) {
      ReachResult r = ground.data.reaches().get(i);
      ReachRequest q = r.request();
      String group = "reach " + i;
      ObjectNode n = reaches.addObject().put("name", q.name()).put("vehicle", r.vehicle());
      n.put("base", q.baseName()).put("x", q.baseXM()).put("y", q.baseYM());
      n.put("home", q.home().name()).put("stayS", q.stayS());
      n.put("beyond", q.beyondBudget());
      ReachRequest.Budget b = q.budget();
      put(n, "timeS", b.timeS(), q.reserves().timePct());
      put(n, "energyJ", b.energyJ(), q.reserves().energyPct());
      put(n, "distanceM", b.distanceM(), q.reserves().distancePct());
      ReachBands bands = new ReachBands(ground.pixels, r);
      n.put(
          "bands",
          add(MapLayer.classes(
                  "bands-" + i, "reach by bands", bands.merged, bands.styles, 8, about(group)))
              .id);
      n.put(
          "ends",
          add(MapLayer.classes(
                  "ends-" + i,
                  "what ends the reach",
                  r.binding(),
                  ClassStyle.ends(),
                  8,
                  about(group)))
              .id);
      ReachCells cells = ground.data.reachCells();
      minutes(n, "out", "least time out", cells.floats(q.name(), ReachCells.OUT_TIME), i);
      if (q.home() != HomeRule.NONE) {
        minutes(n, "back", "least time home", cells.floats(q.name(), ReachCells.HOME_TIME), i);
      }
      minutes(
          n,
          "stop",
          "time from a stop until all are home",
          cells.floats(q.name(), ReachCells.STOP_HOME),
          i);
      FloatGrid energyJ = cells.floats(q.name(), ReachCells.OUT_ENERGY);
      n.put(
          "energy",
          add(MapLayer.quantity(
                  "energy-" + i,
                  "least energy out",
                  "kWh",
                  energyJ,
                  1 / 3.6e6,
                  0.01,
                  Rounded.UP,
                  0,
                  Double.NaN,
                  1,
                  about(group)))
              .id);
      n.put(
          "gap",
          add(MapLayer.quantity(
                  "gap-" + i,
                  "narrowest passage on the widest way home",
                  "m",
                  r.gapWidthM(),
                  1,
                  1,
                  Rounded.DOWN,
                  0,
                  Double.NaN,
                  1,
                  about(group)))
              .id);
      ReachLines lines = new ReachLines(r);
      n.put("unitX", spec.cellXM() * lines.shrink / 2)
          .put("unitY", spec.cellYM() * lines.shrink / 2);
      named(n.putArray("lines"), lines.bands);
      named(n.putArray("edges"), lines.edges);
      targets(n.putArray("targets"), r);
    }
  }

  private void minutes(ObjectNode reach, String name, String title, FloatGrid seconds, int i) {
    if (seconds != null) {
      reach.put(
          name,
          add(MapLayer.quantity(
                  name + "-" + i,
                  title,
                  "min",
                  seconds,
                  1 / 60.0,
                  0.1,
                  Rounded.UP,
                  0,
                  Double.NaN,
                  2,
                  about("reach " + i)))
              .id);
    }
  }

  private static void put(ObjectNode n, String name, Double limit, double reservePct) {
    if (limit != null) {
      n.put(name, limit).put(name + "Kept", limit * reservePct / 100);
    }
  }

  private static void named(ArrayNode list, List<ReachLines.Named> lines) {
    for (ReachLines.Named line : lines) {
      ArrayNode parts = list.addObject().put("name", line.name()).putArray("parts");
      for (int[] p : line.lines()) {
        steps(parts.addArray(), p);
      }
    }
  }

  /** Writes the first point and then each point less the one before. */
  private static void steps(ArrayNode list, int[] points) {
    for (int i = 0; i < points.length; i++) {
      list.add(i < 2 ? points[i] : points[i] - points[i - 2]);
    }
  }

  private static void targets(ArrayNode list, ReachResult r) {
    for (ReachResult.TargetReach t : r.targets()) {
      ObjectNode n = list.addObject().put("name", t.target().name()).put("reached", t.reached());
      n.put("end", t.end() == null ? "" : t.end());
      if (t.reached()) {
        n.put(
            "told",
            Figures.duration(t.totalTimeS())
                + " in all"
                + left(", time left ", Figures.duration(t.timeLeftS()))
                + left(", energy left ", Figures.energy(t.energyLeftJ()))
                + left(", life support left ", Figures.duration(t.lifeLeftS())));
      }
    }
  }

  private static String left(String what, String amount) {
    return amount.equals(Figures.NONE) ? "" : what + amount;
  }

  private void corridors() {
    ArrayNode corridors = map.putArray("corridors");
    for (int i = 0; i < ground.data.corridors().size(); i++) {
      CorridorResult c = ground.data.corridors().get(i);
      ObjectNode n = corridors.addObject().put("name", c.request().name());
      n.put("vehicle", c.vehicle());
      double most = c.request().withinPct().stream().mapToDouble(v -> v).max().orElse(10);
      FloatGrid shown = FloatGrid.empty(spec);
      for (int k = 0; k < shown.values().length; k++) {
        float e = c.excessPct().values()[k];
        shown.values()[k] = e <= most ? e : Float.NaN;
      }
      n.put("most", most);
      n.put(
          "excess",
          add(MapLayer.quantity(
                  "excess-" + i,
                  "more than the best way",
                  "%",
                  shown,
                  1,
                  0.1,
                  Rounded.UP,
                  0,
                  most,
                  2,
                  about("corridor " + i)))
              .id);
      line(n.putArray("line"), c.centreline());
      ArrayNode others = n.putArray("others");
      for (Alternative a : c.alternatives()) {
        ObjectNode o = others.addObject().put("name", "alternative " + a.rank());
        line(o.putArray("line"), a.line());
      }
      ArrayNode profile = n.putArray("profile");
      for (ProfilePoint p : c.centreline()) {
        ArrayNode row = profile.addArray();
        row.add(number(p.distanceM(), 0)).add(number(p.heightM(), 1)).add(number(p.timeS(), 0));
        row.add(number(p.energyJ() / 3.6e6, 3));
      }
      ArrayNode pinches = n.putArray("pinches");
      for (CorridorResult.PinchPoint p : c.pinchPoints()) {
        pinches.addObject().put("x", p.xM()).put("y", p.yM()).put("widthM", p.widthM());
      }
    }
  }

  private static double number(double v, int decimals) {
    return Double.isFinite(v) ? Double.parseDouble(Figures.fixed(v, decimals)) : 0;
  }

  /** Writes a line in metres from the north-west corner, rounded to decimetres. */
  private void line(ArrayNode list, List<ProfilePoint> line) {
    for (ProfilePoint p : line) {
      list.add(number(p.xM() - spec.westM(), 1)).add(number(spec.northM() - p.yM(), 1));
    }
  }

  private void outlines(ArrayNode list, Geometry area) {
    for (int g = 0; area != null && g < area.getNumGeometries(); g++) {
      if (area.getGeometryN(g) instanceof Polygon polygon && !polygon.isEmpty()) {
        ring(list.addArray(), polygon.getExteriorRing().getCoordinates());
        for (int h = 0; h < polygon.getNumInteriorRing(); h++) {
          ring(list.addArray(), polygon.getInteriorRingN(h).getCoordinates());
        }
      }
    }
  }

  private void ring(ArrayNode list, Coordinate[] ring) {
    for (Coordinate c : ring) {
      list.add(number(c.x - spec.westM(), 1)).add(number(spec.northM() - c.y, 1));
    }
  }

  private void places() {
    ArrayNode places = map.putArray("places");
    ArrayNode ellipses = map.putArray("ellipses");
    for (ReportData.Kind kind : ReportData.Kind.values()) {
      for (ReportData.Place p : ground.data.places()) {
        if (p.kind() == kind) {
          places
              .addObject()
              .put("name", p.name())
              .put("kind", Ground.symbol(kind))
              .put("x", p.xM())
              .put("y", p.yM());
          if (p.ellipse() != null) {
            outlines(ellipses, p.ellipse().outline());
          }
        }
      }
    }
  }
}
