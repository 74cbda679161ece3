package org.scarpway.run.unit;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.IntPredicate;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;

/**
 * A stage that answers one question of the job; its rasters are written strip by strip.
 *
 * @param <R> the result
 */
abstract class QuestionTask<R> implements StageTask<R> {
  /** A solved question, which returns the result for a range of rows. */
  interface Answer<R> {
    R rows(int firstRow, int rows);

    /** Told when all products are in the folder. */
    default void written(Path dir) {}
  }

  final OpenJob job;
  private final String id;

  QuestionTask(OpenJob job, String id) {
    this.job = job;
    this.id = id;
  }

  /**
   * Solves the question.
   *
   * @param dir where finished rasters may be put; the others are then written
   */
  abstract Answer<R> solve(Path dir);

  abstract List<RasterProduct<R, ?>> rasters();

  /** Number of areas that are outlined. */
  abstract int areas();

  /** Tells which cells of some rows, by their index within these, belong to an area. */
  abstract IntPredicate inArea(int area, R rows);

  /**
   * Writes the outlines.
   *
   * @param areas the cells of each, of all rows
   */
  abstract void writePolygons(Path dir, R result, List<CellSet> areas);

  /** Writes the products that are the same for any rows of the result. */
  abstract void writeRest(Path dir, R result);

  @Override
  public final String id() {
    return id;
  }

  @Override
  public final boolean isQuestion() {
    return true;
  }

  @Override
  public final long cells() {
    return job.spec().cells();
  }

  @Override
  public final void make(Path dir) {
    Answer<R> answer = solve(dir);
    List<RasterProduct<R, ?>> missing =
        rasters().stream().filter(p -> !Files.exists(dir.resolve(p.file()))).toList();
    List<CellSet> areas = CellSet.some(areas(), job.spec(), job.workers().memory());
    try (ProductFiles<R> files = job.stages().files(dir, job.spec(), missing)) {
      job.strips()
          .each(
              (firstRow, rows) -> {
                R strip = answer.rows(firstRow, rows);
                for (int k = 0; k < areas.size(); k++) {
                  areas.get(k).add(firstRow, rows, inArea(k, strip));
                }
                if (firstRow + rows == job.spec().rows()) {
                  files.with(() -> writePolygons(dir, strip, areas));
                }
                files.append(strip, 0, rows);
              });
      files.finish();
    }
    writeRest(dir, answer.rows(0, 1));
    answer.written(dir);
    job.workers().memory().freeScratch();
  }
}
