package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.tiff.RasterSink;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;

/**
 * Writes the rasters of a stage concurrently, since compressing takes longer than the disk. Each
 * file is a task of its own, so its bytes depend neither on the number of threads nor on how many
 * rows are appended at a time.
 *
 * @param <S> the stage's result, whole or a strip of it
 */
public final class ProductFiles<S> implements AutoCloseable {
  private final Path dir;
  private final GridSpec spec;
  private final Workers workers;
  private final List<Open<S, ?>> open = new ArrayList<>();
  private final List<Runnable> others = new ArrayList<>();

  private record Open<S, A>(RasterProduct<S, A> product, RasterSink<A> sink, Range range) {
    void append(S result, int at, int rows, int cols) {
      A cells = product.cells().apply(result);
      sink.append(cells, at, rows);
      if (cells instanceof float[] amounts) {
        range.add(amounts, at, rows * cols);
      }
    }
  }

  /** The least and the largest finite value of a raster. */
  private static final class Range {
    private float least = Float.POSITIVE_INFINITY;
    private float most = Float.NEGATIVE_INFINITY;

    void add(float[] values, int at, int n) {
      for (int i = at; i < at + n; i++) {
        float v = values[i];
        if (Float.isFinite(v)) {
          least = Math.min(least, v);
          most = Math.max(most, v);
        }
      }
    }
  }

  public ProductFiles(
      Path dir, GridSpec spec, List<RasterProduct<S, ?>> products, RasterIo io, Workers workers) {
    this.dir = dir;
    this.spec = spec;
    this.workers = workers;
    boolean all = false;
    try {
      products.forEach(p -> open.add(open(dir, spec, p, io)));
      all = true;
    } finally {
      if (!all) {
        close();
      }
    }
  }

  private static <S, A> Open<S, A> open(
      Path dir, GridSpec spec, RasterProduct<S, A> product, RasterIo io) {
    Path file = dir.resolve(product.file());
    return new Open<>(product, io.sink(file, spec, product.kind(), product.info()), new Range());
  }

  /** Adds a file other than a raster, written with the next rows. */
  public void with(Runnable writing) {
    others.add(writing);
  }

  /** Writes all rows at once. */
  public void whole(S result) {
    append(result, 0, spec.rows());
    finish();
  }

  /** Appends the rows of a strip, whose first {@code skipRows} rows are halo and are skipped. */
  public void append(S strip, int skipRows, int rows) {
    List<Runnable> tasks = new ArrayList<>(others);
    others.clear();
    open.forEach(o -> tasks.add(() -> o.append(strip, skipRows * spec.cols(), rows, spec.cols())));
    workers.all(tasks);
  }

  public void finish() {
    List<Runnable> tasks = new ArrayList<>();
    open.forEach(o -> tasks.add(o.sink()::finish));
    workers.all(tasks);
    for (Open<S, ?> o : open) {
      RasterStyle.write(
          dir, o.product().name(), o.product().info(), o.range().least, o.range().most);
    }
  }

  @Override
  public void close() {
    open.forEach(o -> o.sink().close());
  }
}
