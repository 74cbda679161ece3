package org.scarpway.dem;

import static org.scarpway.dem.GridPlan.shortly;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.DemRequest.Window;
import org.scarpway.geodata.MapCrs;
import org.scarpway.geodata.RasterHeader.Affine;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * Decides the grid that is analysed. A projected source keeps its map, in metres. A source in
 * degrees, and one whose map stretches the ground by more than {@link #MOST_STRETCH}, is carried
 * over to a transverse Mercator map about the window's centre on the file's own figure. A map that
 * stretches by more than {@link #TOLD_STRETCH} is kept and the stretch is told.
 */
final class GridPlanner {
  static final double TOLD_STRETCH = 0.01;
  static final double MOST_STRETCH = 0.05;

  /** A transverse Mercator map stretches by 5 % at this angle from its meridian: acosh(1.05). */
  private static final double MOST_REACH_RAD = 0.3149;

  private final HeightSource source;
  private final DemRequest request;
  private final MapCrs crs;
  private final Affine grid;
  private final List<String> notes = new ArrayList<>();

  private GridPlanner(HeightSource source, DemRequest request) {
    this.source = source;
    this.request = request;
    this.crs = source.crs();
    this.grid = source.grid();
  }

  static GridPlan plan(HeightSource source, DemRequest request) {
    return new GridPlanner(source, request).plan();
  }

  private GridPlan plan() {
    Window w = request.window();
    if (w != null && (!(w.widthM() > 0) || !(w.heightM() > 0))) {
      throw UserError.of(
          "dem.window",
          "size " + shortly(w.widthM()) + " x " + shortly(w.heightM()) + " m",
          "a width and a height above 0",
          "give both in metres");
    }
    if (request.cellM() != null && !(request.cellM() > 0)) {
      throw UserError.of(
          "dem.cell_size_m", shortly(request.cellM()), "a size above 0", "give it in metres");
    }
    double[] centre = centre();
    if (crs.isGeographic()) {
      return onLocalMap(centre);
    }
    if (crs.isProjected()) {
      double stretch = stretch();
      if (stretch > MOST_STRETCH || !crs.isPortable()) {
        notes.add(
            String.format(
                Locale.ROOT,
                "'%s' stretches the ground by up to %.1f %%; heights are carried over to a local"
                    + " transverse Mercator map",
                crs.name(),
                100 * stretch));
        return onLocalMap(centre);
      }
      if (stretch > TOLD_STRETCH) {
        notes.add(
            String.format(
                Locale.ROOT,
                "'%s' stretches the ground by up to %.1f %% here: slopes, lengths and areas are off"
                    + " by about as much",
                crs.name(),
                100 * stretch));
      }
    }
    return grid.rotated() ? turned() : onOwnMap();
  }

  /** Centre of the window, or of the raster, in the source's own coordinates. */
  private double[] centre() {
    double midX = GridPlan.x(grid, source.cols() / 2.0, source.rows() / 2.0);
    double midY = GridPlan.y(grid, source.cols() / 2.0, source.rows() / 2.0);
    Window w = request.window();
    if (w == null) {
      return new double[] {midX, midY};
    }
    if (w.lonLat() && crs.isLocal()) {
      throw UserError.of(
          "dem.window",
          "centre as lon, lat on a local plane",
          "x, y in metres",
          "give the centre in the file's own coordinates");
    }
    double[] c = {w.x(), w.y()};
    if (w.lonLat()) {
      c = crs.fromLonLatNear(w.x(), w.y(), midX);
    } else if (crs.isGeographic()) {
      double turn = crs.turnX();
      c[0] += turn * Math.rint((midX - c[0]) / turn);
    }
    if (!Double.isFinite(c[0]) || !Double.isFinite(c[1])) {
      throw outside();
    }
    return c;
  }

  /** Largest deviation of the map's scale from 1, over the window, in either direction. */
  private double stretch() {
    double unit = crs.metresPerUnit();
    double[] box = ownBox();
    double worst = 0;
    int known = 0;
    double stepM = 1e-5 * crs.semiMajorM();
    for (int i = 0; i <= 2; i++) {
      for (int j = 0; j <= 2; j++) {
        double x = box[0] + (box[2] - box[0]) * i / 2;
        double y = box[1] + (box[3] - box[1]) * j / 2;
        for (int along = 0; along < 2; along++) {
          double dx = along == 0 ? stepM / unit : 0;
          double dy = along == 0 ? 0 : stepM / unit;
          double scale = groundM(x - dx / 2, y - dy / 2, x + dx / 2, y + dy / 2) / stepM;
          if (!Double.isNaN(scale)) {
            worst = Math.max(worst, Math.abs(scale - 1));
            known++;
          }
        }
      }
    }
    if (known == 0) {
      throw UserError.of(
          source.name(),
          "coordinates outside the range of '" + crs.name() + "'",
          "coordinates on the body",
          "correct the file's coordinate reference system");
    }
    return worst;
  }

  /** Length on the ground of a short line of the map. */
  private double groundM(double x1, double y1, double x2, double y2) {
    double[] a = crs.toLonLat(x1, y1);
    double[] b = crs.toLonLat(x2, y2);
    double turn = b[0] - a[0];
    turn -= 360 * Math.rint(turn / 360);
    double lat = (a[1] + b[1]) / 2;
    if (Math.abs(lat) > 89.9) {
      return Double.NaN; // a short line near a pole is not short in longitude
    }
    double east = turn * crs.metresPerDegreeEast(lat);
    double north = (b[1] - a[1]) * crs.metresPerDegreeNorth(lat);
    return Math.sqrt(east * east + north * north);
  }

  /** West, south, east, north of what will be read, in the source's own units. */
  private double[] ownBox() {
    double[] all = rasterBox();
    Window w = request.window();
    if (w == null) {
      return all;
    }
    double[] c = centre();
    double unit = crs.metresPerUnit();
    double[] box = {
      Math.max(all[0], c[0] - w.widthM() / 2 / unit),
      Math.max(all[1], c[1] - w.heightM() / 2 / unit),
      Math.min(all[2], c[0] + w.widthM() / 2 / unit),
      Math.min(all[3], c[1] + w.heightM() / 2 / unit)
    };
    if (box[0] >= box[2] || box[1] >= box[3]) {
      throw outside();
    }
    return box;
  }

  private double[] rasterBox() {
    double[] b = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    for (int k = 0; k < 4; k++) {
      double col = (k & 1) * source.cols();
      double row = (k >> 1) * source.rows();
      double x = GridPlan.x(grid, col, row);
      double y = GridPlan.y(grid, col, row);
      b[0] = Math.min(b[0], x);
      b[1] = Math.min(b[1], y);
      b[2] = Math.max(b[2], x);
      b[3] = Math.max(b[3], y);
    }
    return b;
  }

  private UserError outside() {
    double[] b = rasterBox();
    StringBuilder extent = new StringBuilder();
    extent.append("x ").append(shortly(b[0])).append(" to ").append(shortly(b[2]));
    extent.append(", y ").append(shortly(b[1])).append(" to ").append(shortly(b[3]));
    if (!crs.isLocal()) {
      double[] m = crs.toLonLat((b[0] + b[2]) / 2, (b[1] + b[3]) / 2);
      extent.append(" (centre lon ").append(shortly(m[0])).append(", lat ").append(shortly(m[1]));
      extent.append(')');
    }
    Window w = request.window();
    return UserError.of(
        "dem.window",
        "centre " + shortly(w.x()) + ", " + shortly(w.y()) + " is outside " + source.name(),
        extent.toString(),
        "move the window onto the elevation model");
  }

  /** North-up on the source's own map: the source's cells, or cells of the size asked for. */
  private GridPlan onOwnMap() {
    double unit = crs.metresPerUnit();
    double cellX = grid.xCol() * unit;
    double cellY = -grid.yRow() * unit;
    int r0 = 0;
    int c0 = 0;
    int r1 = source.rows();
    int c1 = source.cols();
    Window w = request.window();
    if (w != null) {
      double[] c = centre();
      double midCol = (c[0] - grid.x0()) / grid.xCol();
      double midRow = (c[1] - grid.y0()) / grid.yRow();
      double halfCols = w.widthM() / cellX / 2;
      double halfRows = w.heightM() / cellY / 2;
      if (!(midCol + halfCols > 0 && midCol - halfCols < c1)
          || !(midRow + halfRows > 0 && midRow - halfRows < r1)) {
        throw outside();
      }
      long west = Math.round(midCol - halfCols);
      long east = Math.round(midCol + halfCols);
      long north = Math.round(midRow - halfRows);
      long south = Math.round(midRow + halfRows);
      if (west < 0 || north < 0 || east > c1 || south > r1) {
        notes.add("the window reaches beyond the elevation model and is cut at its edge");
      }
      c0 = (int) Math.max(0, west);
      r0 = (int) Math.max(0, north);
      c1 = (int) Math.min(c1, Math.max(east, west + 1));
      r1 = (int) Math.min(r1, Math.max(south, north + 1));
    }
    double westM = (grid.x0() + c0 * grid.xCol()) * unit;
    double northM = (grid.y0() + r0 * grid.yRow()) * unit;
    MapCrs metric = crs.inMetres();
    Double asked = request.cellM();
    boolean same =
        asked == null
            || Math.abs(asked / cellX - 1) < 1e-9 && Math.abs(asked / cellY - 1) < 1e-9;
    double newX = same ? cellX : asked;
    double newY = same ? cellY : asked;
    double rows = same ? r1 - r0 : Math.floor((r1 - r0) * cellY / newY + 1e-6);
    double cols = same ? c1 - c0 : Math.floor((c1 - c0) * cellX / newX + 1e-6);
    GridSpec spec =
        GridPlan.grid(
            source.name(), rows, cols, newX, newY, westM, northM, metric, request.maxCells());
    tellIfFiner(newX, newY, cellX, cellY);
    double north = grid.y0() * unit;
    double west = grid.x0() * unit;
    return new GridPlan(
        spec,
        metric,
        same,
        r0,
        c0,
        (x, y, out) -> {
          out[0] = (x - west) / cellX;
          out[1] = (north - y) / cellY;
        },
        GridPlan.samples(newX, cellX),
        GridPlan.samples(newY, cellY),
        notes);
  }

  /** A rotated source on a north-up grid of the same map and cell size. */
  private GridPlan turned() {
    double unit = crs.metresPerUnit();
    double alongColM = unit * Math.sqrt(square(grid.xCol()) + square(grid.yCol()));
    double alongRowM = unit * Math.sqrt(square(grid.xRow()) + square(grid.yRow()));
    double cellX = request.cellM() == null ? alongColM : request.cellM();
    double cellY = request.cellM() == null ? alongRowM : request.cellM();
    double[] box = ownBox();
    double rows = Math.floor((box[3] - box[1]) * unit / cellY + 1e-6);
    double cols = Math.floor((box[2] - box[0]) * unit / cellX + 1e-6);
    MapCrs metric = crs.inMetres();
    GridSpec spec =
        GridPlan.grid(
            source.name(),
            rows,
            cols,
            cellX,
            cellY,
            box[0] * unit,
            box[3] * unit,
            metric,
            request.maxCells());
    notes.add("the raster is rotated; heights are interpolated (bilinear) to a north-up grid");
    tellIfFiner(cellX, cellY, alongColM, alongRowM);
    return new GridPlan(
        spec,
        metric,
        false,
        0,
        0,
        (x, y, out) -> GridPlan.invert(grid, x / unit, y / unit, out),
        GridPlan.samples(cellX, alongColM),
        GridPlan.samples(cellY, alongRowM),
        notes);
  }

  /** Any other source on a transverse Mercator map about the centre. */
  private GridPlan onLocalMap(double[] centre) {
    double[] mid = crs.toLonLat(centre[0], centre[1]);
    if (Double.isNaN(mid[0])) {
      throw UserError.of(
          source.name(),
          "the centre is outside the range of '" + crs.name() + "'",
          "coordinates on the body",
          "correct the file's coordinate reference system, or give a dem.window");
    }
    double lon0 = Math.rint(mid[0] * 1000) / 1000;
    double lat0 = Math.max(-90, Math.min(90, Math.rint(mid[1] * 1000) / 1000));
    MapCrs local = crs.localAbout(lon0, lat0);
    double[] cells = sourceCellsM(centre);
    double cell =
        request.cellM() == null ? round3(Math.sqrt(cells[0] * cells[1])) : request.cellM();
    double[] box = request.window() == null ? localBox(local) : windowBox(local, mid);
    double west = Math.floor(box[0] / cell + 1e-9) * cell;
    double north = Math.ceil(box[3] / cell - 1e-9) * cell;
    double rows = Math.ceil((north - box[1]) / cell - 1e-9);
    double cols = Math.ceil((box[2] - west) / cell - 1e-9);
    GridSpec spec =
        GridPlan.grid(
            source.name(), rows, cols, cell, cell, west, north, local, request.maxCells());
    notes.add(
        String.format(
            Locale.ROOT,
            "source cells of %s x %s m (east x north) carried over (bilinear) to %s m cells of '%s'",
            shortly(cells[0]),
            shortly(cells[1]),
            shortly(cell),
            local.name()));
    if (request.cellM() != null) {
      tellIfFiner(cell, cell, cells[0], cells[1]);
    }
    double nearX = centre[0];
    double turn = crs.turnX();
    GridPlan plan =
        new GridPlan(
            spec,
            local,
            false,
            0,
            0,
            (x, y, out) -> {
              local.toLonLat(x, y, out);
              crs.fromLonLat(out[0], out[1], out);
              if (turn > 0) {
                out[0] += turn * Math.rint((nearX - out[0]) / turn);
              }
              GridPlan.invert(grid, out[0], out[1], out);
            },
            GridPlan.samples(cell, cells[0]),
            GridPlan.samples(cell, cells[1]),
            notes);
    requireOverlap(plan);
    return plan;
  }

  /** East and north size (m) of the source's cell at a point. */
  private double[] sourceCellsM(double[] at) {
    if (crs.isGeographic()) {
      double lat = crs.toLonLat(at[0], at[1])[1];
      // Longitude says nothing at a pole: the cell a little off it stands for all.
      double safe = Math.max(-89, Math.min(89, lat));
      double perUnit = 360 / crs.turnX();
      return new double[] {
        Math.abs(grid.xCol()) * perUnit * crs.metresPerDegreeEast(safe),
        Math.abs(grid.yRow()) * perUnit * crs.metresPerDegreeNorth(safe)
      };
    }
    double[] size = new double[2];
    for (int k = 0; k < 2; k++) {
      double dx = (k == 0 ? grid.xCol() : grid.xRow()) / 2;
      double dy = (k == 0 ? grid.yCol() : grid.yRow()) / 2;
      double m = groundM(at[0] - dx, at[1] - dy, at[0] + dx, at[1] + dy);
      size[k] =
          m > 0 ? m : 2 * crs.metresPerUnit() * Math.sqrt(dx * dx + dy * dy);
    }
    return size;
  }

  private double[] windowBox(MapCrs local, double[] midLonLat) {
    Window w = request.window();
    double[] m = local.fromLonLat(midLonLat[0], midLonLat[1]);
    double half = Math.sqrt(square(w.widthM()) + square(w.heightM())) / 2;
    if (half / crs.semiMinorM() > MOST_REACH_RAD) {
      throw tooLarge(half / crs.semiMinorM());
    }
    return new double[] {
      m[0] - w.widthM() / 2, m[1] - w.heightM() / 2, m[0] + w.widthM() / 2, m[1] + w.heightM() / 2
    };
  }

  /** Bounding box of the raster's outline on the local map. */
  private double[] localBox(MapCrs local) {
    double[] box = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    int n = 64;
    double[] centre = unitVector(crs.toLonLat(centre()[0], centre()[1]));
    for (int side = 0; side < 4; side++) {
      for (int k = 0; k < n; k++) {
        double f = k / (double) n;
        double col = source.cols() * (side == 0 ? f : side == 1 ? 1 : side == 2 ? 1 - f : 0);
        double row = source.rows() * (side == 0 ? 0 : side == 1 ? f : side == 2 ? 1 : 1 - f);
        double[] g = crs.toLonLat(GridPlan.x(grid, col, row), GridPlan.y(grid, col, row));
        if (Double.isNaN(g[0])) {
          throw tooLarge(Math.PI);
        }
        double[] v = unitVector(g);
        double dot = v[0] * centre[0] + v[1] * centre[1] + v[2] * centre[2];
        double reach = Math.acos(Math.max(-1, Math.min(1, dot)));
        if (reach > MOST_REACH_RAD) {
          throw tooLarge(reach);
        }
        double[] xy = local.fromLonLat(g[0], g[1]);
        box[0] = Math.min(box[0], xy[0]);
        box[1] = Math.min(box[1], xy[1]);
        box[2] = Math.max(box[2], xy[0]);
        box[3] = Math.max(box[3], xy[1]);
      }
    }
    return box;
  }

  private UserError tooLarge(double reachRad) {
    return UserError.of(
        source.name(),
        String.format(
            Locale.ROOT,
            "ground up to %.0f deg from its centre is too wide for one plane map",
            Math.toDegrees(reachRad)),
        String.format(
            Locale.ROOT,
            "at most %.0f deg (%.0f km on this body)",
            Math.toDegrees(MOST_REACH_RAD),
            MOST_REACH_RAD * crs.semiMinorM() / 1000),
        "give a dem.window");
  }

  /** Refuses a window that misses the raster, looked at on a mesh of points. */
  private void requireOverlap(GridPlan plan) {
    GridSpec t = plan.target();
    double[] p = new double[2];
    int n = 32;
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= n; j++) {
        plan.toPixel()
            .at(
                t.westM() + (t.eastM() - t.westM()) * i / n,
                t.southM() + (t.northM() - t.southM()) * j / n,
                p);
        boolean inRows = p[1] >= 0 && p[1] <= source.rows();
        if (inRows && (source.goesRound() || p[0] >= 0 && p[0] <= source.cols())) {
          return;
        }
      }
    }
    throw outside();
  }

  private void tellIfFiner(double newX, double newY, double cellX, double cellY) {
    if (newX < cellX * (1 - 1e-6) || newY < cellY * (1 - 1e-6)) {
      notes.add(
          "cells of "
              + shortly(newX)
              + " m are finer than the source's "
              + shortly(cellX)
              + " x "
              + shortly(cellY)
              + " m: interpolation (bilinear) adds no detail");
    }
  }

  private static double[] unitVector(double[] lonLat) {
    double lon = Math.toRadians(lonLat[0]);
    double lat = Math.toRadians(lonLat[1]);
    return new double[] {
      Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)
    };
  }

  /** Three significant digits. */
  private static double round3(double v) {
    return new java.math.BigDecimal(v).round(new java.math.MathContext(3)).doubleValue();
  }

  private static double square(double v) {
    return v * v;
  }
}
