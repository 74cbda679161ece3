package org.scarpway.run;

import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * How ground larger than memory is cut: whole rows, a strip at a time.
 *
 * @param rows of every strip but the last
 */
record Strips(GridSpec spec, int rows) {
  /** Bytes per cell with which terrain, hazard and mobility end in memory, as measured. */
  private static final double WHOLE_BYTES = 120;

  /** Arrays of four bytes per cell that a strip of the hungriest stage holds. */
  private static final int STRIP_LAYERS = 24;

  /** Rasters that are written at the same time, each with half-finished rows of tiles. */
  private static final int FILES = 11;

  private static final int TILE_ROWS = 256;
  private static final int FEWEST_ROWS = 16;

  /** Longest side of what a report is drawn from. */
  private static final int SHOWN = 2000;

  /** Share of the heap that is planned for; the rest is the program and what is being freed. */
  private static final double USED = 0.8;

  /**
   * Null where all ground fits the heap at once, and where the job asks for what only works on all
   * of it: {@link Fit} then says whether it may run.
   *
   * @throws UserError where even strips do not fit
   */
  static Strips choose(Job job, GridSpec spec, long heapBytes) {
    double whole = WHOLE_BYTES * spec.cells();
    double room = USED * heapBytes;
    if (whole <= room || onlyInMemory(job)) {
      return null;
    }
    // Tiles in the making hold two rows of tiles for each file at most, one where strips match.
    double tileRow = 4.0 * spec.cols() * TILE_ROWS * FILES;
    double perRow = 4.0 * spec.cols() * STRIP_LAYERS;
    int rows = (int) ((room - tileRow) / perRow);
    if (rows < TILE_ROWS) {
      rows = (int) ((room - 2 * tileRow) / perRow);
    } else {
      rows -= rows % TILE_ROWS;
    }
    if (rows < FEWEST_ROWS) {
      throw refusal(spec, heapBytes, (2 * tileRow + FEWEST_ROWS * perRow) / USED);
    }
    return new Strips(spec, Math.min(rows, spec.rows()));
  }

  private static boolean onlyInMemory(Job job) {
    return !job.reach().isEmpty()
        || !job.corridors().isEmpty()
        || job.sites() != null
        || job.soils() != null
        || !job.terrain().also().isEmpty()
        || job.terrain().scaling()
        || job.terrain().monteCarlo() != null;
  }

  /** What a run in these strips takes, as planned for. */
  long heapMb() {
    double tileRow = 4.0 * spec.cols() * TILE_ROWS * FILES;
    double bytes =
        (rows % TILE_ROWS == 0 ? 1 : 2) * tileRow + 4.0 * spec.cols() * STRIP_LAYERS * rows;
    return (long) Math.ceil(bytes / (1 << 20));
  }

  private static UserError refusal(GridSpec spec, long heapBytes, double bytes) {
    double coarser = Math.sqrt(bytes / heapBytes);
    return UserError.of(
        "dem",
        String.format(
            java.util.Locale.ROOT,
            "%d x %d cells do not fit the heap of %d MB even in strips",
            spec.rows(),
            spec.cols(),
            heapBytes >> 20),
        "ground that fits",
        String.format(
            java.util.Locale.ROOT,
            "set SCARPWAY_JAVA_OPTS=-Xmx%dm, or dem.cell_size_m to %.3g or more, or a dem.window of %.3g of"
                + " the sides",
            (long) Math.ceil(bytes / (1 << 20)),
            spec.cellM() * coarser,
            1 / coarser));
  }

  /** Every how-manieth cell in both directions is shown by a report. */
  int shownStep() {
    return (Math.max(spec.rows(), spec.cols()) + SHOWN - 1) / SHOWN;
  }

  GridSpec shownSpec() {
    return ShownCells.spec(spec, shownStep());
  }

  /** Work on rows {@code firstRow} to {@code firstRow + rows}. */
  interface StripTask {
    void on(int firstRow, int rows);
  }

  void each(StripTask task) {
    for (int row = 0; row < spec.rows(); row += rows) {
      task.on(row, Math.min(rows, spec.rows() - row));
    }
  }

  String note() {
    return String.format(
        java.util.Locale.ROOT,
        "Larger than memory: worked in strips of %d rows. Maps and areas of the report come from"
            + " every %d. cell in both directions; rasters and tables hold all. No-go ground is not"
            + " outlined as polygons.",
        rows,
        shownStep());
  }
}
