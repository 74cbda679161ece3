package org.scarpway.geodata;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Vector;
import java.util.concurrent.atomic.AtomicLong;
import org.gdal.gdal.Band;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.gdal.osr.SpatialReference;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;
import org.scarpway.stage.UserError;

/**
 * Writes cloud-optimised GeoTIFF (OGC 21-026): DEFLATE with predictor, blocks of 512, overviews.
 * The bytes depend on the cells alone, not on time or threads.
 */
final class GdalCog {
  private static final int STRIP_CELLS = 1 << 20;
  private static final AtomicLong TRIALS = new AtomicLong();

  private GdalCog() {}

  /** Rows of a grid on their way into a band. */
  record Cells(int gdalType, Double nodata, String overviews, RowWriter rows) {

    /** Writes rows from {@code row} on into the band and returns GDAL's code. */
    interface RowWriter {
      int write(Band band, int row, int rows, int cols);
    }

    static Cells of(FloatGrid grid) {
      float[] strip = new float[stripCells(grid.spec())];
      return new Cells(
          gdalconstConstants.GDT_Float32,
          Double.NaN,
          "AVERAGE",
          (band, row, rows, cols) -> {
            System.arraycopy(grid.values(), row * cols, strip, 0, rows * cols);
            return band.WriteRaster(0, row, cols, rows, gdalconstConstants.GDT_Float32, strip);
          });
    }

    /** Overviews show the commonest class: averages of codes mean nothing. */
    static Cells of(ByteGrid grid) {
      byte[] strip = new byte[stripCells(grid.spec())];
      return new Cells(
          gdalconstConstants.GDT_Byte,
          0.0,
          "MODE",
          (band, row, rows, cols) -> {
            System.arraycopy(grid.values(), row * cols, strip, 0, rows * cols);
            return band.WriteRaster(0, row, cols, rows, gdalconstConstants.GDT_Byte, strip);
          });
    }

    static Cells of(IntGrid grid) {
      int[] strip = new int[stripCells(grid.spec())];
      return new Cells(
          gdalconstConstants.GDT_UInt32,
          null,
          "NEAREST",
          (band, row, rows, cols) -> {
            System.arraycopy(grid.values(), row * cols, strip, 0, rows * cols);
            return band.WriteRaster(0, row, cols, rows, gdalconstConstants.GDT_UInt32, strip);
          });
    }

    private static int stripCells(GridSpec spec) {
      return stripRows(spec) * spec.cols();
    }
  }

  private static int stripRows(GridSpec spec) {
    return Math.max(1, Math.min(spec.rows(), STRIP_CELLS / spec.cols()));
  }

  /** Writes the whole file at {@code part}. */
  static void write(Path part, GridSpec spec, Cells cells, BandInfo info) throws IOException {
    GdalRuntime.quiet();
    Dataset memory =
        gdal.GetDriverByName("MEM")
            .Create("", spec.cols(), spec.rows(), 1, cells.gdalType, new String[0]);
    if (memory == null) {
      throw new IOException(
          "no memory for " + spec.cells() + " cells (" + GdalRuntime.message() + ")");
    }
    try {
      place(memory, spec);
      Band band = memory.GetRasterBand(1);
      describe(band, cells, info);
      int stripRows = stripRows(spec);
      for (int row = 0; row < spec.rows(); row += stripRows) {
        int n = Math.min(stripRows, spec.rows() - row);
        require(cells.rows.write(band, row, n, spec.cols()));
      }
      copy(part.toString(), memory, cells.overviews);
    } finally {
      memory.delete();
    }
  }

  private static void copy(String name, Dataset memory, String overviews) throws IOException {
    // Level 1 halves the time to write measured ground and makes its files 2 % larger.
    Vector<String> options =
        GdalRuntime.words(
            List.of(
                "COMPRESS=DEFLATE",
                "LEVEL=1",
                "PREDICTOR=YES",
                "BLOCKSIZE=512",
                "OVERVIEWS=AUTO",
                "OVERVIEW_PREDICTOR=YES",
                "OVERVIEW_RESAMPLING=" + overviews,
                "BIGTIFF=IF_SAFER",
                "NUM_THREADS=ALL_CPUS"));
    gdal.ErrorReset();
    Dataset written = gdal.GetDriverByName("COG").CreateCopy(name, memory, 1, options);
    if (written == null) {
      throw new IOException(GdalRuntime.message());
    }
    // The last blocks reach the disk here; a full disk shows as a message only.
    written.delete();
    if (gdal.GetLastErrorType() >= gdalconstConstants.CE_Failure) {
      throw new IOException(GdalRuntime.message());
    }
  }

  private static void place(Dataset memory, GridSpec spec) throws IOException {
    require(
        memory.SetGeoTransform(
            new double[] {spec.westM(), spec.cellXM(), 0, spec.northM(), 0, -spec.cellYM()}));
    if (!spec.crsWkt().isEmpty()) {
      SpatialReference crs = GdalCrs.parse(spec.crsWkt());
      require(memory.SetSpatialRef(crs));
    }
  }

  private static void describe(Band band, Cells cells, BandInfo info) throws IOException {
    band.SetDescription(info.description());
    if (cells.nodata != null) {
      require(band.SetNoDataValue(cells.nodata));
    }
    require(band.SetUnitType(info.unit()));
    if (info.offset() != 0) {
      require(band.SetOffset(info.offset()));
      require(band.SetScale(1));
    }
    for (Map.Entry<String, String> tag : info.tags().entrySet()) {
      require(band.SetMetadataItem(tag.getKey(), tag.getValue()));
    }
  }

  private static void require(int rc) throws IOException {
    if (rc != gdalconstConstants.CE_None) {
      throw new IOException(GdalRuntime.message());
    }
  }

  /**
   * Proves on a file of one cell in memory that the system is still the same after it was written.
   */
  static void requireCrsSurvives(String wkt) {
    GdalRuntime.quiet();
    SpatialReference wanted = GdalCrs.parse(wkt);
    String name = "/vsimem/scarpway-crs-" + TRIALS.incrementAndGet() + ".tif";
    List<String> failures = new ArrayList<>();
    try {
      FloatGrid one = FloatGrid.empty(new GridSpec(1, 1, 1, 1, 0, 0, wkt));
      write(Path.of(name), one.spec(), Cells.of(one), BandInfo.of("", ""));
      Dataset back =
          gdal.OpenEx(name, gdalconstConstants.OF_RASTER, GdalRuntime.words(List.of("GTiff")));
      if (back == null) {
        failures.add(GdalRuntime.message());
      } else {
        try {
          SpatialReference got = back.GetSpatialRef();
          if (got == null || !GdalCrs.same(wanted, got)) {
            failures.add("read back as " + (got == null ? "none" : got.ExportToWkt()));
          }
        } finally {
          back.delete();
        }
      }
    } catch (IOException | IllegalArgumentException e) {
      failures.add(e.getMessage());
    } finally {
      gdal.Unlink(name);
    }
    if (!failures.isEmpty()) {
      throw UserError.of(
          "coordinate reference system",
          "GeoTIFF cannot hold it (" + failures.get(0) + ")",
          "a system that is read back as it was written",
          "reproject the elevation model, for example to polar stereographic or transverse Mercator");
    }
  }
}
