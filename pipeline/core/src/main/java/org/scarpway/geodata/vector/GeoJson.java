package org.scarpway.geodata.vector;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.file.AtomicFileWrite;

/**
 * Writes GeoJSON (RFC 7946): longitude, latitude in degrees to 7 decimals, exterior rings
 * counter-clockwise, holes clockwise, rings closed, cut at the antimeridian, no {@code crs} member.
 * The RFC knows only WGS 84; a file about another body names it in the foreign member {@code
 * scarpway:body}, and a reader that ignores it places the features on Earth.
 */
public final class GeoJson {
  static final String ACCURACY = "scarpway:position_accuracy_m";
  static final String BODY = "scarpway:body";
  static final String COORDINATES = "scarpway:coordinates";

  private static final int DECIMALS = 7;

  /** Enough digits to identify every float32 value. */
  private static final MathContext ATTRIBUTE_DIGITS = new MathContext(9, RoundingMode.HALF_EVEN);

  private static final JsonFactory JSON = new JsonFactory();

  private GeoJson() {}

  /**
   * Writes a FeatureCollection atomically.
   *
   * @param features geometries in longitude and latitude (degrees), each Point, LineString, Polygon
   *     or a Multi- of these; empty ones get a null geometry
   * @param body name of the body, such as moon; left out of the file for earth
   * @param accuracyM accuracy (m) of longitudes and latitudes that were transformed from another
   *     datum; omitted from the file if it is 0
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static void write(Path file, List<Feature> features, String body, double accuracyM) {
    AtomicFileWrite.write(
        file,
        part -> {
          try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(part));
              JsonGenerator json = JSON.createGenerator(out)) {
            json.writeStartObject();
            json.writeStringField("type", "FeatureCollection");
            if (!body.equals("earth")) {
              json.writeStringField(BODY, body);
            }
            if (accuracyM > 0) {
              json.writeNumberField(ACCURACY, accuracyM);
            }
            json.writeArrayFieldStart("features");
            for (Feature f : features) {
              json.writeRaw('\n');
              writeFeature(json, f);
            }
            json.writeRaw('\n');
            json.writeEndArray();
            json.writeEndObject();
            json.writeRaw('\n');
          }
        });
  }

  private static void writeFeature(JsonGenerator json, Feature f) throws IOException {
    json.writeStartObject();
    json.writeStringField("type", "Feature");
    json.writeObjectFieldStart("properties");
    for (Map.Entry<String, Object> a : f.attributes().entrySet()) {
      json.writeFieldName(a.getKey());
      writeValue(json, a.getValue());
    }
    json.writeEndObject();
    json.writeFieldName("geometry");
    Geometry g = Antimeridian.cut(f.geometry());
    List<Geometry> parts = new ArrayList<>();
    for (int i = 0; i < g.getNumGeometries(); i++) {
      if (!g.getGeometryN(i).isEmpty()) {
        parts.add(g.getGeometryN(i));
      }
    }
    if (parts.isEmpty()) {
      json.writeNull();
    } else {
      writeGeometry(json, parts, g.getGeometryType().startsWith("Multi"));
    }
    json.writeEndObject();
  }

  private static void writeValue(JsonGenerator json, Object value) throws IOException {
    if (value == null || (value instanceof Double d && !Double.isFinite(d))) {
      json.writeNull();
    } else if (value instanceof Double d) {
      json.writeNumber(plain(new BigDecimal(d).round(ATTRIBUTE_DIGITS)));
    } else if (value instanceof Integer || value instanceof Long) {
      json.writeNumber(value.toString());
    } else {
      json.writeString(value.toString());
    }
  }

  private static void writeGeometry(JsonGenerator json, List<Geometry> parts, boolean multi)
      throws IOException {
    json.writeStartObject();
    String type = parts.get(0).getGeometryType();
    json.writeStringField("type", multi ? "Multi" + type : type);
    json.writeFieldName("coordinates");
    if (multi) {
      json.writeStartArray();
    }
    for (Geometry part : parts) {
      if (part instanceof Point p) {
        writePosition(json, p.getCoordinate());
      } else if (part instanceof Polygon p) {
        json.writeStartArray();
        writeRing(json, p.getExteriorRing(), true);
        for (int i = 0; i < p.getNumInteriorRing(); i++) {
          writeRing(json, p.getInteriorRingN(i), false);
        }
        json.writeEndArray();
      } else if (part instanceof LineString line) {
        json.writeStartArray();
        for (Coordinate c : line.getCoordinates()) {
          writePosition(json, c);
        }
        json.writeEndArray();
      } else {
        throw new IllegalArgumentException("cannot be written as GeoJSON: a " + type);
      }
    }
    if (multi) {
      json.writeEndArray();
    }
    json.writeEndObject();
  }

  private static void writeRing(JsonGenerator json, LinearRing ring, boolean counterClockwise)
      throws IOException {
    Coordinate[] c = ring.getCoordinates();
    boolean forward = Orientation.isCCW(c) == counterClockwise;
    json.writeStartArray();
    for (int i = 0; i < c.length; i++) {
      writePosition(json, c[forward ? i : c.length - 1 - i]);
    }
    json.writeEndArray();
  }

  private static void writePosition(JsonGenerator json, Coordinate c) throws IOException {
    if (!(Math.abs(c.x) <= 180 + 1e-9) || !(Math.abs(c.y) <= 90 + 1e-9)) {
      throw new IllegalArgumentException("not a longitude and latitude: " + c.x + ", " + c.y);
    }
    json.writeStartArray();
    json.writeNumber(degrees(c.x));
    json.writeNumber(degrees(c.y));
    json.writeEndArray();
  }

  private static String degrees(double v) {
    return plain(new BigDecimal(v).setScale(DECIMALS, RoundingMode.HALF_EVEN));
  }

  private static String plain(BigDecimal v) {
    return v.signum() == 0 ? "0" : v.stripTrailingZeros().toPlainString();
  }
}
