package org.scarpway.run.ground;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.product.ShownCells;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Memory;
import org.scarpway.stage.UserError;
import org.scarpway.terrain.DrawnHeights;
import org.scarpway.terrain.SlopeMonteCarlo;

/**
 * Divides the ground into strips of whole rows, which are processed one at a time: into one that
 * stays in memory, or, if it is larger than memory, into many.
 *
 * @param inMemory true for one strip whose results stay in memory
 * @param rows of every strip but the last
 * @param shownStep the report shows every shownStep-th cell in both directions
 */
public record Strips(GridSpec spec, boolean inMemory, int rows, int shownStep) {
  /**
   * Heap (bytes per cell) with which terrain, hazard and mobility finish in memory, as measured.
   */
  private static final double WHOLE_BYTES = 120;

  /** Heap (bytes per cell) with which reach or corridors finish in memory as well, as measured. */
  private static final double WHOLE_REACH_BYTES = 190;

  /**
   * Heap (bytes per cell) of reach and corridors while everything else is in scratch files: sets of
   * cells, necks, and the index of the pieces of the files.
   */
  private static final double REACH_BYTES = 4;

  /** Rasters (bytes per cell, not compressed) of a realisation: 9 of floats, 3 of codes. */
  private static final double REALISATION_BYTES = 9 * 4 + 3;

  /** Number of arrays of four bytes per cell that a strip of the most demanding stage holds. */
  private static final int STRIP_LAYERS = 24;

  /**
   * Number of rasters written concurrently, each with incomplete rows of tiles, if the job asks for
   * no more.
   */
  private static final int FILES = 11;

  private static final int TILE_ROWS = 256;
  private static final int FEWEST_ROWS = 16;

  /** Longest side (cells) of the rasters that a report is drawn from. */
  private static final int SHOWN = 2000;

  /** Heap (bytes per shown cell) for drawing a report, which may use at most half of the heap. */
  private static final double REPORT_BYTES = 120;

  /** Share of the heap that is planned for; the rest is for the program and for garbage. */
  private static final double USED = 0.8;

  /** Heap (bytes) of the program itself, which matters if the heap is small. */
  private static final double BASE_BYTES = StageNeeds.BASE_MB * 1048576.0;

  /**
   * Chooses the strips: one in memory if all ground fits the heap at once.
   *
   * @throws UserError if even strips do not fit
   */
  public static Strips choose(Job job, GridSpec spec, long heapBytes) {
    boolean reach = looksAtAll(job);
    double whole = (reach ? WHOLE_REACH_BYTES : WHOLE_BYTES) * spec.cells();
    double room = roomBytes((double) heapBytes);
    // The same estimate as in ResourceCheck, so that ground left undivided here is not refused
    // there.
    boolean held = HeapNeeds.mb(job, spec, stages(job)) <= heapBytes >> 20;
    if (whole <= USED * heapBytes && held) {
      return whole(spec);
    }
    if (reach && (2L * spec.rows() + 1) * (2L * spec.cols() + 1) > Integer.MAX_VALUE) {
      throw UserError.of(
          "reach and corridors",
          spec.rows() + " x " + spec.cols() + " cells",
          "at most 536 million cells",
          "set a coarser dem.cell_size_m or a smaller dem.window");
    }
    // Incomplete tiles need at most two rows of tiles per file, one if strips align with tiles.
    double tileRow = 4.0 * spec.cols() * TILE_ROWS * files(job);
    double perRow = 4.0 * spec.cols() * STRIP_LAYERS;
    double kept = reach ? REACH_BYTES * spec.cells() : 0;
    int rows = (int) ((room - kept - tileRow) / perRow);
    if (rows < TILE_ROWS) {
      rows = (int) ((room - kept - 2 * tileRow) / perRow);
    } else {
      rows -= rows % TILE_ROWS;
    }
    if (rows < FEWEST_ROWS) {
      throw refusal(spec, heapBytes, heapFor(kept + 2 * tileRow + FEWEST_ROWS * perRow));
    }
    double shown = Math.min(SHOWN, Math.sqrt(heapBytes / (2 * REPORT_BYTES)));
    int step = (int) Math.ceil(Math.max(spec.rows(), spec.cols()) / shown);
    return many(spec, Math.min(rows, spec.rows()), step);
  }

  /** One strip that stays in memory. */
  public static Strips whole(GridSpec spec) {
    return new Strips(spec, true, spec.rows(), 1);
  }

  /** Strips whose results later stages read from files. */
  public static Strips many(GridSpec spec, int rows, int shownStep) {
    return new Strips(spec, false, rows, shownStep);
  }

  /** Returns the part of a heap left beside the program and garbage. */
  private static double roomBytes(double heapBytes) {
    return Math.min(USED * heapBytes, heapBytes - BASE_BYTES);
  }

  private static double heapFor(double bytes) {
    return Math.max(bytes / USED, bytes + BASE_BYTES);
  }

