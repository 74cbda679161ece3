package org.scarpway.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.StepCodes;
import org.scarpway.report.MapLayer.Rounded;
import org.scarpway.report.TilePack.Halving;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.ShownMobility;

/** Everything that the map of the page shows and tells, as data of the page. */
final class MapData {
  /** A block of data in the page. */
  record Block(String id, String text) {}

  /**
   * All data of the map.
   *
   * @param withoutWays questions whose ways the page has no room for
   */
  record Packed(List<Block> blocks, List<String> withoutWays) {}

  private final Ground ground;
  private final GridSpec spec;
  private final MapParts parts;
  private final List<MapLayer> layers = new ArrayList<>();
  private final Set<String> withoutWays = new LinkedHashSet<>();
  private final ObjectNode map = JsonNodeFactory.instance.objectNode();

  private MapData(Ground ground, ContentStore store) {
    this.ground = ground;
    this.spec = ground.spec;
    this.parts = new MapParts(spec, store);
  }

  /**
   * @param mostChars that all blocks may take together; the layers lose cells until they fit
   */
  static Packed of(Ground ground, Relief relief, String lattice, long mostChars, Workers workers) {
    MapData data = new MapData(ground, workers.memory().store().ofOthers());
    data.frame(lattice);
    ArrayNode keepOut = ground.data.hazard() == null ? null : data.map.putArray("keepOut");
    data.parts.add(part -> data.ground(relief, keepOut, part));
    MapKeepOut.add(ground, data.map);
    data.vehicles(data.map.putArray("vehicles"));
    MapQuestions questions = new MapQuestions(ground, data.parts);
    questions.reaches(data.map.putArray("reaches"));
    questions.corridors(data.map.putArray("corridors"));
    MapSorties.add(ground, data.parts, data.map.putArray("sorties"));
    data.layers.addAll(data.parts.made(workers));
    data.places();
    data.fit(mostChars);
    return new Packed(data.blocks(), List.copyOf(data.withoutWays));
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
      if (costliest.get(0).isSteps()
          || costliest.stream().noneMatch(l -> !l.isSteps() && l.tiles.coarsen())) {
        Optional<MapLayer> steps = costliest.stream().filter(MapLayer::isSteps).findFirst();
        if (steps.isEmpty()) {
          return;
        }
        drop(steps.get());
      }
    }
  }

  /** Steps cannot be merged: there are all of them or none. */
  private void drop(MapLayer steps) {
    layers.remove(steps);
    for (JsonNode reach : map.path("reaches")) {
      for (String name : List.of("outStep", "homeStep", "walkStep", "fetchStep", "rideStep")) {
        if (reach.path(name).asText().equals(steps.id)) {
          ((ObjectNode) reach).remove(name);
          ((ObjectNode) reach).put("waysLeftOut", true);
          withoutWays.add(reach.path("name").asText());
        }
      }
    }
  }

  private void frame(String lattice) {
    map.put("explain", ground.data.facts().command().replace(" run ", " explain ") + " PLACE");
    map.put("tile", TilePack.TILE).put("rows", spec.rows()).put("cols", spec.cols());
    map.put("west", spec.westM()).put("north", spec.northM());
    map.put("dx", spec.cellXM()).put("dy", spec.cellYM()).put("lattice", lattice);
    double turnDeg =
        TrueNorth.azimuthDeg(
            ground.data.lonLat(),
            (spec.westM() + spec.eastM()) / 2,
            (spec.southM() + spec.northM()) / 2);
    map.put("northDeg", Double.isNaN(turnDeg) ? 0 : turnDeg);
    ArrayNode steps = map.putArray("steps");
    for (int code = 1; code <= StepCodes.CELLS; code++) {
      steps.addArray().add(StepCodes.rows(code)).add(StepCodes.cols(code));
    }
    map.put(
        "ramp",
        IntStream.range(0, 64)
            .mapToObj(i -> String.format(Locale.ROOT, "%06x", Palette.ramp(i / 63.0)))
            .collect(Collectors.joining()));
  }

  private void ground(Relief relief, ArrayNode keepOut, MapParts.Part part) {
    ReportData data = ground.data;
    part.add(
        MapLayer.relief(
            "relief", relief.full(data.dem(), data.terrain()), 4, MapLayer.group("ground")));
    part.add(
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
            MapLayer.group("ground")));
    part.add(
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
            MapLayer.group("ground")));
    if (data.hazard() != null) {
      part.add(
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
              MapLayer.group("ground")));
      new MapLines(spec).outlines(keepOut, data.hazard().keepOut());
    }
    LightSection.layers(data, part);
  }

  private static double least(FloatGrid grid) {
    double least = Double.POSITIVE_INFINITY;
    for (float v : grid.values()) {
      least = v < least ? v : least;
    }
    return Double.isInfinite(least) ? 0 : Math.floor(least);
  }

  private void vehicles(ArrayNode vehicles) {
    for (int k = 0; k < ground.data.mobility().size(); k++) {
      int i = k;
      ShownMobility m = ground.data.mobility().get(i);
      ObjectNode v = vehicles.addObject().put("name", m.vehicle().name());
      String stage = ground.data.keys().get("mobility/" + m.vehicle().name());
      parts.add("vehicle-" + i, stage, v, part -> vehicle(v, i, m, part));
    }
  }

  private static void vehicle(ObjectNode v, int i, ShownMobility m, MapParts.Part part) {
    String group = "vehicle " + i;
    v.put(
        "class",
        part.add(
                MapLayer.classes(
                    "class-" + i,
                    "go, slow, no-go",
                    m.cls(),
                    ClassStyle.mobility(),
                    Halving.WORST_CLASS,
                    16,
                    MapLayer.group(group)))
            .id);
    v.put(
        "limit",
        part.add(
                MapLayer.classes(
                    "limit-" + i,
                    "limit that binds",
                    m.limit(),
                    ClassStyle.limits(),
                    Halving.ANY_CAUSE,
                    12,
                    MapLayer.group(group)))
            .id);
    v.put(
        "headings",
        part.add(
                MapLayer.quantity(
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
                    MapLayer.group(group)))
            .id);
    v.put(
        "speed",
        part.add(
                MapLayer.quantity(
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
                    MapLayer.group(group)))
            .id);
    if (m.noGo01().isPresent()) {
      v.put(
          "risk",
          part.add(
                  MapLayer.quantity(
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
                      MapLayer.group(group)))
              .id);
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
            new MapLines(spec).outlines(ellipses, p.ellipse().outline());
          }
        }
      }
    }
  }
}
