package org.scarpway.dem;

import java.util.List;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * An elevation model that is read on demand: whole, row by row, or in a window around a point. A
 * cell has the same height whichever way it is read, because resampling depends on the source only
 * and a gap that may be filled ends within {@link DemRequest#maxFillCells} of the cell.
 */
public final class DemRows implements HeightRows {
  private static final int SURVEY_CELLS = 4_000_000;
  private static final int STRIP_CELLS = 1 << 22;

  private final DemRequest request;
  private final HeightSource source;
  private final GridPlan plan;
  private final HeightSurvey survey;
  private final Workers workers;
  private DemReader.Findings findings;
  private FloatGrid shown;

  private DemRows(
      DemRequest request,
      HeightSource source,
      GridPlan plan,
      HeightSurvey survey,
      Workers workers) {
    this.request = request;
    this.source = source;
    this.plan = plan;
    this.survey = survey;
    this.workers = workers;
  }

  /**
   * Opens the files; reads headers and a sample of rows.
   *
   * @throws org.scarpway.stage.UserError for input that cannot give a true map, in one line
   */
  public static DemRows open(DemRequest request, RasterIo io, Workers workers) {
    HeightSource source = DemReader.open(request, io);
    GridPlan plan = DemReader.plan(source, request);
    HeightSurvey survey = HeightSurvey.of(source, SURVEY_CELLS);
    return new DemRows(request, source, plan, survey, workers);
  }

  @Override
  public GridSpec spec() {
    return plan.target();
  }

  /** Datum (m) that was subtracted from the heights, see {@link DemReader}. */
  public double datumM() {
    return survey.datumM();
  }

  /** Body that carries the ground. */
  public Body body() {
    return request.body();
  }

  /**
   * Reads the whole model into memory.
   *
   * @throws org.scarpway.stage.UserError if no cell holds a height, or if a void is not allowed
   */
  public Dem whole(Progress progress) {
    GridSpec spec = spec();
    float[] heights = new float[spec.cells()];
    progress.begin("reading heights", spec.cells());
    for (int row = 0; row < spec.rows(); row += stripRows()) {
      int n = Math.min(stripRows(), spec.rows() - row);
      asRead(row, 0, n, spec.cols(), heights, row * spec.cols());
      progress.advance((long) n * spec.cols());
    }
    progress.end();
    HeightTally tally = new HeightTally(spec);
    tally.asRead(heights, 0, heights.length, 0);
    FloatGrid grid = new FloatGrid(spec, heights);
    if (fills() && tally.voids() > 0) {
      grid = GapFill.fill(grid, request.maxFillCells(), workers);
    }
    tally.settled(grid.values(), 0, heights.length);
    findings = DemReader.conclude(source, plan, survey, request, tally);
    return new Dem(grid, datumM(), body(), findings.warnings());
  }

  /**
   * Reads all rows once and keeps only every {@code step}th cell.
   *
   * @param shownSpec the grid of every {@code step}th cell, each centred on a cell of the full grid
   * @return those heights, with the facts about the input that a reviewer must know
   * @throws org.scarpway.stage.UserError as {@link #whole} does
   */
  public Dem spread(GridSpec shownSpec, int step, Progress progress) {
    if (shown == null) {
      shown = FloatGrid.empty(shownSpec);
      checkRows(step, progress);
    }
    return new Dem(shown, datumM(), body(), findings.warnings());
  }

  /**
   * Reads and checks all rows once without keeping them.
   *
   * @return facts about the input that a reviewer must know, one line each
   * @throws org.scarpway.stage.UserError as {@link #whole} does
   */
  public List<String> check(Progress progress) {
    if (findings == null) {
      checkRows(0, progress);
    }
    return findings.warnings();
  }

  private void checkRows(int step, Progress progress) {
    GridSpec spec = spec();
    HeightTally tally = new HeightTally(spec);
    float[] strip = new float[stripRows() * spec.cols()];
    progress.begin("reading heights", spec.cells());
    for (int row = 0; row < spec.rows(); row += stripRows()) {
      int n = Math.min(stripRows(), spec.rows() - row);
      window(row, 0, n, spec.cols(), strip, tally);
      if (step > 0) {
        keep(strip, row, n, step);
      }
      progress.advance((long) n * spec.cols());
    }
    progress.end();
    findings = DemReader.conclude(source, plan, survey, request, tally);
  }

  private void keep(float[] strip, int firstRow, int rows, int step) {
    GridSpec to = shown.spec();
    for (int r = 0; r < to.rows(); r++) {
      int row = r * step + step / 2 - firstRow;
      if (row >= 0 && row < rows) {
        for (int c = 0; c < to.cols(); c++) {
          shown.values()[r * to.cols() + c] = strip[row * spec().cols() + c * step + step / 2];
        }
      }
    }
  }

  @Override
  public double lowestM() {
    check(Progress.NONE);
    return findings.leastM();
  }

  @Override
  public double highestM() {
    check(Progress.NONE);
    return findings.mostM();
  }

  @Override
  public void read(int firstRow, int rows, float[] out) {
    window(firstRow, 0, rows, spec().cols(), out, null);
  }

  /**
   * Reads the square window of cells within {@code radiusM} of a point along both axes. A stage
   * evaluated on it gives the same values at the point as on the whole grid if its windows are
   * smaller than that.
   */
  public Dem around(double xM, double yM, double radiusM) {
    GridSpec spec = spec();
    int row = spec.rowOf(yM);
    int col = spec.colOf(xM);
    int reachRows = (int) Math.ceil(radiusM / spec.cellYM());
    int reachCols = (int) Math.ceil(radiusM / spec.cellXM());
    int top = Math.max(0, row - reachRows);
    int left = Math.max(0, col - reachCols);
    int rows = Math.min(spec.rows(), row + reachRows + 1) - top;
    int cols = Math.min(spec.cols(), col + reachCols + 1) - left;
    float[] part = new float[rows * cols];
    window(top, left, rows, cols, part, null);
    return new Dem(
        new FloatGrid(spec.part(top, left, rows, cols), part), datumM(), body(), List.of());
  }

  private boolean fills() {
    return request.voids() == VoidRule.FILL;
  }

  private int stripRows() {
    return Math.max(1, Math.min(spec().rows(), STRIP_CELLS / spec().cols()));
  }

  private void window(
      int firstRow, int firstCol, int rows, int cols, float[] out, HeightTally tally) {
    long at = (long) firstRow * spec().cols();
    int pad = fills() ? request.maxFillCells() : 0;
    if (pad == 0) {
      asRead(firstRow, firstCol, rows, cols, out, 0);
      if (tally != null) {
        tally.asRead(out, 0, rows * cols, at);
        tally.settled(out, 0, rows * cols);
      }
      return;
    }
    int top = Math.max(0, firstRow - pad);
    int left = Math.max(0, firstCol - pad);
    int padRows = Math.min(spec().rows(), firstRow + rows + pad) - top;
    int padCols = Math.min(spec().cols(), firstCol + cols + pad) - left;
    float[] padded = new float[padRows * padCols];
    asRead(top, left, padRows, padCols, padded, 0);
    if (tally != null) {
      // Only full rows are counted in the tally; their padding is above and below them.
      tally.asRead(padded, (firstRow - top) * cols, rows * cols, at);
    }
    GridSpec part = spec().part(top, left, padRows, padCols);
    float[] filled = GapFill.fill(new FloatGrid(part, padded), pad, workers).values();
    for (int r = 0; r < rows; r++) {
      int from = (firstRow - top + r) * padCols + firstCol - left;
      System.arraycopy(filled, from, out, r * cols, cols);
    }
    if (tally != null) {
      tally.settled(out, 0, rows * cols);
    }
  }

  /** Reads a window of heights before gaps are filled. */
  private void asRead(int firstRow, int firstCol, int rows, int cols, float[] out, int at) {
    if (!plan.copy()) {
      Resampler.fill(source, plan, datumM(), workers, firstRow, firstCol, rows, cols, out, at);
      return;
    }
    if (at == 0) {
      source.read(
          plan.firstRow() + firstRow, plan.firstCol() + firstCol, rows, cols, datumM(), out);
      return;
    }
    float[] strip = new float[rows * cols];
    source.read(
        plan.firstRow() + firstRow, plan.firstCol() + firstCol, rows, cols, datumM(), strip);
    System.arraycopy(strip, 0, out, at, strip.length);
  }
}
