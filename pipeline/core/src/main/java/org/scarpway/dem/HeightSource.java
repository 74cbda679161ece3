package org.scarpway.dem;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.stage.UserError;

/**
 * A mosaic of one or more elevation rasters with the same coordinate reference system and aligned
 * cells. Rows run south and columns run east; files stored the other way round are flipped here, so
 * that no other class needs to handle it. A single rotated file keeps its own rows and columns,
 * which {@link #grid()} places. Where files overlap, the earlier one takes precedence and later
 * ones fill its voids.
 */
final class HeightSource {
  /**
   * Tolerance (relative) of cell sizes: 0.1 permille of a cell over a whole raster is rounding,
   * more is a different grid.
   */
  private static final double SAME_CELL = 1e-9;

  private static final double ON_GRID = 1e-3;

  private final RasterIo io;
  private final MapCrs crs;
  private final List<Part> parts;
  private final Affine grid;
  private final int rows;
  private final int cols;
  private final List<String> notes;

  /**
   * One file: position of its north-west cell in the mosaic, and whether its rows or columns are
   * flipped.
   */
  record Part(
      RasterHeader header,
      HeightUnit unit,
      Affine northUp,
      boolean rowsTurned,
      boolean colsTurned,
      int row,
      int col) {}

  private HeightSource(
      RasterIo io,
      MapCrs crs,
      List<Part> parts,
      Affine grid,
      int rows,
      int cols,
      List<String> notes) {
    this.io = io;
    this.crs = crs;
    this.parts = parts;
    this.grid = grid;
    this.rows = rows;
    this.cols = cols;
    this.notes = notes;
  }

  static HeightSource open(List<Path> files, boolean assumeLocalMetres, RasterIo io) {
    if (files.isEmpty()) {
      throw UserError.of("dem.source", "no elevation file", "at least one", "name a raster file");
    }
    List<String> notes = new ArrayList<>();
    List<Part> parts = new ArrayList<>();
    MapCrs crs = null;
    for (Path file : files) {
      RasterHeader header = io.header(file);
      MapCrs own = crsOf(header, assumeLocalMetres, notes);
      if (crs == null) {
        crs = own;
      } else if (!crs.sameAs(own)) {
        throw UserError.of(
            file.toString(),
            "coordinate reference system '" + own.name() + "'",
            "'" + crs.name() + "' as in " + files.get(0),
            "reproject one of the files to the system of the other");
      }
      parts.add(part(header, own, notes));
    }
    return parts.size() == 1
        ? new HeightSource(
            io,
            crs,
            parts,
            parts.get(0).northUp(),
            parts.get(0).header().rows(),
            parts.get(0).header().cols(),
            notes)
        : mosaic(io, crs, parts, notes);
  }

  private static MapCrs crsOf(RasterHeader h, boolean assumeLocalMetres, List<String> notes) {
    MapCrs named = CrsText.read("");
    if (!h.crsWkt().isBlank()) {
      try {
        named = CrsText.read(h.crsWkt());
      } catch (UserError e) {
        throw new UserError(h.file() + ": " + e.getMessage());
      }
    }
    if (!named.isLocal()) {
      return named;
    }
    boolean nameless = h.crsWkt().isBlank();
    if (!assumeLocalMetres) {
      throw UserError.of(
          h.file().toString(),
          nameless
              ? "no coordinate reference system (no GeoTIFF keys, no .prj)"
              : "its coordinate reference system '" + named.name() + "' is tied to no body",
          "a projected or a longitude-latitude system",
          "assign one to the file, or set dem.units: metres to take it as a local plane"
              + (nameless ? " in metres" : ""));
    }
    notes.add(
        h.file().getFileName()
            + (nameless
                ? ": no coordinate reference system; taken as a local plane in metres as dem.units"
                    + " says"
                : ": coordinate reference system '"
                    + named.name()
                    + "' is tied to no body; taken as a local plane in units of "
                    + named.metresPerUnit()
                    + " m as dem.units allows"));
    return named;
  }

