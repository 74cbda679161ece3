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

  private final HeightSource source;
  private final DemRequest request;
  private final MapCrs crs;
  private final Affine grid;
  private final SourceArea area;
  private final List<String> notes = new ArrayList<>();

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
    if (crs.isProjected()) {
      double stretch = MapScale.stretch(crs, area.box(), source.name());
      if (stretch > MOST_STRETCH || !crs.isPortable()) {
        notes.add(
            String.format(
                Locale.ROOT,
                "'%s' stretches the ground by up to %.1f %%; heights are carried over to a local"
                    + " transverse Mercator map",
                crs.name(),
                100 * stretch));
        return LocalMapPlan.plan(source, request, area, notes);
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
    double westM = (grid.x0() + c0 * grid.xCol()) * unit;
    double northM = (grid.y0() + r0 * grid.yRow()) * unit;
    MapCrs metric = crs.inMetres();
    Double asked = request.cellM();
    boolean same =
        asked == null || (Math.abs(asked / cellX - 1) < 1e-9 && Math.abs(asked / cellY - 1) < 1e-9);
    double newX = same ? cellX : asked;
    double newY = same ? cellY : asked;
    double rows = same ? r1 - r0 : Math.floor((r1 - r0) * cellY / newY + 1e-6);
    double cols = same ? c1 - c0 : Math.floor((c1 - c0) * cellX / newX + 1e-6);
    GridSpec spec =
        GridPlan.grid(
            source.name(), rows, cols, newX, newY, westM, northM, metric, request.maxCells());
    GridPlan.tellIfFiner(notes, newX, newY, cellX, cellY);
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
    double[] box = area.box();
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
    GridPlan.tellIfFiner(notes, cellX, cellY, alongColM, alongRowM);
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

  private static double square(double v) {
    return v * v;
  }
}
