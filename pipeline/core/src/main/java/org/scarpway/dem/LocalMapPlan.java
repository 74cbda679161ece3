package org.scarpway.dem;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.DemRequest.Window;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.RedrawnMap;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;

/**
 * Plans the grid on a transverse Mercator map centred on the window, on the file's own ellipsoid:
 * square cells of the geometric mean of the source's cell sizes at the centre, to three digits,
 * unless the job gives a size.
 */
final class LocalMapPlan {
  /** Scale distortion (relative) below which lengths count as true. */
  static final double NEGLIGIBLE_DISTORTION = 0.001;

  /** Adds a note with the scale distortion of the map if there is one. */
  static void noteScaleDistortion(List<String> notes, double distortion) {
    if (distortion > NEGLIGIBLE_DISTORTION) {
      notes.add(
          String.format(
              Locale.ROOT,
              "no flat map of this ground is true everywhere: lengths, times and slopes are off by"
                  + " up to %.2f %%, areas by up to %.2f %%, at its edges",
              100 * distortion,
              200 * distortion));
    }
  }

  /**
   * A transverse Mercator map stretches by 1 % at this angle from its meridian, acosh(1.01): with a
   * central scale lower by half of that, lengths are off by {@link GridPlanner#MOST_DISTORTION} at
   * most.
   */
  private static final double MOST_REACH_RAD = 0.1413;

  private final HeightSource source;
  private final DemRequest request;
  private final SourceArea area;
  private final MapCrs crs;
  private final Affine grid;
  private final List<String> notes;

  private LocalMapPlan(
      HeightSource source, DemRequest request, SourceArea area, List<String> notes) {
    this.source = source;
    this.request = request;
    this.area = area;
    this.crs = source.crs();
    this.grid = source.grid();
    this.notes = notes;
  }

  static GridPlan plan(
      HeightSource source, DemRequest request, SourceArea area, List<String> notes) {
    return new LocalMapPlan(source, request, area, notes).plan(area.centre());
  }

  private GridPlan plan(double[] centre) {
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
    MapCrs plain = crs.localAbout(lon0, lat0);
    double[] plainBox = request.window() == null ? localBox(plain) : windowBox(plain, mid);
    MapScale scale = MapScale.of(plain, plainBox, source.name());
    boolean asItIs = scale.distortion() <= NEGLIGIBLE_DISTORTION;
    double by = asItIs ? 1 : scale.middle();
    MapCrs local = asItIs ? plain : RedrawnMap.smaller(plain, by, by, 0, 0);
    double[] cells = sourceCellsM(centre);
    double cell =
        request.cellM() == null ? round3(Math.sqrt(cells[0] * cells[1])) : request.cellM();
    double[] box = request.window() == null ? localBox(local) : windowBox(local, mid);
    noteScaleDistortion(notes, scale.most() / by - 1);
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
            Digits.of(cells[0]),
            Digits.of(cells[1]),
            Digits.of(cell),
            local.name()));
    if (request.cellM() != null) {
      GridPlan.noteIfFiner(notes, cell, cell, cells[0], cells[1]);
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

  /** East-west and north-south size (m) of the source's cell at a point. */
  private double[] sourceCellsM(double[] at) {
    if (crs.isGeographic()) {
      double lat = crs.toLonLat(at[0], at[1])[1];
      // Longitude is undefined at a pole: the cell size slightly off it is used.
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
      double m = MapScale.groundM(crs, at[0] - dx, at[1] - dy, at[0] + dx, at[1] + dy);
      size[k] = m > 0 ? m : 2 * crs.metresPerUnit() * Math.sqrt(dx * dx + dy * dy);
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
    double[] centre = unitVector(crs.toLonLat(area.centre()[0], area.centre()[1]));
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

  /** Refuses a window that does not overlap the raster, tested on a mesh of points. */
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
        if (inRows && (source.goesRound() || (p[0] >= 0 && p[0] <= source.cols()))) {
          return;
        }
      }
    }
    throw area.outside();
  }

  private static double[] unitVector(double[] lonLat) {
    double lon = Math.toRadians(lonLat[0]);
    double lat = Math.toRadians(lonLat[1]);
    return new double[] {
      Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)
    };
  }

  /** Rounds to three significant digits. */
  private static double round3(double v) {
    return new BigDecimal(v).round(new MathContext(3)).doubleValue();
  }

  private static double square(double v) {
    return v * v;
  }
}
