package org.scarpway.reach.question;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;

/**
 * The least total of the bands' quantity over the trips to a cell that meet every limit. It decides
 * to which band the cell belongs, so that other bands of the same quantity need no other answer.
 */
public final class BandAmounts {
  private static final int PIECE = 1 << 14;

  /** The amount of a cell; 0 for none, so that a file takes no space for it, and -0 for 0. */
  private final Floats amounts;

  private BandAmounts(Floats amounts) {
    this.amounts = amounts;
  }

  /**
   * Amounts of no cell.
   *
   * @param file where they are stored; null for the heap
   */
  public static BandAmounts none(int cells, ScratchFile file) {
    return new BandAmounts(Floats.of(cells, file));
  }

  /**
   * Stores the amount of a cell, rounded up so that no band seems to hold more than it does. Cells
   * may be set by several threads.
   */
  public void set(int cell, double amount) {
    float near = (float) amount;
    float stored = near < amount ? Math.nextUp(near) : near;
    amounts.set(cell, stored == 0 ? -0.0f : stored);
  }

  /**
   * Returns the 1-based index of the smallest band that holds each of some cells, 0 for none.
   *
   * @param bands in increasing order
   * @param first first cell
   * @param n number of cells
   */
  public byte[] bands(List<Band> bands, int first, int n) {
    byte[] all = new byte[n];
    float[] some = new float[Math.min(PIECE, n)];
    for (int at = 0; at < n; at += PIECE) {
      int here = Math.min(PIECE, n - at);
      amounts.read(first + at, some, 0, here);
      for (int i = 0; i < here; i++) {
        all[at + i] = bandOf(bands, some[i]);
      }
    }
    return all;
  }

  private static byte bandOf(List<Band> bands, float amount) {
    boolean none = Float.floatToRawIntBits(amount) == 0;
    for (int k = 0; !none && k < bands.size(); k++) {
      if (amount <= bands.get(k).amount()) {
        return (byte) (k + 1);
      }
    }
    return 0;
  }

  /** Returns the plan area inside each band (m2), cumulative. */
  public List<Double> areasM2(List<Band> bands, double cellAreaM2) {
    long[] count = new long[bands.size() + 1];
    for (int at = 0; at < amounts.size(); at += PIECE) {
      for (byte band : bands(bands, at, Math.min(PIECE, amounts.size() - at))) {
        count[band & 0xFF]++;
      }
    }
    List<Double> areas = new ArrayList<>();
    long sum = 0;
    for (int k = 1; k < count.length; k++) {
      sum += count[k];
      areas.add(sum * cellAreaM2);
    }
    return areas;
  }

  /**
   * Writes the amounts so that {@link #readFrom} returns the same.
   *
   * @throws IOException if the stream takes no more
   */
  public void writeTo(DataOutputStream out) throws IOException {
    out.writeInt(amounts.size());
    float[] some = new float[PIECE];
    ByteBuffer bytes = ByteBuffer.allocate(PIECE * Float.BYTES);
    for (int at = 0; at < amounts.size(); at += PIECE) {
      int n = Math.min(PIECE, amounts.size() - at);
      amounts.read(at, some, 0, n);
      bytes.asFloatBuffer().put(some, 0, n);
      out.write(bytes.array(), 0, n * Float.BYTES);
    }
  }

  /**
   * @param cells number of cells of the grid
   * @param file where they are stored; null for the heap
   * @throws IOException if what was written are no amounts of so many cells
   */
  public static BandAmounts readFrom(DataInputStream in, int cells, ScratchFile file)
      throws IOException {
    if (in.readInt() != cells) {
      throw new EOFException("amounts of another grid");
    }
    BandAmounts all = none(cells, file);
    float[] some = new float[PIECE];
    byte[] bytes = new byte[PIECE * Float.BYTES];
    for (int at = 0; at < cells; at += PIECE) {
      int n = Math.min(PIECE, cells - at);
      in.readFully(bytes, 0, n * Float.BYTES);
      ByteBuffer.wrap(bytes).asFloatBuffer().get(some, 0, n);
      all.amounts.write(at, some, 0, n);
    }
    return all;
  }
}
