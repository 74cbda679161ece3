package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.stage.Workers;

/**
 * Files of one stage that are written concurrently, since compressing takes longer than the disk.
 * Each file is a task of its own, so its bytes do not depend on the order.
 */
public final class FileBatch {
  private final RasterIo io;
  private final Workers workers;
  private final List<Runnable> tasks = new ArrayList<>();

  public FileBatch(RasterIo io, Workers workers) {
    this.io = io;
    this.workers = workers;
  }

  public void add(Path file, FloatGrid grid, BandInfo info) {
    tasks.add(() -> io.write(file, grid, info));
  }

  /** Writes everything added; throws the first failure. */
  public void write() {
    workers.all(tasks);
  }
}