  /** Returns the stages that hold results on all ground. */
  private static List<String> stages(Job job) {
    List<String> ids = new ArrayList<>(List.of("terrain", "hazard"));
    job.vehicles().forEach(v -> ids.add("mobility/" + v.name()));
    job.reach().forEach(r -> ids.add("reach/" + r.name()));
    job.corridors().forEach(c -> ids.add("corridor/" + c.name()));
    job.sorties().forEach(s -> ids.add("sortie/" + s.name()));
    if (job.sites() != null) {
      ids.add("sites");
    }
    return ids;
  }

  /** Number of rasters that the stage with the most of them writes. */
  private static int files(Job job) {
    return Math.max(FILES, job.terrain().also().size());
  }

  /** True if the job reads all ground in an order that cannot be foreseen. */
  public static boolean looksAtAll(Job job) {
    return !job.reach().isEmpty()
        || !job.corridors().isEmpty()
        || !job.sorties().isEmpty()
        || job.search() != null;
  }

  /** Returns the planned heap (MB) of a run in these strips. */
  public long heapMb(Job job, List<String> stages) {
    if (inMemory) {
      return HeapNeeds.mb(job, spec, stages);
    }
    double tileRow = 4.0 * spec.cols() * TILE_ROWS * files(job);
    double bytes =
        (rows % TILE_ROWS == 0 || rows == spec.rows() ? 1 : 2) * tileRow
            + 4.0 * spec.cols() * STRIP_LAYERS * rows;
    double kept = looksAtAll(job) ? REACH_BYTES * spec.cells() : 0;
    return StageNeeds.BASE_MB + (long) Math.ceil((kept + bytes) / (1 << 20));
  }

  /** Returns the bytes of scratch files that realisations of slopes take. */
  public double drawnSlopeBytes(Job job) {
    boolean drawn = job.terrain().monteCarlo() != null;
    return drawn ? ifStored(SlopeMonteCarlo.bytes(spec, job.dem().correlationLengthM())) : 0;
  }

  /** Returns the bytes of scratch files that realisations of the heights for sites take. */
  public double drawnHeightBytes(Job job) {
    return drawsSites(job) ? ifStored(DrawnHeights.bytes(spec, job.dem().correlationLengthM())) : 0;
  }

  /** True if sites are compared on realisations of the ground. */
  static boolean drawsSites(Job job) {
    return job.sites() != null && job.sites().monteCarlo() != null;
  }

  /** Returns the bytes, or 0 if they stay on the heap. */
  private double ifStored(double bytes) {
    return inMemory && !Memory.isLarge(bytes) ? 0 : bytes;
  }

  /**
   * Returns the upper bound (MB) on rasters of a realisation of the ground, which are in the output
   * folder until its sites are compared.
   */
  public long realisationMb(Job job) {
    return drawsSites(job) ? (long) Math.ceil(REALISATION_BYTES * spec.cells() / (1 << 20)) : 0;
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
        Digits.text(
            "set SCARPWAY_JAVA_OPTS=-Xmx%dm, or dem.cell_size_m to %s or more, or a dem.window of %s of"
                + " the sides",
            (long) Math.ceil(bytes / (1 << 20)), spec.cellM() * coarser, 1 / coarser));
  }

  GridSpec shownSpec() {
    return ShownCells.spec(spec, shownStep);
  }

  /** Returns the reader of the cells that a report shows. */
  public ShownCells shown() {
    return new ShownCells(spec, shownStep);
  }

  /** Processes rows {@code firstRow} (inclusive) to {@code firstRow + rows} (exclusive). */
  public interface StripTask {
    void on(int firstRow, int rows);
  }

  public void each(StripTask task) {
    for (int row = 0; row < spec.rows(); row += rows) {
      task.on(row, Math.min(rows, spec.rows() - row));
    }
  }

  /** Processes rows {@code fromRow} to {@code fromRow + rows}, with the halo rows around them. */
  public interface HaloTask {
    /**
     * @param top first row, halo included
     * @param end row after the last, halo included
     */
    void on(int top, int fromRow, int rows, int end);
  }

  /**
   * @param haloRows rows beyond a strip that its cells depend on, as far as the ground has them
   */
  public void each(int haloRows, HaloTask task) {
    each(
        (fromRow, rows) ->
            task.on(
                Math.max(0, fromRow - haloRows),
                fromRow,
                rows,
                Math.min(spec.rows(), fromRow + rows + haloRows)));
  }

  /** Returns what a reader must know of ground larger than memory, one line or none. */
  public List<String> notes() {
    return inMemory
        ? List.of()
        : List.of(
            String.format(
                java.util.Locale.ROOT,
                "Larger than memory: worked in strips of %d rows. Maps and areas of the report come"
                    + " from every %d. cell in both directions; rasters, polygons and tables hold"
                    + " all.",
                rows,
                shownStep));
  }
}