  private static Part part(RasterHeader h, MapCrs crs, List<String> notes) {
    String file = h.file().toString();
    if (h.rows() < 1 || h.cols() < 1) {
      throw UserError.of(file, "raster without cells", "at least 3 x 3", "name another file");
    }
    if (h.dataType().startsWith("C")) {
      throw UserError.of(file, "complex numbers (" + h.dataType() + ")", "heights", "convert it");
    }
    if (!h.placeNote().isEmpty()) {
      notes.add(h.file().getFileName() + ": " + h.placeNote());
    }
    if (h.bands() > 1) {
      notes.add(h.file().getFileName() + ": " + h.bands() + " bands; band 1 is taken as height");
    }
    HeightUnit unit = HeightUnit.named(h.verticalUnit());
    if (!unit.known()) {
      notes.add(
          h.file().getFileName()
              + ": height unit '"
              + h.verticalUnit()
              + "' is not known; metres assumed");
    } else if (h.verticalUnit().isEmpty() && crs.isProjected() && crs.metresPerUnit() != 1) {
      notes.add(
          h.file().getFileName()
              + ": the map is not in metres and the file names no height unit; heights taken as"
              + " metres");
    }
    Affine t = h.transform();
    if (t.xCol() * t.yRow() - t.xRow() * t.yCol() == 0 || !isFinite(t)) {
      throw UserError.of(file, "cells without size", "a georeferenced grid", "georeference it");
    }
    requireOnBody(h, crs);
    if (t.rotated()) {
      return new Part(h, unit, t, false, false, 0, 0);
    }
    boolean southUp = t.yRow() > 0;
    boolean eastFirst = t.xCol() < 0;
    Affine northUp =
        new Affine(
            eastFirst ? t.x0() + h.cols() * t.xCol() : t.x0(),
            Math.abs(t.xCol()),
            0,
            southUp ? t.y0() + h.rows() * t.yRow() : t.y0(),
            0,
            -Math.abs(t.yRow()));
    return new Part(h, unit, northUp, southUp, eastFirst, 0, 0);
  }

  /**
   * Refuses a raster with cells beyond a pole: its georeference is wrong. Cells may extend beyond
   * by half their size, as where the centres of the first row lie on the pole.
   */
  private static void requireOnBody(RasterHeader h, MapCrs crs) {
    Affine t = h.transform();
    if (!(crs.turnX() > 0) || t.rotated()) {
      return;
    }
    double x = t.x0() + t.xCol() / 2;
    double most = 0;
    for (int row : new int[] {0, h.rows() - 1}) {
      double latDeg = crs.toLonLat(x, t.y0() + t.yRow() * (row + 0.5))[1];
      // A cylindrical map about the equator has no point there.
      most = Math.max(most, Double.isNaN(latDeg) ? Double.POSITIVE_INFINITY : Math.abs(latDeg));
    }
    double cellDeg = Math.abs(t.yRow()) * 360 / crs.turnX();
    if (most > 90 + 1e-3 * cellDeg) {
      throw UserError.of(
          h.file().toString(),
          Double.isInfinite(most)
              ? "its first or last row of cells lies beyond a pole"
              : "its first or last row of cells lies at latitude " + GridPlan.shortly(most),
          "latitudes up to 90",
          "correct the position of the file (gdal_translate -a_ullr)");
    }
  }

  private static boolean isFinite(Affine t) {
    return Double.isFinite(t.x0() + t.xCol() + t.xRow() + t.y0() + t.yCol() + t.yRow());
  }

  private static HeightSource mosaic(
      RasterIo io, MapCrs crs, List<Part> parts, List<String> notes) {
    Affine first = parts.get(0).northUp();
    List<Part> placed = new ArrayList<>();
    long top = 0;
    long left = 0;
    long bottom = 0;
    long right = 0;
    for (Part p : parts) {
      Affine t = p.northUp();
      String file = p.header().file().toString();
      if (t.rotated() || first.rotated()) {
        throw UserError.of(
            file, "a rotated file in a mosaic", "north-up files", "turn it to north-up first");
      }
      double col = (t.x0() - first.x0()) / first.xCol();
      double row = (t.y0() - first.y0()) / first.yRow();
      boolean sameCell =
          Math.abs(t.xCol() / first.xCol() - 1) < SAME_CELL * p.header().cols() + 1e-7
              && Math.abs(t.yRow() / first.yRow() - 1) < SAME_CELL * p.header().rows() + 1e-7;
      if (!sameCell
          || Math.abs(col - Math.rint(col)) > ON_GRID
          || Math.abs(row - Math.rint(row)) > ON_GRID) {
        throw UserError.of(
            file,
            "cells of "
                + t.xCol()
                + " x "
                + -t.yRow()
                + ", shifted by "
                + (col - Math.floor(col))
                + ", "
                + (row - Math.floor(row))
                + " of a cell",
            "the cells of " + parts.get(0).header().file(),
            "resample it to the grid of the first file");
      }
      long r = Math.round(row);
      long c = Math.round(col);
      if (Math.max(Math.abs(r), Math.abs(c)) > 1_000_000_000L) {
        throw UserError.of(
            file, "too far from the first file", "neighbouring files", "leave it out");
      }
      top = Math.min(top, r);
      left = Math.min(left, c);
      bottom = Math.max(bottom, r + p.header().rows());
      right = Math.max(right, c + p.header().cols());
      placed.add(
          new Part(p.header(), p.unit(), t, p.rowsTurned(), p.colsTurned(), (int) r, (int) c));
    }
    int rowShift = (int) -top;
    int colShift = (int) -left;
    placed.replaceAll(
        p ->
            new Part(
                p.header(),
                p.unit(),
                p.northUp(),
                p.rowsTurned(),
                p.colsTurned(),
                p.row() + rowShift,
                p.col() + colShift));
    Affine grid =
        new Affine(
            first.x0() + left * first.xCol(),
            first.xCol(),
            0,
            first.y0() + top * first.yRow(),
            0,
            first.yRow());
    return new HeightSource(
        io, crs, placed, grid, (int) (bottom - top), (int) (right - left), notes);
  }

