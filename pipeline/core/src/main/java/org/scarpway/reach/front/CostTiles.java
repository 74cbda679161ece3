package org.scarpway.reach.front;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.DoubleBuffer;
import java.util.Arrays;
import java.util.BitSet;
import java.util.concurrent.atomic.AtomicReferenceArray;
import org.scarpway.stage.ScratchFile;
import org.scarpway.vehicle.TraversalCost;

/**
 * Labels and step codes, stored by tile; a tile that the front has not reached takes no memory.
 * Stored on the heap, or in a {@link ScratchFile} if the heap is too small.
 *
 * <p>A tile may be read while its own thread writes it. For each cell the reader then sees the old
 * or the new label. Both are costs of existing paths, so the result is the same and only time is
 * lost.
 */
public final class CostTiles {
  /** Bytes per cell. */
  public static final int BYTES = Double.BYTES + 1;

  private final Tiling tiling;
  private final AtomicReferenceArray<DoubleBuffer> value;
  private final AtomicReferenceArray<ByteBuffer> step;
  private final ScratchFile file;

  /**
   * @param file file in which labels are stored, null for the heap
   */
  CostTiles(Tiling tiling, ScratchFile file) {
    this.tiling = tiling;
    this.file = file;
    this.value = new AtomicReferenceArray<>(tiling.tiles());
    this.step = new AtomicReferenceArray<>(tiling.tiles());
  }

  static CostTiles of(Tiling tiling, TraversalCost field) {
    return new CostTiles(tiling, scratch(field));
  }

  static ScratchFile scratch(TraversalCost field) {
    return field.scratch(BYTES * (long) field.spec().cells());
  }

  Tiling tiling() {
    return tiling;
  }

  /** Cost of a cell, infinite where there is no path. */
  double value(int cell) {
    DoubleBuffer b = value.get(tiling.tileOf(cell));
    return b == null ? Double.POSITIVE_INFINITY : b.get(tiling.within(cell));
  }

  int step(int cell) {
    ByteBuffer b = step.get(tiling.tileOf(cell));
    return b == null ? Stencil.NONE : b.get(tiling.within(cell)) & 0xFF;
  }

  public void set(int cell, double label, int how) {
    int tile = tiling.tileOf(cell);
    touch(tile);
    value.get(tile).put(tiling.within(cell), label);
    step.get(tile).put(tiling.within(cell), (byte) how);
  }

  private void touch(int tile) {
    if (step.get(tile) != null) {
      return;
    }
    int n = tiling.side() * tiling.side();
    double[] none = new double[n];
    Arrays.fill(none, Double.POSITIVE_INFINITY);
    byte[] noStep = new byte[n];
    Arrays.fill(noStep, (byte) Stencil.NONE);
    if (file == null) {
      value.set(tile, DoubleBuffer.wrap(none));
      step.set(tile, ByteBuffer.wrap(noStep));
      return;
    }
    ByteBuffer steps = file.take(n);
    DoubleBuffer values = file.take(Double.BYTES * n).asDoubleBuffer();
    values.put(0, none);
    steps.put(0, noStep);
    value.set(tile, values);
    step.set(tile, steps);
  }

  /**
   * Copies the labels of a tile and a halo of {@code margin} cells around it; elements beyond the
   * grid are not changed.
   *
   * @param at index of the tile's first cell in {@code into}
   */
  void read(int tile, int margin, double[] into, int at, int stride) {
    int high = tiling.high(tile);
    int broad = tiling.broad(tile);
    for (int dr = -1; dr <= 1; dr++) {
      for (int dc = -1; dc <= 1; dc++) {
        int from = tiling.beside(tile, dr, dc);
        if (from < 0) {
          continue;
        }
        DoubleBuffer b = value.get(from);
        int r0 = dr < 0 ? -margin : dr > 0 ? high : 0;
        int r1 = dr < 0 ? 0 : dr > 0 ? high + Math.min(margin, tiling.high(from)) : high;
        int c0 = dc < 0 ? -margin : dc > 0 ? broad : 0;
        int c1 = dc < 0 ? 0 : dc > 0 ? broad + Math.min(margin, tiling.broad(from)) : broad;
        for (int r = r0; r < r1; r++) {
          int to = at + r * stride;
          if (b == null) {
            Arrays.fill(into, to + c0, to + c1, Double.POSITIVE_INFINITY);
          } else {
            int first = (r - dr * tiling.side()) * tiling.side() + c0 - dc * tiling.side();
            b.get(first, into, to + c0, c1 - c0);
          }
        }
      }
    }
  }

  /** Copies the step codes of a tile. */
  void readSteps(int tile, byte[] into, int at, int stride) {
    ByteBuffer b = step.get(tile);
    for (int r = 0; r < tiling.high(tile); r++) {
      int to = at + r * stride;
      if (b == null) {
        Arrays.fill(into, to, to + tiling.broad(tile), (byte) Stencil.NONE);
      } else {
        b.get(r * tiling.side(), into, to, tiling.broad(tile));
      }
    }
  }

  /**
   * Stores the labels and step codes of a tile.
   *
   * @param steps step codes, null to store none
   */
  void write(int tile, double[] labels, byte[] steps, int at, int stride) {
    touch(tile);
    DoubleBuffer v = value.get(tile);
    ByteBuffer s = step.get(tile);
    for (int r = 0; r < tiling.high(tile); r++) {
      v.put(r * tiling.side(), labels, at + r * stride, tiling.broad(tile));
      if (steps != null) {
        s.put(r * tiling.side(), steps, at + r * stride, tiling.broad(tile));
      }
    }
  }

