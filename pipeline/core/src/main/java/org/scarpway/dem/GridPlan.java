package org.scarpway.dem;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.Locale;
import org.scarpway.geodata.crs.CrsWriter;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;

/**
 * The analysis grid and the mapping from its cells to the source.
 *
 * @param copy true if cells of the target are cells of the source, shifted by whole cells
 * @param firstRow row of the source that becomes row 0; valid only if {@code copy}
 * @param toPixel mapping from the target's coordinates (m) to columns and rows of the source
 * @param samplesX samples per target cell along x; 1 if target cells are about as fine as the
 *     source's
 * @param notes decisions made, one line each
 */
record GridPlan(
    GridSpec target,
    MapCrs crs,
    boolean copy,
    int firstRow,
    int firstCol,
    PixelMap toPixel,
    int samplesX,
    int samplesY,
    List<String> notes) {

  GridPlan {
    notes = List.copyOf(notes);
  }

  /**
   * Maps coordinates to columns and rows of the source, counted from the outer corner of its first
   * cell.
   */
  interface PixelMap {
    /** Writes column, row to {@code out[0..1]}; NaN where the source's map has no such point. */
    void at(double xM, double yM, double[] out);
  }

  /** Computes rows and columns of a grid and refuses one too large for the memory. */
  static GridSpec grid(
      String file,
      double rows,
      double cols,
      double cellXM,
      double cellYM,
      double westM,
      double northM,
      MapCrs crs,
      long maxCells) {
    if (!(rows * cols <= maxCells) || rows * cols > Integer.MAX_VALUE - 8) {
      throw UserError.of(
          file,
          String.format(
              Locale.ROOT,
              "%.0f x %.0f = %.4g cells of %s x %s m",
              rows,
              cols,
              rows * cols,
              shortly(cellXM),
              shortly(cellYM)),
          "at most " + Math.min(maxCells, Integer.MAX_VALUE - 8),
          "give a dem.window or a coarser dem.cell_size_m");
    }
    if (rows < 3 || cols < 3) {
      throw UserError.of(
          file,
          String.format(Locale.ROOT, "%.0f x %.0f cells", rows, cols),
          "at least 3 x 3 (a slope needs neighbours)",
          "give a larger dem.window or a finer dem.cell_size_m");
    }
    return new GridSpec((int) rows, (int) cols, cellXM, cellYM, westM, northM, CrsWriter.wkt(crs));
  }

  /** Number of samples per target cell such that no source cell is skipped. */
  static int samples(double targetM, double sourceM) {
    return (int) Math.max(1, Math.ceil(targetM / sourceM - 1e-6));
  }

  /** Adds a note if cells are finer than the source's, so that heights between are interpolated. */
  static void noteIfFiner(
      List<String> notes, double newX, double newY, double cellX, double cellY) {
    if (newX < cellX * (1 - 1e-6) || newY < cellY * (1 - 1e-6)) {
      notes.add(
          "cells of "
              + Digits.of(newX)
              + " m are finer than the source's "
              + Digits.of(cellX)
              + " x "
              + Digits.of(cellY)
              + " m: interpolation (bilinear) adds no detail");
    }
  }

  /** Inverts an affine transformation: map coordinates to column and row, in {@code out[0..1]}. */
  static void invert(Affine t, double x, double y, double[] out) {
    double det = t.xCol() * t.yRow() - t.xRow() * t.yCol();
    double dx = x - t.x0();
    double dy = y - t.y0();
    out[0] = (dx * t.yRow() - dy * t.xRow()) / det;
    out[1] = (dy * t.xCol() - dx * t.yCol()) / det;
  }

  static double x(Affine t, double col, double row) {
    return t.x0() + t.xCol() * col + t.xRow() * row;
  }

  static double y(Affine t, double col, double row) {
    return t.y0() + t.yCol() * col + t.yRow() * row;
  }

  /** Formats a number for messages: six significant digits, no trailing zeros. */
  static String shortly(double v) {
    if (Double.isNaN(v) || Double.isInfinite(v)) {
      return String.valueOf(v);
    }
    return new BigDecimal(v).round(new MathContext(6)).stripTrailingZeros().toPlainString();
  }
}
