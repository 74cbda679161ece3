package org.scarpway.dem;

import static org.scarpway.dem.GridPlan.shortly;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.DemRequest.Window;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.RedrawnMap;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * Chooses the analysis grid, in metres on the ground. A projected source keeps its cells: on its
 * own map if no length is distorted by more than {@link LocalMapPlan#NEGLIGIBLE_DISTORTION},
 * otherwise on the same map rescaled so that it is true to scale in this area. That changes no
 * height, while resampling to another map smooths slopes, by 2 to 10 % on self-affine ground of
 * Hurst exponent 0.9 to 0.3 (measured). A source in degrees, and one whose scale differs by more
 * than {@link #MOST_DISTORTION} from place to place or between directions, is resampled to a
 * transverse Mercator map centred on the window, on the file's own ellipsoid.
 */
final class GridPlanner {
  /** Largest accepted scale distortion (relative); the run reports it. */
  static final double MOST_DISTORTION = 0.005;

  private final HeightSource source;
  private final DemRequest request;
  private final MapCrs crs;
  private final Affine grid;
  private final SourceArea area;
  private final List<String> notes = new ArrayList<>();

  /** Divisor that rescales the source's map, along x. */
  private double byX = 1;

  private double byY = 1;

  /**
   * Offset (m) added to rescaled coordinates so that the centre of the area keeps its coordinates.
   */
  private double shiftXM;

  private double shiftYM;
  private MapCrs metric;

  private GridPlanner(HeightSource source, DemRequest request) {
    this.source = source;
    this.request = request;
    this.crs = source.crs();
    this.grid = source.grid();
    this.area = new SourceArea(source, request.window());
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
    if (crs.isGeographic()) {
      return LocalMapPlan.plan(source, request, area, notes);
    }
    if (crs.isProjected() && !trueToScale()) {
      return LocalMapPlan.plan(source, request, area, notes);
    }
    metric = metric == null ? crs.inMetres() : metric;
    return grid.rotated() ? turned() : onOwnMap();
  }

  /** Computes the rescaling of the source's own map; false if that map cannot be kept. */
  private boolean trueToScale() {
    MapScale scale = MapScale.of(crs, area.box(), source.name());
    double least = scale.least();
    double most = scale.most();
    double distortion = scale.distortion();
    if (distortion > LocalMapPlan.NEGLIGIBLE_DISTORTION
        && most < Double.POSITIVE_INFINITY
        && crs.isPortable()) {
      double[] box = area.box();
      double xM = (box[0] + box[2]) / 2 * crs.metresPerUnit();
      double yM = (box[1] + box[3]) / 2 * crs.metresPerUnit();
      MapCrs alike = RedrawnMap.smaller(crs, scale.middle(), scale.middle(), xM, yM);
      MapCrs across = RedrawnMap.smaller(crs, scale.middleX(), 1, xM, yM);
      if (alike != null) {
        shrink(alike, scale.middle(), scale.middle(), xM, yM);
        distortion = most / scale.middle() - 1;
      } else if (across != null) {
        shrink(across, scale.middleX(), 1, xM, yM);
        distortion =
            Math.max(
                scale.mostX() / scale.middleX() - 1,
                Math.max(scale.mostY() - 1, 1 - scale.leastY()));
      }
    }
    if (!(distortion <= MOST_DISTORTION) || !crs.isPortable()) {
      metric = null;
      notes.add(
          String.format(
              Locale.ROOT,
              "'%s' stretches the ground by up to %.1f %%, and not alike everywhere; heights are"
                  + " carried over to a local transverse Mercator map",
              crs.name(),
              100 * scale.distortion()));
      return false;
    }
    if (metric != null) {
      notes.add(
          String.format(
              Locale.ROOT,
              "'%s' draws the ground %.4f to %.4f times as long here: the same cells are taken at"
                  + " their size on the ground, on that map true to scale; coordinates in products"
                  + " are the raster's own in the middle of the ground only",
              crs.name(),
              least,
              most));
    }
    LocalMapPlan.noteScaleDistortion(notes, distortion);
    return true;
  }

  private void shrink(MapCrs to, double x, double y, double aboutXM, double aboutYM) {
    metric = to;
    byX = x;
    byY = y;
    shiftXM = aboutXM * (1 - 1 / x);
    shiftYM = aboutYM * (1 - 1 / y);
  }

  /**
   * A north-up grid on the source's own map, with the source's cells or cells of the requested
   * size.
   */
  private GridPlan onOwnMap() {
    double unitX = crs.metresPerUnit() / byX;
    double unitY = crs.metresPerUnit() / byY;
    double cellX = grid.xCol() * unitX;
    double cellY = -grid.yRow() * unitY;
    int r0 = 0;
    int c0 = 0;
    int r1 = source.rows();
    int c1 = source.cols();
    Window w = request.window();
    if (w != null) {
      double[] c = area.centre();
      double midCol = (c[0] - grid.x0()) / grid.xCol();
      double midRow = (c[1] - grid.y0()) / grid.yRow();
      double halfCols = w.widthM() / cellX / 2;
      double halfRows = w.heightM() / cellY / 2;
      if (!(midCol + halfCols > 0 && midCol - halfCols < c1)
          || !(midRow + halfRows > 0 && midRow - halfRows < r1)) {
        throw area.outside();
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
    double westM = (grid.x0() + c0 * grid.xCol()) * unitX + shiftXM;
    double northM = (grid.y0() + r0 * grid.yRow()) * unitY + shiftYM;
    Double asked = request.cellM();
    // Requesting the cell size as stated on the source's own map also selects its own cells.
    boolean same =
        asked == null
            || (near(asked, cellX) && near(asked, cellY))
            || (near(asked, cellX * byX) && near(asked, cellY * byY));
    double newX = same ? cellX : asked;
    double newY = same ? cellY : asked;
    double rows = same ? r1 - r0 : Math.floor((r1 - r0) * cellY / newY + 1e-6);
    double cols = same ? c1 - c0 : Math.floor((c1 - c0) * cellX / newX + 1e-6);
    GridSpec spec =
        GridPlan.grid(
            source.name(), rows, cols, newX, newY, westM, northM, metric, request.maxCells());
    GridPlan.noteIfFiner(notes, newX, newY, cellX, cellY);
    double north = grid.y0() * unitY + shiftYM;
    double west = grid.x0() * unitX + shiftXM;
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

  /** Resamples a rotated source to a north-up grid on the same map with the same cell size. */
  private GridPlan turned() {
    double unitX = crs.metresPerUnit() / byX;
    double unitY = crs.metresPerUnit() / byY;
    double alongColM = Math.hypot(unitX * grid.xCol(), unitY * grid.yCol());
    double alongRowM = Math.hypot(unitX * grid.xRow(), unitY * grid.yRow());
    double cellX = request.cellM() == null ? alongColM : request.cellM();
    double cellY = request.cellM() == null ? alongRowM : request.cellM();
    double[] box = area.box();
    double rows = Math.floor((box[3] - box[1]) * unitY / cellY + 1e-6);
    double cols = Math.floor((box[2] - box[0]) * unitX / cellX + 1e-6);
    GridSpec spec =
        GridPlan.grid(
            source.name(),
            rows,
            cols,
            cellX,
            cellY,
            box[0] * unitX + shiftXM,
            box[3] * unitY + shiftYM,
            metric,
            request.maxCells());
    notes.add("the raster is rotated; heights are interpolated (bilinear) to a north-up grid");
    GridPlan.noteIfFiner(notes, cellX, cellY, alongColM, alongRowM);
    return new GridPlan(
        spec,
        metric,
        false,
        0,
        0,
        (x, y, out) -> GridPlan.invert(grid, (x - shiftXM) / unitX, (y - shiftYM) / unitY, out),
        GridPlan.samples(cellX, alongColM),
        GridPlan.samples(cellY, alongRowM),
        notes);
  }

  private static boolean near(double asked, double sizeM) {
    return Math.abs(asked / sizeM - 1) < 1e-9;
  }
}
