package org.scarpway.geodata.vector;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.io.ParseException;

/**
 * Reads polygons and multi-polygons from untrusted well-known binary (OGC 06-103r4, clause 8;
 * geometry types with z and m have 1000, 2000 or 3000 added). No other type is read, so nothing
 * nests; every count is checked against the remaining bytes before memory is allocated for it.
 */
final class WkbPolygons {
  private static final GeometryFactory GF = new GeometryFactory();
  private static final String[] KINDS = {
    "geometry",
    "Point",
    "LineString",
    "Polygon",
    "MultiPoint",
    "MultiLineString",
    "MultiPolygon",
    "GeometryCollection"
  };
  private static final int POLYGON = 3;
  private static final int MULTI_POLYGON = 6;
  private static final int LEAST_PART_BYTES = 9;
  private static final int LEAST_RING_BYTES = 4;

  private final ByteBuffer in;

  private WkbPolygons(ByteBuffer in) {
    this.in = in;
  }

  /** Header of a geometry: its type and the number of ordinates per point. */
  private record Head(int kind, int ordinates) {}

  /**
   * @throws ParseException if the bytes are another geometry, or end too early
   */
  static Geometry read(byte[] bytes, int from) throws ParseException {
    return new WkbPolygons(ByteBuffer.wrap(bytes, from, bytes.length - from)).geometry();
  }

  private Geometry geometry() throws ParseException {
    Head head = head();
    if (head.kind == POLYGON) {
      return polygon(head);
    }
    if (head.kind != MULTI_POLYGON) {
      throw new ParseException("it is a " + name(head.kind));
    }
    int n = count(LEAST_PART_BYTES);
    Polygon[] parts = new Polygon[n];
    for (int i = 0; i < n; i++) {
      Head part = head();
      if (part.kind != POLYGON) {
        throw new ParseException("a MultiPolygon holds a " + name(part.kind));
      }
      parts[i] = polygon(part);
    }
    return GF.createMultiPolygon(parts);
  }

  private static String name(int kind) {
    return kind > 0 && kind < KINDS.length ? KINDS[kind] : "geometry of kind " + kind;
  }

  private Head head() throws ParseException {
    need(5);
    byte order = in.get();
    if (order != 0 && order != 1) {
      throw new ParseException("byte order " + order);
    }
    in.order(order == 1 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    int type = in.getInt();
    int thousands = type / 1000;
    if (type < 0 || thousands > 3) {
      throw new ParseException("geometry of kind " + Integer.toUnsignedString(type));
    }
    return new Head(type % 1000, 2 + (thousands & 1) + (thousands >> 1));
  }

  private Polygon polygon(Head head) throws ParseException {
    int n = count(LEAST_RING_BYTES);
    List<LinearRing> rings = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      rings.add(ring(head.ordinates));
    }
    if (rings.isEmpty()) {
      return GF.createPolygon();
    }
    return GF.createPolygon(
        rings.get(0), rings.subList(1, rings.size()).toArray(LinearRing[]::new));
  }

  private LinearRing ring(int ordinates) throws ParseException {
    int n = count(ordinates * Double.BYTES);
    Coordinate[] ring = new Coordinate[n];
    for (int i = 0; i < n; i++) {
      ring[i] = new Coordinate(in.getDouble(), in.getDouble());
      in.position(in.position() + (ordinates - 2) * Double.BYTES);
    }
    try {
      return GF.createLinearRing(ring);
    } catch (IllegalArgumentException e) {
      // JTS throws this for rings that are open or too short.
      throw new ParseException(e);
    }
  }

  /** Reads a count of elements of at least {@code bytesEach} bytes each. */
  private int count(int bytesEach) throws ParseException {
    need(Integer.BYTES);
    long n = Integer.toUnsignedLong(in.getInt());
    if (n * bytesEach > in.remaining()) {
      throw new ParseException("it ends before its " + n + " parts or points do");
    }
    return (int) n;
  }

  private void need(int bytes) throws ParseException {
    if (in.remaining() < bytes) {
      throw new ParseException("cut short");
    }
  }
}
