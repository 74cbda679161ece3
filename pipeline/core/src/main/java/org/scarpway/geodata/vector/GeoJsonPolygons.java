package org.scarpway.geodata.vector;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.file.InputFile;
import org.scarpway.geodata.vector.PolygonFile.Placement;
import org.scarpway.stage.UserError;

/**
 * Reads the polygons of an untrusted GeoJSON text, member by member, with bounds on size, depth and
 * number of vertices. Members may come in any order.
 */
final class GeoJsonPolygons {
  private static final String KIND = "a GeoJSON text of polygons";
  private static final long MAX_BYTES = 256L << 20;
  private static final int MAX_DEPTH = 64;
  private static final int MAX_CRS_TEXT = 1 << 12;
  private static final int MAX_QUOTE = 60;

  private static final JsonFactory JSON =
      JsonFactory.builder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(MAX_DEPTH)
                  .maxStringLength(1 << 20)
                  .maxNumberLength(100)
                  .build())
          .build();

  private static final GeometryFactory GF = new GeometryFactory();

  private final Path file;
  private final JsonParser json;
  private final PolygonCheck check;
  private Placement placement = Placement.LON_LAT;
  private int features;

  private GeoJsonPolygons(Path file, JsonParser json) {
    this.file = file;
    this.json = json;
    this.check = new PolygonCheck(file);
  }

  /** The members of a GeoJSON object that are used here. */
  private static final class Node {
    String type = "";
    String label = "";
    AreaWords words = AreaWords.NONE;
    Object coordinates;
    List<Node> children = List.of();
  }

  /**
   * Reads every polygon. Coordinates are longitude and latitude unless the top-level object has the
   * foreign member {@code "scarpway:coordinates": "projected"}; then they are metres in the CRS of
   * the elevation model.
   *
   * @throws org.scarpway.stage.UserError if the file is not valid GeoJSON or contains other
   *     geometry
   */
  static PolygonFile read(Path file) {
    InputFile.require(file, MAX_BYTES, KIND);
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file));
        JsonParser json = JSON.createParser(in)) {
      return parse(file, json);
    } catch (IOException e) {
      throw InputFile.unreadable(file, KIND, e);
    }
  }

  private static PolygonFile parse(Path file, JsonParser json) throws IOException {
    try {
      return new GeoJsonPolygons(file, json).polygons();
    } catch (JsonProcessingException e) {
      JsonLocation at = json.currentLocation();
      throw UserError.of(
          file + ":" + at.getLineNr() + ":" + at.getColumnNr(),
          "not JSON (" + plain(e.getOriginalMessage()) + ")",
          KIND,
          "check or write it again");
    }
  }

  /** The parser's message, without the names of its internal settings. */
  private static String plain(String message) {
    return message
        .lines()
        .findFirst()
        .orElse("")
        .replaceAll(", from `[^`]*`", "")
        .replaceAll(":? ?enable `[^`]*`.*", "")
        .replaceAll(" \\(start marker at .*", "");
  }

  private static String word(JsonToken token) {
    if (token == null) {
      return "nothing";
    }
    return switch (token) {
      case START_OBJECT, END_OBJECT -> "an object";
      case START_ARRAY, END_ARRAY -> "an array";
      case FIELD_NAME -> "a name";
      case VALUE_STRING -> "a text";
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> "a number";
      case VALUE_TRUE, VALUE_FALSE -> "true or false";
      case VALUE_NULL, NOT_AVAILABLE, VALUE_EMBEDDED_OBJECT -> "null";
    };
  }

  private PolygonFile polygons() throws IOException {
    json.nextToken();
    Node top = object(true);
    if (json.nextToken() != null) {
      throw bad("text goes on after the first object", "one object");
    }
    collect(top, "geometry", AreaWords.NONE);
    return check.result(placement, "");
  }

  private Node object(boolean top) throws IOException {
    if (json.currentToken() != JsonToken.START_OBJECT) {
      throw bad("got " + word(json.currentToken()), "an object");
    }
    check.countVertices(1);
    Node node = new Node();
    while (json.nextToken() == JsonToken.FIELD_NAME) {
      String name = json.currentName();
      json.nextToken();
      switch (name) {
        case "type" -> node.type = json.getValueAsString("");
        case "coordinates" -> node.coordinates = coordinates();
        case "geometry" -> node.children = geometry();
        case "geometries" -> node.children = list();
        case "features" -> node.children = list();
        case "properties" -> node.words = words();
        case "crs" -> requireLonLat();
        case GeoJson.COORDINATES -> placement = top ? placement() : placement;
        default -> json.skipChildren();
      }
    }
    if (node.type.equals("Feature")) {
      node.label = "feature " + ++features;
    }
    return node;
  }

  /** Reads name and reason among the properties of a feature, whatever else they are. */
  private AreaWords words() throws IOException {
    String name = "";
    String reason = "";
    if (json.currentToken() != JsonToken.START_OBJECT) {
      json.skipChildren();
      return AreaWords.NONE;
    }
    while (json.nextToken() == JsonToken.FIELD_NAME) {
      String key = json.currentName().toLowerCase(Locale.ROOT);
      if (json.nextToken() == JsonToken.VALUE_STRING && key.equals("name")) {
        name = json.getText();
      } else if (json.currentToken() == JsonToken.VALUE_STRING && key.equals("reason")) {
        reason = json.getText();
      } else {
        json.skipChildren();
      }
    }
    return new AreaWords(name, reason);
  }

  private List<Node> geometry() throws IOException {
    return json.currentToken() == JsonToken.VALUE_NULL ? List.of() : List.of(object(false));
  }

  private List<Node> list() throws IOException {
    if (json.currentToken() != JsonToken.START_ARRAY) {
      throw bad("got " + word(json.currentToken()), "an array");
    }
    List<Node> nodes = new ArrayList<>();
    while (json.nextToken() != JsonToken.END_ARRAY) {
      nodes.add(object(false));
    }
    return nodes;
  }

  private Placement placement() throws IOException {
    return switch (json.getValueAsString("")) {
      case "projected" -> Placement.DEM_CRS;
      case "lon-lat" -> Placement.LON_LAT;
      default ->
          throw bad(
              GeoJson.COORDINATES + " is " + shortened(json.getText()),
              "\"projected\" or \"lon-lat\"");
    };
  }

  /** Files older than RFC 7946 may name a CRS; only the one that the RFC prescribes is accepted. */
  private void requireLonLat() throws IOException {
    StringBuilder text = new StringBuilder();
    int depth = 0;
    do {
      JsonToken t = json.currentToken();
      depth += t.isStructStart() ? 1 : t.isStructEnd() ? -1 : 0;
      if (t == JsonToken.VALUE_STRING && text.length() < MAX_CRS_TEXT) {
        text.append(json.getText()).append(' ');
      }
    } while (depth > 0 && json.nextToken() != null);
    if (!text.toString().matches("(?s).*(CRS84|EPSG:{1,2}4326).*")) {
      throw bad(
          "its crs member is '" + shortened(text.toString().strip()) + "'",
          "longitude and latitude, or \"" + GeoJson.COORDINATES + "\": \"projected\" instead");
    }
    check.warn("its crs member is ignored; coordinates are taken as longitude, latitude");
  }

  /** Text of the file, shortened for a message. */
  private static String shortened(String text) {
    String plain = text.length() > MAX_QUOTE ? text.substring(0, MAX_QUOTE) + "..." : text;
    return plain.replaceAll("\\p{C}", "?");
  }

  /** Reads a coordinates array: a Coordinate for a position, otherwise a (nested) List of them. */
  private Object coordinates() throws IOException {
    if (json.currentToken() != JsonToken.START_ARRAY) {
      throw bad("coordinates are " + word(json.currentToken()), "an array");
    }
    if (json.nextToken().isNumeric()) {
      check.countVertices(1);
      return position();
    }
    check.countVertices(1);
    List<Object> parts = new ArrayList<>();
    for (; json.currentToken() != JsonToken.END_ARRAY; json.nextToken()) {
      parts.add(coordinates());
    }
    return parts;
  }

  private Coordinate position() throws IOException {
    double[] v = new double[4];
    int n = 0;
    for (; json.currentToken() != JsonToken.END_ARRAY; json.nextToken()) {
      if (!json.currentToken().isNumeric() || n == v.length) {
        throw bad("a position holds " + shortened(json.getText()), "two or three numbers");
      }
      v[n++] = json.getDoubleValue();
    }
    if (n < 2) {
      throw bad("a position has " + n + " number", "two or three numbers");
    }
    return new Coordinate(v[0], v[1]);
  }

  private void collect(Node node, String label, AreaWords outer) {
    String here = node.label.isEmpty() ? label : node.label;
    AreaWords words = node.words.equals(AreaWords.NONE) ? outer : node.words;
    switch (node.type) {
      case "FeatureCollection", "GeometryCollection" -> {
        for (Node child : node.children) {
          collect(child, here, words);
        }
      }
      case "Feature" -> {
        if (node.children.isEmpty()) {
          check.warn(here + ": has no geometry and is left out");
        }
        for (Node child : node.children) {
          collect(child, here, words);
        }
      }
      case "Polygon" -> check.add(polygon(node.coordinates, here), here, words);
      case "MultiPolygon" -> {
        List<Polygon> parts = new ArrayList<>();
        for (Object p : parts(node.coordinates, here)) {
          parts.add(polygon(p, here));
        }
        check.add(GF.createMultiPolygon(parts.toArray(Polygon[]::new)), here, words);
      }
      default ->
          throw UserError.of(
              file + ": " + here,
              node.type.isEmpty() ? "has no type" : "is a " + shortened(node.type),
              "Polygon or MultiPolygon",
              "remove it or draw it as an area");
    }
  }

  private Polygon polygon(Object rings, String label) {
    List<LinearRing> list = new ArrayList<>();
    for (Object r : parts(rings, label)) {
      List<?> positions = parts(r, label);
      Coordinate[] c = new Coordinate[positions.size()];
      for (int i = 0; i < c.length; i++) {
        if (!(positions.get(i) instanceof Coordinate position)) {
          throw shape(label, "its arrays are nested too deep");
        }
        c[i] = inRange(position, label);
      }
      if (c.length < 4) {
        throw shape(label, "a ring has " + c.length + " positions");
      }
      if (!c[0].equals2D(c[c.length - 1])) {
        throw shape(label, "a ring is not closed at " + c[0].x + ", " + c[0].y);
      }
      list.add(GF.createLinearRing(c));
    }
    if (list.isEmpty()) {
      return GF.createPolygon();
    }
    LinearRing[] holes = list.subList(1, list.size()).toArray(LinearRing[]::new);
    return GF.createPolygon(list.get(0), holes);
  }

  private Coordinate inRange(Coordinate c, String label) {
    boolean degrees = placement == Placement.LON_LAT;
    if (degrees && (!(Math.abs(c.y) <= 90) || !(c.x >= -180 && c.x <= 360))) {
      throw UserError.of(
          file + ": " + label,
          "position " + c.x + ", " + c.y,
          "longitude -180 to 360 and latitude -90 to 90",
          "give degrees, or say \"" + GeoJson.COORDINATES + "\": \"projected\"");
    }
    return c;
  }

  private List<?> parts(Object coordinates, String label) {
    if (coordinates instanceof List<?> list) {
      return list;
    }
    throw shape(label, "its coordinates are missing or not nested deep enough");
  }

  private UserError shape(String label, String what) {
    return UserError.of(
        file + ": " + label, what, "closed rings of at least 4 positions", "correct the polygon");
  }

  private UserError bad(String what, String expected) {
    return UserError.of(
        file + ":" + json.currentLocation().getLineNr(), what, expected, "correct the file");
  }
}
