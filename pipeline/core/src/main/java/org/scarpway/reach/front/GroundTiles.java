package org.scarpway.reach.front;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HexFormat;
import org.scarpway.vehicle.TraversalCost;

/**
 * The ground of a kept front, by digests of its tiles, so that the tiles in which other ground
 * differs can be told.
 */
final class GroundTiles {
  private static final int SHA_BYTES = 32;

  /** Share of the tiles up to which a repair is worth its while. */
  private static final double FEW = 0.25;

  private final String front;
  private final byte[] digests;

  private GroundTiles(String front, byte[] digests) {
    this.front = front;
    this.digests = digests;
  }

  /**
   * @param front key of the front, in hexadecimal digits
   */
  static GroundTiles of(String front, TraversalCost field) {
    return new GroundTiles(front, digestsOf(field));
  }

  /** The digests of a field, computed once for all of its fronts. */
  private static final class OfField {
    private final byte[] digests;

    private OfField(byte[] digests) {
      this.digests = digests;
    }
  }

  private static byte[] digestsOf(TraversalCost field) {
    return field.memory().of(field, OfField.class, () -> new OfField(digests(field))).digests;
  }

  private static byte[] digests(TraversalCost field) {
    Tiling tiling = Tiling.of(field.spec(), Front.SIDE);
    byte[] all = new byte[tiling.tiles() * SHA_BYTES];
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      int row = tiling.firstRow(tile);
      int col = tiling.firstCol(tile);
      byte[] one = field.digestOfCells(row, row + tiling.high(tile), col, col + tiling.broad(tile));
      System.arraycopy(one, 0, all, tile * SHA_BYTES, SHA_BYTES);
    }
    return all;
  }

  /** Key of the front. */
  String front() {
    return front;
  }

  /** The cells of all tiles in which other ground of the same grid differs; null for too many. */
  BitSet changed(TraversalCost field) {
    Tiling tiling = Tiling.of(field.spec(), Front.SIDE);
    byte[] now = digestsOf(field);
    if (now.length != digests.length) {
      return null;
    }
    BitSet cells = new BitSet();
    int count = 0;
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      int from = tile * SHA_BYTES;
      int to = from + SHA_BYTES;
      if (!Arrays.equals(now, from, to, digests, from, to)) {
        count++;
        for (int r = 0; r < tiling.high(tile); r++) {
          int first = (tiling.firstRow(tile) + r) * tiling.cols() + tiling.firstCol(tile);
          cells.set(first, first + tiling.broad(tile));
        }
      }
    }
    return count > FEW * tiling.tiles() ? null : cells;
  }

  long bytes() {
    return SHA_BYTES + (long) digests.length;
  }

  void writeTo(OutputStream out) throws IOException {
    out.write(HexFormat.of().parseHex(front));
    out.write(digests);
  }

  static GroundTiles readFrom(InputStream in) throws IOException {
    byte[] front = in.readNBytes(SHA_BYTES);
    if (front.length < SHA_BYTES) {
      throw new EOFException("no front");
    }
    return new GroundTiles(HexFormat.of().formatHex(front), in.readAllBytes());
  }
}
