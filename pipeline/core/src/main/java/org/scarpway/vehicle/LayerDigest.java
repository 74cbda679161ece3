package org.scarpway.vehicle;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;

/**
 * Digest of the layers of a cost surface, computed once, on first use. Equal digests mean equal
 * values in every cell.
 */
final class LayerDigest {
  private final GridSpec spec;
  private final Ints allowed;
  private final Floats[] layers;
  private final Bytes soil;
  private final TackedHeadings tacks;
  private byte[] known;

  /**
   * @param soil null for none
   * @param tacks null for none
   * @param layers values per cell; null for a layer that is missing
   */
  LayerDigest(GridSpec spec, Ints allowed, Bytes soil, TackedHeadings tacks, Floats... layers) {
    this.spec = spec;
    this.allowed = allowed;
    this.soil = soil;
    this.tacks = tacks;
    this.layers = layers;
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  synchronized byte[] get() {
    if (known == null) {
      known = compute();
    }
    return known;
  }

  private byte[] compute() {
    MessageDigest sha = sha256();
    int cols = spec.cols();
    int present = (soil == null ? 0 : 1) + (tacks == null ? 0 : 2);
    for (int k = 0; k < layers.length; k++) {
      present += layers[k] == null ? 0 : 4 << k;
    }
    sha.update(
        ByteBuffer.allocate(7 * Double.BYTES)
            .putInt(spec.rows())
            .putInt(cols)
            .putInt(present)
            .putDouble(spec.cellXM())
            .putDouble(spec.cellYM())
            .array());
    ByteBuffer row = ByteBuffer.allocate(cols * (Integer.BYTES + layers.length * Float.BYTES + 1));
    float[] values = new float[cols];
    byte[] soils = new byte[cols];
    for (int first = 0; first < spec.cells(); first += cols) {
      row.clear();
      for (int c = 0; c < cols; c++) {
        row.putInt(allowed.get(first + c));
      }
      for (Floats layer : layers) {
        if (layer != null) {
          layer.read(first, values, 0, cols);
          row.asFloatBuffer().put(values);
          row.position(row.position() + cols * Float.BYTES);
        }
      }
      if (soil != null) {
        soil.read(first, soils, 0, cols);
        row.put(soils);
      }
      sha.update(row.flip());
    }
    if (tacks != null) {
      tacks.addTo(sha);
    }
    return sha.digest();
  }
}
