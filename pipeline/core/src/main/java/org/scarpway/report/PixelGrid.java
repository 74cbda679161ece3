package org.scarpway.report;

import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.TilePack.Halving;

/**
 * The pixels of a map of a grid: one pixel per block of {@code shrink} x {@code shrink} cells on
 * large grids, {@code grow} x {@code grow} pixels per cell on small ones. Continuous quantities are
 * averaged over a block; classes are represented by the worst one.
 */
final class PixelGrid {
  private final GridSpec spec;
  final int shrink;
  final int grow;
  final int width;
  final int height;

  /**
   * @param maxPixels longest side of the map
   */
  PixelGrid(GridSpec spec, int maxPixels) {
    int longest = Math.max(spec.rows(), spec.cols());
    this.spec = spec;
    this.shrink = (longest + maxPixels - 1) / maxPixels;
    this.grow = Math.max(1, maxPixels / longest);
    this.width = (spec.cols() + shrink - 1) / shrink * grow;
    this.height = (spec.rows() + shrink - 1) / shrink * grow;
  }

  GridSpec spec() {
    return spec;
  }

  int pixels() {
    return width * height;
  }

  /** Plan size of one pixel towards the east (m). */
  double pixelXM() {
    return spec.cellXM() * shrink / grow;
  }

  double pixelYM() {
    return spec.cellYM() * shrink / grow;
  }

  /**
   * Width of the map in units of the grid's own width: above 1 if the last block extends beyond the
   * grid.
   */
  double overhangX() {
    return width * pixelXM() / (spec.cols() * spec.cellXM());
  }

  double overhangY() {
    return height * pixelYM() / (spec.rows() * spec.cellYM());
  }

  /** Spacing of class textures in pixels, about 110 repeats along the longest side. */
  int period() {
    return Math.max(6, Math.max(width, height) / 110);
  }

  /** Mean of the values present in each block, NaN where there is none. */
  float[] mean(FloatGrid grid) {
    float[] out = new float[pixels()];
    float[] v = grid.values();
    int cols = spec.cols();
    for (int py = 0; py < height; py += grow) {
      int r0 = py / grow * shrink;
      int r1 = Math.min(r0 + shrink, spec.rows());
      for (int px = 0; px < width; px += grow) {
        int c0 = px / grow * shrink;
        int c1 = Math.min(c0 + shrink, cols);
        double sum = 0;
        int n = 0;
        for (int r = r0; r < r1; r++) {
          for (int i = r * cols + c0; i < r * cols + c1; i++) {
            if (Float.isFinite(v[i])) {
              sum += v[i];
              n++;
            }
          }
        }
        float mean = n == 0 ? Float.NaN : (float) (sum / n);
        for (int y = py; y < py + grow; y++) {
          for (int x = px; x < px + grow; x++) {
            out[y * width + x] = mean;
          }
        }
      }
    }
    return out;
  }

  /** The class that stands for the classes of each block. */
  byte[] merged(ByteGrid grid, Halving halving) {
    byte[] out = new byte[pixels()];
    byte[] v = grid.values();
    int[] block = new int[shrink * shrink];
    int cols = spec.cols();
    for (int py = 0; py < height; py += grow) {
      int r0 = py / grow * shrink;
      int r1 = Math.min(r0 + shrink, spec.rows());
      for (int px = 0; px < width; px += grow) {
        int c0 = px / grow * shrink;
        int c1 = Math.min(c0 + shrink, cols);
        int n = 0;
        for (int r = r0; r < r1; r++) {
          for (int i = r * cols + c0; i < r * cols + c1; i++) {
            block[n++] = v[i] & 0xFF;
          }
        }
        byte code = (byte) TilePack.merged(block, n, halving);
        for (int y = py; y < py + grow; y++) {
          for (int x = px; x < px + grow; x++) {
            out[y * width + x] = code;
          }
        }
      }
    }
    return out;
  }
}
