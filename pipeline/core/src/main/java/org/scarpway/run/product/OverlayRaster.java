package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.Arrays;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.RedrawnMap;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * Resamples a raster of another quantity, such as rock coverage, to the cells of the elevation
 * model. Along each axis, all pixels with their centres in a cell count; if there is none, the
 * pixel that contains the centre of the cell. NaN if any of these pixels has no data or lies off
 * the raster.
 */
public final class OverlayRaster {
  /** Rule that combines the pixels of one cell. Neither method is called with NaN. */
  public interface Rule {
    /** Returns the value of one pixel, NaN for none. */
    float one(float pixel);

    /** Combines two values; must not depend on their order, and of two equal ones gives that. */
    float both(float some, float other);
  }

  private static final int MOST_ROWS = 256;
  private static final int MOST_PIXELS = 1 << 22;
  private static final int BLOCK = 128;

  private final GridSpec spec;
  private final RasterIo io;
  private final RasterHeader header;
  private final Rule rule;

  /**
   * Transformation from the map of the ground to the raster's own map, which may have another scale
   * or unit; null where the two maps differ by more.
   */
  private final double[] redrawn;

  /** Where each cell lies on the raster; null where {@code redrawn} tells. */
  private final WarpedCells warped;

  private OverlayRaster(
      GridSpec spec,
      RasterIo io,
      RasterHeader header,
      Rule rule,
      double[] redrawn,
      WarpedCells warped) {
    this.redrawn = redrawn;
    this.warped = warped;
    this.spec = spec;
    this.io = io;
    this.header = header;
    this.rule = rule;
  }

  /**
   * @param frame tells the elevation model's own system
   * @throws UserError for a raster in another system than that and the map of the ground
   */
  public static OverlayRaster open(
      GridSpec spec, PlaceFrame frame, Path file, RasterIo io, Rule rule) {
    RasterHeader h = io.header(file);
    MapCrs own = CrsText.read(h.crsWkt());
    double[] redrawn = h.transform().rotated() ? null : redrawn(CrsText.read(spec.crsWkt()), own);
    WarpedCells warped = redrawn == null ? WarpedCells.of(spec, frame, h) : null;
    if (redrawn == null && warped == null) {
      MapCrs dem = frame.raster();
      String code = dem.authority().isEmpty() ? "" : " (" + dem.authority() + ")";
      throw UserError.of(
          file.toString(),
          "its reference system '" + own.name() + "' is not that of the elevation model",
          "a raster in the system of dem.source, '" + dem.name() + "'" + code,
          "reproject it to that system");
    }
    return new OverlayRaster(spec, io, h, rule, redrawn, warped);
  }

  /** As {@link RedrawnMap#between}, to a map in any unit. */
  private static double[] redrawn(MapCrs ground, MapCrs own) {
    if (own.isGeographic()) {
      return null;
    }
    double[] metres = RedrawnMap.between(ground, own.inMetres());
    double unit = own.metresPerUnit();
    return metres == null || unit == 1
        ? metres
        : Arrays.stream(metres).map(m -> m / unit).toArray();
  }

  /** Receives pixels one by one, by their row and column in the file. */
  public interface OnPixel {
    void take(float value, int row, int col);
  }

  /** Visits, row by row, every pixel of the file that any cell of the whole grid may use. */
  public void eachPixel(OnPixel use) {
    int[] all = warped == null ? null : warped.extent();
    int[] down = all == null ? down(0, spec.rows()) : Arrays.copyOfRange(all, 0, 2);
    int[] across = all == null ? across(0, spec.cols()) : Arrays.copyOfRange(all, 2, 4);
    int[] rows = extent(down, header.rows());
    int[] cols = extent(across, header.cols());
    int width = cols[1] - cols[0];
    if (width <= 0) {
      return;
    }
    int most = Math.max(1, Math.min(MOST_ROWS, MOST_PIXELS / width));
    for (int top = rows[0]; top < rows[1]; top += most) {
      int count = Math.min(most, rows[1] - top);
      float[] strip = new float[count * width];
      io.read(header, top, cols[0], count, width, 0, strip);
      for (int i = 0; i < strip.length; i++) {
        use.take(strip[i], top + i / width, cols[0] + i % width);
      }
    }
  }

  /** Returns the first pixel of all and the one past the last, clipped to the raster. */
  private static int[] extent(int[] fromTo, int size) {
    int first = Arrays.stream(fromTo).min().orElse(0);
    int end = Arrays.stream(fromTo).max().orElse(0);
    return new int[] {Math.max(0, first), Math.min(size, end)};
  }

  /** Returns the values on some rows of the grid. */
  public FloatGrid rows(int firstRow, int rows) {
    return window(firstRow, 0, rows, spec.cols());
  }

