package org.scarpway.dem;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterSink;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;

/** Rasters in memory, stored in double so that the subtraction of a datum can be seen. */
final class FakeRasters implements RasterIo {
  private final Map<Path, RasterHeader> headers = new TreeMap<>();
  private final Map<Path, double[]> values = new TreeMap<>();

  /** Height at the centre of a cell of the stored raster. */
  @FunctionalInterface
  interface Height {
    double at(int row, int col);
  }

  Path add(String name, int rows, int cols, Affine t, String wkt, Height z) {
    return add(name, rows, cols, t, wkt, "Float32", "", z);
  }

  Path add(
      String name, int rows, int cols, Affine t, String wkt, String type, String unit, Height z) {
    Path file = Path.of(name);
    double[] v = new double[rows * cols];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        v[r * cols + c] = z.at(r, c);
      }
    }
    headers.put(
        file, new RasterHeader(file, "Fake", rows, cols, 1, t, wkt, type, null, 1, 0, unit));
    values.put(file, v);
    return file;
  }

  @Override
  public String name() {
    return "memory";
  }

  @Override
  public List<String> reduced() {
    return List.of();
  }

  @Override
  public RasterHeader header(Path file) {
    return headers.get(file);
  }

  @Override
  public void read(
      RasterHeader h,
      int firstRow,
      int firstCol,
      int rows,
      int cols,
      double subtract,
      float[] out) {
    if (firstRow < 0 || firstCol < 0 || firstRow + rows > h.rows() || firstCol + cols > h.cols()) {
      throw new IllegalArgumentException("window outside the raster");
    }
    double[] v = values.get(h.file());
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        out[r * cols + c] =
            (float)
                (v[(firstRow + r) * h.cols() + firstCol + c] * h.scale() + h.offset() - subtract);
      }
    }
  }

  @Override
  public FloatGrid readFloats(Path file) {
    throw new UnsupportedOperationException();
  }

  @Override
  public ByteGrid readBytes(Path file) {
    throw new UnsupportedOperationException();
  }

  @Override
  public IntGrid readInts(Path file) {
    throw new UnsupportedOperationException();
  }

  @Override
  public <A> RasterSink<A> sink(Path file, GridSpec spec, CellKind<A> kind, BandInfo info) {
    throw new UnsupportedOperationException();
  }

  @Override
  public void requireWritable(GridSpec spec) {
    throw new UnsupportedOperationException();
  }
}
