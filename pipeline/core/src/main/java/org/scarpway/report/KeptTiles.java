package org.scarpway.report;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.TilePack.Halving;
import org.scarpway.stage.ContentStore;

/**
 * Tiles of the map, kept between runs by the numbers of their cells: a report drawn again packs the
 * layers that changed.
 */
final class KeptTiles {
  /** Raised whenever the same cells are packed in another way. */
  private static final int VERSION = 2;

  private static final int PIECE = 1 << 14;

  private KeptTiles() {}

  /** Returns the tiles of a key; null if they are not kept. */
  static TilePack of(String key, ContentStore store) {
    return store.read(key, in -> TilePack.readFrom(new DataInputStream(in)));
  }

  /**
   * Returns the tiles of all cells, packed only if they are not kept.
   *
   * @param key of the cells
   */
  static TilePack of(String key, GridSpec spec, char[] cells, Halving halving, ContentStore store) {
    TilePack kept = of(key, store);
    if (kept != null) {
      return kept;
    }
    TilePack packed = new TilePack(spec, cells, halving);
    store.write(
        key,
        packed.bytes(),
        to -> {
          DataOutputStream out = new DataOutputStream(to);
          packed.writeTo(out);
          out.flush();
        });
    return packed;
  }

  /** Returns a digest of the cells and how they are merged. */
  static String key(GridSpec spec, char[] cells, Halving halving) {
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      String text =
          String.join(
              " ",
              "tiles",
              Integer.toString(VERSION),
              Integer.toString(spec.rows()),
              Integer.toString(spec.cols()),
              halving.name(),
              "");
      sha.update(text.getBytes(StandardCharsets.UTF_8));
      ByteBuffer bytes = ByteBuffer.allocate(PIECE * Character.BYTES);
      for (int at = 0; at < cells.length; at += PIECE) {
        int n = Math.min(PIECE, cells.length - at);
        bytes.asCharBuffer().put(cells, at, n);
        sha.update(bytes.array(), 0, n * Character.BYTES);
      }
      return HexFormat.of().formatHex(sha.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
