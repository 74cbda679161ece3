package org.scarpway.geodata.vector;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateXYZM;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.io.ByteOrderValues;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBWriter;

/** Against the writer of JTS, which is another program's reading of the standard. */
class WkbPolygonsTest {
  private static final GeometryFactory GF = new GeometryFactory();

  private static LinearRing ring(Random r) {
    Coordinate[] c = new Coordinate[4 + r.nextInt(9)];
    for (int i = 0; i < c.length; i++) {
      c[i] = new CoordinateXYZM(r.nextGaussian() * 1e6, r.nextGaussian(), r.nextDouble(), 7);
    }
    c[c.length - 1] = c[0].copy();
    return GF.createLinearRing(c);
  }

  private static Polygon polygon(Random r) {
    if (r.nextInt(8) == 0) {
      return GF.createPolygon();
    }
    LinearRing[] holes = new LinearRing[r.nextInt(3)];
    Arrays.setAll(holes, i -> ring(r));
    return GF.createPolygon(ring(r), holes);
  }

  private static Geometry any(Random r) {
    if (r.nextBoolean()) {
      return polygon(r);
    }
    Polygon[] parts = new Polygon[r.nextInt(4)];
    Arrays.setAll(parts, i -> polygon(r));
    return GF.createMultiPolygon(parts);
  }

  private static byte[] bytes(Geometry g, Random r) {
    int order = r.nextBoolean() ? ByteOrderValues.BIG_ENDIAN : ByteOrderValues.LITTLE_ENDIAN;
    return new WKBWriter(2, order).write(g);
  }

  @Test
  void readsWhatIsWrittenInEitherByteOrder() throws ParseException {
    Random r = new Random(20260711);
    for (int i = 0; i < 2000; i++) {
      Geometry g = any(r);
      byte[] wkb = bytes(g, r);
      byte[] shifted = new byte[wkb.length + 3];
      System.arraycopy(wkb, 0, shifted, 3, wkb.length);
      assertTrue(g.equalsExact(WkbPolygons.read(shifted, 3)), g.toText());
    }
  }

  /** Kinds of OGC 06-103r4, table 7: 1003 with heights, 2003 with measures, 3003 with both. */
  @Test
  void leavesHeightsAndMeasuresOut() throws ParseException {
    double[][] triangle = {{0, 0}, {4, 0}, {4, 4}, {0, 0}};
    for (int thousands = 0; thousands < 4; thousands++) {
      int further = new int[] {0, 1, 1, 2}[thousands];
      ByteBuffer b = ByteBuffer.allocate(13 + 4 * 8 * (2 + further));
      b.put((byte) 0).putInt(1000 * thousands + 3).putInt(1).putInt(4);
      for (double[] p : triangle) {
        b.putDouble(p[0]).putDouble(p[1]);
        for (int i = 0; i < further; i++) {
          b.putDouble(1e9);
        }
      }
      assertEquals(8, WkbPolygons.read(b.array(), 0).getArea(), "kind " + thousands);
    }
  }

  @Test
  void everyEndThatComesTooEarlyIsRefused() {
    Random r = new Random(7);
    for (int i = 0; i < 50; i++) {
      byte[] wkb = bytes(any(r), r);
      for (int n = 0; n < wkb.length; n++) {
        byte[] cut = Arrays.copyOf(wkb, n);
        assertThrows(ParseException.class, () -> WkbPolygons.read(cut, 0));
      }
    }
  }

  @Test
  void bytesThatAreSpoiltAreReadOrRefusedAndCostNothing() {
    Random r = new Random(11);
    for (int i = 0; i < 20_000; i++) {
      byte[] wkb = bytes(any(r), r);
      for (int k = r.nextInt(4); k >= 0; k--) {
        // Counts and kinds stand in front; -1 and the largest number are the ones that hurt.
        int at = r.nextInt(Math.min(wkb.length, 1 + r.nextInt(40)));
        wkb[at] = new byte[] {0, 1, 7, -1, 127, (byte) r.nextInt()}[r.nextInt(6)];
      }
      try {
        WkbPolygons.read(wkb, 0);
      } catch (ParseException e) {
        assertTrue(!e.getMessage().isEmpty());
      }
    }
  }
}
