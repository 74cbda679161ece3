package org.scarpway.vehicle;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.scarpway.grid.Headings;

/**
 * The few cells with headings opened by tacks: the headings, and the metres driven per metre of
 * advance ({@link Tacks}).
 */
final class TackedHeadings {
  private final BitSet tacked = new BitSet();
  private final int[] cells;
  private final int[] bits;
  private final float[][] pathRatio;

  private TackedHeadings(List<Found> found) {
    found.sort((a, b) -> Integer.compare(a.cell, b.cell));
    cells = found.stream().mapToInt(f -> f.cell).toArray();
    bits = found.stream().mapToInt(f -> f.bits).toArray();
    pathRatio = found.stream().map(f -> f.pathRatio).toArray(float[][]::new);
    for (int cell : cells) {
      tacked.set(cell);
    }
  }

  /** Merges the finds of all bands; null if there are none. */
  static TackedHeadings of(Iterable<Finds> bands) {
    List<Found> all = new ArrayList<>();
    bands.forEach(f -> all.addAll(f.found));
    return all.isEmpty() ? null : new TackedHeadings(all);
  }

  /**
   * Returns the headings that are tacked in either, with the longer way; null if there are none.
   *
   * @param a null for none
   * @param b null for none
   */
  static TackedHeadings longer(TackedHeadings a, TackedHeadings b) {
    if (a == null || b == null) {
      return a == null ? b : a;
    }
    BitSet either = (BitSet) a.tacked.clone();
    either.or(b.tacked);
    Finds finds = new Finds();
    double[] ratio = new double[Headings.COUNT];
    for (int cell = either.nextSetBit(0); cell >= 0; cell = either.nextSetBit(cell + 1)) {
      int bits = 0;
      for (int k = 0; k < ratio.length; k++) {
        ratio[k] = Math.max(a.pathRatio(cell, k), b.pathRatio(cell, k));
        bits |= ratio[k] == 1 ? 0 : 1 << k;
      }
      finds.add(cell, bits, ratio);
    }
    return of(List.of(finds));
  }

  /**
   * Adds the entries of the cells [firstCell, endCell) to {@code finds}, with {@code shift} added
   * to the cell index.
   */
  void addTo(Finds finds, int firstCell, int endCell, int shift) {
    for (int i = 0; i < cells.length; i++) {
      if (cells[i] >= firstCell && cells[i] < endCell) {
        finds.found.add(new Found(cells[i] + shift, bits[i], pathRatio[i]));
      }
    }
  }

  /** Reads what {@link #writeTo} wrote. */
  static TackedHeadings readFrom(DataInputStream in) throws IOException {
    List<Found> found = new ArrayList<>();
    for (int left = in.readInt(); left > 0; left--) {
      int cell = in.readInt();
      int bits = in.readInt();
      float[] pathRatio = new float[Integer.bitCount(bits)];
      for (int i = 0; i < pathRatio.length; i++) {
        pathRatio[i] = in.readFloat();
      }
      found.add(new Found(cell, bits, pathRatio));
    }
    return new TackedHeadings(found);
  }

  /** Writes every entry. */
  void writeTo(DataOutputStream out) throws IOException {
    out.writeInt(cells.length);
    for (int i = 0; i < cells.length; i++) {
      out.writeInt(cells[i]);
      out.writeInt(bits[i]);
      for (float ratio : pathRatio[i]) {
        out.writeFloat(ratio);
      }
    }
  }

  boolean tacked(int cell) {
    return tacked.get(cell);
  }

  /** Adds every value to a digest. */
  void addTo(MessageDigest sha) {
    for (int i = 0; i < cells.length; i++) {
      ByteBuffer entry = ByteBuffer.allocate((2 + pathRatio[i].length) * Float.BYTES);
      entry.putInt(cells[i]).putInt(bits[i]);
      for (float ratio : pathRatio[i]) {
        entry.putFloat(ratio);
      }
      sha.update(entry.array());
    }
  }

  /** Metres driven per metre of advance; 1 where the heading itself is driven. */
  double pathRatio(int cell, int heading) {
    if (!tacked.get(cell)) {
      return 1;
    }
    int at = Arrays.binarySearch(cells, cell);
    int bit = 1 << heading;
    // One factor per set heading bit, in the order of the headings.
    return (bits[at] & bit) == 0 ? 1 : pathRatio[at][Integer.bitCount(bits[at] & (bit - 1))];
  }

  /** Collects the tacked cells of one band of rows. */
  static final class Finds {
    private final List<Found> found = new ArrayList<>();

    void add(int cell, int bits, double[] pathRatioByHeading) {
      float[] pathRatio = new float[Integer.bitCount(bits)];
      int n = 0;
      for (int k = 0; k < pathRatioByHeading.length; k++) {
        if ((bits >>> k & 1) != 0) {
          pathRatio[n++] = (float) pathRatioByHeading[k];
        }
      }
      found.add(new Found(cell, bits, pathRatio));
    }
  }

  private static final class Found {
    private final int cell;
    private final int bits;
    private final float[] pathRatio;

    Found(int cell, int bits, float[] pathRatio) {
      this.cell = cell;
      this.bits = bits;
      this.pathRatio = pathRatio;
    }
  }
}