  /**
   * Adopts the labels of a front of the same grid and tiles where it has any.
   *
   * @param except cells whose labels are left out
   */
  void take(CostTiles other, BitSet except) {
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      DoubleBuffer from = other.value.get(tile);
      if (from == null) {
        continue;
      }
      touch(tile);
      DoubleBuffer to = value.get(tile);
      for (int i = 0; i < from.capacity(); i++) {
        double label = from.get(i);
        int row = tiling.firstRow(tile) + i / tiling.side();
        int cell = row * tiling.cols() + tiling.firstCol(tile) + i % tiling.side();
        if (label < Double.POSITIVE_INFINITY && !except.get(cell)) {
          to.put(i, label);
          step.get(tile).put(i, other.step.get(tile).get(i));
        }
      }
    }
  }

  /**
   * Step codes by cell, {@link Stencil#NONE} where there is no label; null if labels are not on the
   * heap.
   */
  byte[] stepsByCell() {
    if (file != null) {
      return null;
    }
    byte[] codes = new byte[tiling.rows() * tiling.cols()];
    Arrays.fill(codes, (byte) Stencil.NONE);
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      DoubleBuffer v = value.get(tile);
      ByteBuffer s = step.get(tile);
      for (int r = 0; v != null && r < tiling.high(tile); r++) {
        int to = (tiling.firstRow(tile) + r) * tiling.cols() + tiling.firstCol(tile);
        int from = r * tiling.side();
        for (int c = 0; c < tiling.broad(tile); c++) {
          if (v.get(from + c) < Double.POSITIVE_INFINITY) {
            codes[to + c] = s.get(from + c);
          }
        }
      }
    }
    return codes;
  }

  /** True if the tile or one beside it has labels. */
  boolean nearLabels(int tile) {
    for (int dr = -1; dr <= 1; dr++) {
      for (int dc = -1; dc <= 1; dc++) {
        int beside = tiling.beside(tile, dr, dc);
        if (beside >= 0 && value.get(beside) != null) {
          return true;
        }
      }
    }
    return false;
  }

  /** Writes labels and step codes so that {@link #readFrom} returns the same. */
  public void writeTo(OutputStream out) throws IOException {
    int n = tiling.side() * tiling.side();
    ByteBuffer part = ByteBuffer.allocate(n * BYTES);
    ByteBuffer grid = ByteBuffer.allocate(3 * Integer.BYTES);
    out.write(grid.putInt(tiling.rows()).putInt(tiling.cols()).putInt(tiling.side()).array());
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      DoubleBuffer v = value.get(tile);
      out.write(v == null ? 0 : 1);
      if (v != null) {
        part.clear();
        part.asDoubleBuffer().put(v.duplicate().clear());
        part.position(n * Double.BYTES);
        part.put(step.get(tile).duplicate().clear());
        out.write(part.array());
      }
    }
  }

  /**
   * @throws IOException if what was written are not labels of this grid
   */
  static CostTiles readFrom(InputStream in, TraversalCost field) throws IOException {
    Tiling tiling = Tiling.of(field.spec(), Front.SIDE);
    ByteBuffer grid = ByteBuffer.wrap(in.readNBytes(3 * Integer.BYTES));
    if (grid.remaining() < 3 * Integer.BYTES
        || grid.getInt() != tiling.rows()
        || grid.getInt() != tiling.cols()
        || grid.getInt() != tiling.side()) {
      throw new IOException("labels of another grid");
    }
    CostTiles all = of(tiling, field);
    int n = tiling.side() * tiling.side();
    byte[] part = new byte[n * BYTES];
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      if (in.read() == 1) {
        if (in.readNBytes(part, 0, part.length) < part.length) {
          throw new EOFException("labels end early");
        }
        all.touch(tile);
        ByteBuffer from = ByteBuffer.wrap(part);
        all.value.get(tile).put(0, from.asDoubleBuffer(), 0, n);
        all.step.get(tile).put(0, part, n * Double.BYTES, n);
      }
    }
    return all;
  }

  /** About how many bytes {@link #writeTo} writes. */
  long bytes() {
    long tiles = 0;
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      tiles += value.get(tile) == null ? 0 : 1;
    }
    return tiles * tiling.side() * tiling.side() * BYTES;
  }

  /** Least label among the cells of a tile whose bit is set. */
  double least(int tile, long[] cells) {
    double least = Double.POSITIVE_INFINITY;
    for (int w = 0; w < cells.length; w++) {
      for (long b = cells[w]; b != 0; b &= b - 1) {
        least = Math.min(least, value.get(tile).get((w << 6) + Long.numberOfTrailingZeros(b)));
      }
    }
    return least;
  }

  /**
   * Removes the labels of cells that the front has not expanded.
   *
   * @param allowance bound per cell, null for none
   */
  void cut(double budget, ExpansionBound allowance) {
    int margin = TileGround.SEEN;
    int stride = tiling.side() + 2 * margin;
    int first = margin * (stride + 1);
    double[] most = new double[stride * stride];
    Arrays.fill(most, Double.POSITIVE_INFINITY);
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      DoubleBuffer v = value.get(tile);
      if (v == null) {
        continue;
      }
      if (allowance != null) {
        allowance.read(tile, most, first, stride);
      }
      for (int r = 0; r < tiling.high(tile); r++) {
        for (int c = 0; c < tiling.broad(tile); c++) {
          int i = r * tiling.side() + c;
          if (v.get(i) > Math.min(budget, most[first + r * stride + c])) {
            v.put(i, Double.POSITIVE_INFINITY);
            step.get(tile).put(i, (byte) Stencil.NONE);
          }
        }
      }
    }
  }
}
