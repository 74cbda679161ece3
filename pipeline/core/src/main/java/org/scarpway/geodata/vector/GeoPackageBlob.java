package org.scarpway.geodata.vector;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ByteOrderValues;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBWriter;

/**
 * Encodes geometry in the GeoPackage binary format: a header (magic GP, version, flags, srs id,
 * envelope), then well-known binary. OGC 12-128r19 (version 1.4.0), clause 2.1.3 (read back by two
 * other programs in the tests).
 */
final class GeoPackageBlob {
  private static final int LITTLE_ENDIAN = 1;
  private static final int ENVELOPE_XY = 1 << 1;
  private static final int EMPTY = 1 << 4;
  private static final int[] ENVELOPE_BYTES = {0, 32, 48, 48, 64};

  private GeoPackageBlob() {}

  static byte[] encode(Geometry geometry, int srsId) {
    byte[] wkb = new WKBWriter(2, ByteOrderValues.LITTLE_ENDIAN).write(geometry);
    boolean box = !geometry.isEmpty();
    ByteBuffer out =
        ByteBuffer.allocate(8 + (box ? 32 : 0) + wkb.length).order(ByteOrder.LITTLE_ENDIAN);
    out.put((byte) 'G').put((byte) 'P').put((byte) 0);
    out.put((byte) (LITTLE_ENDIAN | (box ? ENVELOPE_XY : EMPTY)));
    out.putInt(srsId);
    if (box) {
      Envelope e = geometry.getEnvelopeInternal();
      out.putDouble(e.getMinX()).putDouble(e.getMaxX());
      out.putDouble(e.getMinY()).putDouble(e.getMaxY());
    }
    return out.put(wkb).array();
  }

  /**
   * Decodes polygons; any other geometry is refused.
   *
   * @throws ParseException if the bytes are not a polygon in that format
   */
  static Geometry decode(byte[] blob) throws ParseException {
    if (blob == null || blob.length < 8 || blob[0] != 'G' || blob[1] != 'P') {
      throw new ParseException("no GeoPackage geometry header");
    }
    int flags = blob[3];
    int envelope = flags >> 1 & 7;
    if (envelope >= ENVELOPE_BYTES.length || (flags & 1 << 5) != 0) {
      throw new ParseException("unknown kind of GeoPackage geometry, flags " + flags);
    }
    int start = 8 + ENVELOPE_BYTES[envelope];
    if (start > blob.length) {
      throw new ParseException("GeoPackage geometry cut short");
    }
    return WkbPolygons.read(blob, start);
  }
}