  MapCrs crs() {
    return crs;
  }

  /**
   * The affine georeference of the mosaic, in CRS units; north-up unless its single file is
   * rotated.
   */
  Affine grid() {
    return grid;
  }

  int rows() {
    return rows;
  }

  int cols() {
    return cols;
  }

  List<Part> parts() {
    return parts;
  }

  /** Assumptions made, one line each. */
  List<String> notes() {
    return notes;
  }

  /** Name of the first file, for messages. */
  String name() {
    return parts.get(0).header().file().toString();
  }

  /** True if the columns span 360 degrees, so that the last adjoins the first. */
  boolean goesRound() {
    return !grid.rotated()
        && crs.turnX() > 0
        && Math.abs(cols * grid.xCol() - crs.turnX()) < 0.01 * grid.xCol();
  }

  /**
   * Reads heights (m) minus {@code datumM} of a window; NaN outside the rasters. On a raster that
   * spans 360 degrees, columns wrap around at either end.
   */
  void read(int firstRow, int firstCol, int nRows, int nCols, double datumM, float[] out) {
    Arrays.fill(out, 0, nRows * nCols, Float.NaN);
    if (!goesRound()) {
      for (Part p : parts) {
        overlay(p, firstRow, firstCol, nRows, nCols, 0, datumM, out);
      }
      return;
    }
    int firstTurn = Math.floorDiv(firstCol, cols);
    int lastTurn = Math.floorDiv(firstCol + nCols - 1, cols);
    for (int turn = firstTurn; turn <= lastTurn; turn++) {
      for (Part p : parts) {
        overlay(p, firstRow, firstCol, nRows, nCols, turn * cols, datumM, out);
      }
    }
  }

  private void overlay(
      Part p,
      int firstRow,
      int firstCol,
      int nRows,
      int nCols,
      int colShift,
      double datumM,
      float[] out) {
    RasterHeader h = p.header();
    int partCol = p.col() + colShift;
    int r0 = Math.max(firstRow, p.row());
    int r1 = Math.min(firstRow + nRows, p.row() + h.rows());
    int c0 = Math.max(firstCol, partCol);
    int c1 = Math.min(firstCol + nCols, partCol + h.cols());
    if (r0 >= r1 || c0 >= c1) {
      return;
    }
    int height = r1 - r0;
    int width = c1 - c0;
    int fileRow = p.rowsTurned() ? p.row() + h.rows() - r1 : r0 - p.row();
    int fileCol = p.colsTurned() ? partCol + h.cols() - c1 : c0 - partCol;
    double metres = p.unit().metres();
    float[] own = new float[height * width];
    io.read(h, fileRow, fileCol, height, width, datumM / metres, own);
    for (int r = 0; r < height; r++) {
      int from = (p.rowsTurned() ? height - 1 - r : r) * width;
      int to = (r0 - firstRow + r) * nCols + (c0 - firstCol);
      for (int c = 0; c < width; c++) {
        float v = own[from + (p.colsTurned() ? width - 1 - c : c)];
        if (Float.isNaN(out[to + c]) && Float.isFinite(v)) {
          out[to + c] = metres == 1 ? v : (float) (v * metres);
        }
      }
    }
  }
}