  /** Returns the values on a window of the grid. */
  public FloatGrid window(int firstRow, int firstCol, int rows, int cols) {
    GridSpec part = spec.part(firstRow, firstCol, rows, cols);
    float[] out = new float[part.cells()];
    if (warped != null) {
      for (int r = 0; r < rows; r += BLOCK) {
        for (int c = 0; c < cols; c += BLOCK) {
          int height = Math.min(BLOCK, rows - r);
          int width = Math.min(BLOCK, cols - c);
          warped(firstRow + r, firstCol + c, height, width, out, r * cols + c, /* wide= */ cols);
        }
      }
      return new FloatGrid(part, out);
    }
    int[] down = down(firstRow, rows);
    int[] across = across(firstCol, cols);
    int west = header.cols();
    int east = 0;
    for (int i = 0; i < across.length; i += 2) {
      if (across[i] >= 0 && across[i + 1] <= header.cols()) {
        west = Math.min(west, across[i]);
        east = Math.max(east, across[i + 1]);
      }
    }
    float[] line = new float[Math.max(0, east - west)];
    int loaded = -1;
    for (int row = 0; row < rows; row++) {
      int at = row * cols;
      int from = down[2 * row];
      int to = down[2 * row + 1];
      if (from < 0 || to > header.rows() || line.length == 0) {
        Arrays.fill(out, at, at + cols, Float.NaN);
        continue;
      }
      for (int r = from; r < to; r++) {
        if (r != loaded) {
          io.read(header, r, west, 1, line.length, 0, line);
          loaded = r;
        }
        add(line, west, across, r == from, out, at);
      }
    }
    return new FloatGrid(part, out);
  }

  /** Fills a block of cells of a window; its first cell goes to index {@code at}. */
  private void warped(int row, int col, int rows, int cols, float[] out, int at, int wide) {
    int[] boxes = warped.boxes(row, col, rows, cols);
    int[] all = {header.rows(), 0, header.cols(), 0};
    for (int i = 0; i < boxes.length; i += 4) {
      if (holds(boxes, i)) {
        for (int k = 0; k < 4; k += 2) {
          all[k] = Math.min(all[k], boxes[i + k]);
          all[k + 1] = Math.max(all[k + 1], boxes[i + k + 1]);
        }
      }
    }
    int height = Math.max(0, all[1] - all[0]);
    int width = Math.max(0, all[3] - all[2]);
    if ((long) height * width > MOST_PIXELS && rows * cols > 1) {
      int upper = rows >= cols ? rows / 2 : rows;
      int left = rows >= cols ? cols : cols / 2;
      warped(row, col, upper, left, out, at, wide);
      if (upper < rows) {
        warped(row + upper, col, rows - upper, cols, out, at + upper * wide, wide);
      } else {
        warped(row, col + left, rows, cols - left, out, at + left, wide);
      }
      return;
    }
    float[] pixels = new float[height * width];
    if (pixels.length > 0) {
      io.read(header, all[0], all[2], height, width, 0, pixels);
    }
    for (int i = 0; i < rows * cols; i++) {
      float value = Float.NaN;
      if (holds(boxes, 4 * i)) {
        int first = (boxes[4 * i] - all[0]) * width + boxes[4 * i + 2] - all[2];
        value = one(pixels[first]);
        for (int r = boxes[4 * i]; r < boxes[4 * i + 1]; r++) {
          for (int c = boxes[4 * i + 2]; c < boxes[4 * i + 3]; c++) {
            value = both(value, one(pixels[(r - all[0]) * width + c - all[2]]));
          }
        }
      }
      out[at + i / cols * wide + i % cols] = value;
    }
  }

  private boolean holds(int[] boxes, int i) {
    return boxes[i] >= 0
        && boxes[i + 1] <= header.rows()
        && boxes[i + 2] >= 0
        && boxes[i + 3] <= header.cols();
  }

  /**
   * Adds one row of pixels, of which {@code line} begins at column {@code west}, to a row of cells.
   */
  private void add(float[] line, int west, int[] across, boolean first, float[] out, int at) {
    for (int col = 0; 2 * col < across.length; col++) {
      int from = across[2 * col];
      int to = across[2 * col + 1];
      if (from < 0 || to > header.cols()) {
        out[at + col] = Float.NaN;
        continue;
      }
      float all = first ? one(line[from - west]) : both(out[at + col], one(line[from - west]));
      for (int c = from + 1; c < to; c++) {
        all = both(all, one(line[c - west]));
      }
      out[at + col] = all;
    }
  }

  private float one(float pixel) {
    return Float.isNaN(pixel) ? pixel : rule.one(pixel);
  }

  private float both(float some, float other) {
    return Float.isNaN(some) || Float.isNaN(other) ? Float.NaN : rule.both(some, other);
  }

  private int[] down(int first, int rows) {
    RasterHeader.Affine t = header.transform();
    double pixel = t.yRow();
    double start = (redrawn[2] * spec.northM() + redrawn[3] - t.y0()) / pixel;
    return pixels(first, rows, start, -redrawn[2] * spec.cellYM() / pixel);
  }

  private int[] across(int first, int cols) {
    RasterHeader.Affine t = header.transform();
    double pixel = t.xCol();
    double start = (redrawn[0] * spec.westM() + redrawn[1] - t.x0()) / pixel;
    return pixels(first, cols, start, redrawn[0] * spec.cellXM() / pixel);
  }

  /**
   * Returns the first pixel of each cell along an axis and the one past its last, which may lie off
   * the raster. Adjacent cells share their edges, so that no pixel between them is lost.
   *
   * @param start position of the outer edge of cell 0, in pixels
   * @param step cell size, in pixels
   */
  private static int[] pixels(int first, int cells, double start, double step) {
    int[] fromTo = new int[2 * cells];
    for (int i = 0; i < cells; i++) {
      double edge = start + (first + i) * step;
      double next = start + (first + i + 1) * step;
      int from = (int) Math.ceil(Math.min(edge, next) - 0.5);
      int to = (int) Math.ceil(Math.max(edge, next) - 0.5);
      if (from >= to) {
        from = (int) Math.floor(start + (first + i + 0.5) * step);
        to = from + 1;
      }
      fromTo[2 * i] = from;
      fromTo[2 * i + 1] = to;
    }
    return fromTo;
  }
}
