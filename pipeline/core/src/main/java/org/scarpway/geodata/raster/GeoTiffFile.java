package org.scarpway.geodata.raster;

import java.awt.Rectangle;
import java.awt.image.Raster;
import java.awt.image.RenderedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.stream.Stream;
import javax.xml.stream.XMLStreamException;
import org.geotools.api.parameter.GeneralParameterValue;
import org.geotools.api.parameter.ParameterValue;
import org.geotools.coverage.grid.GridCoverage2D;
import org.geotools.coverage.grid.io.AbstractGridFormat;
import org.geotools.gce.geotiff.GeoTiffReader;
import org.geotools.referencing.crs.DefaultEngineeringCRS;
import org.geotools.util.factory.Hints;
import org.scarpway.geodata.file.BrokenRaster;
import org.scarpway.geodata.tiff.GeoKeyCrs;
import org.scarpway.geodata.tiff.GeoKeys;
import org.scarpway.geodata.tiff.TiffDirectory;
import org.scarpway.geodata.tiff.TiffMetadata;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/**
 * A GeoTIFF read as a coverage by GeoTools. Its metadata (CRS, scale, offset, nodata) are read from
 * the TIFF tags, because the library drops or changes some of them.
 */
final class GeoTiffFile implements OpenRaster {
  private static final Set<Long> COMPRESSIONS = Set.of(1L, 5L, 8L, 32773L, 32946L, 50000L);
  private static final Set<String> DATA_TYPES =
      Set.of("Byte", "UInt16", "Int16", "UInt32", "Int32", "Float32", "Float64");

  /**
   * Loggers silenced because the libraries also throw what they log. Referenced strongly, because a
   * collected logger loses its level.
   */
  private static final List<Logger> SILENT =
      Stream.of("org.geotools", "javax.media", "com.sun.media", "it.geosolutions")
          .map(Logger::getLogger)
          .toList();

  static {
    SILENT.forEach(logger -> logger.setLevel(Level.OFF));
  }

  private final Path file;
  private final RasterHeader header;
  private final boolean unsigned;
  private final GeoTiffReader reader;
  private final GridCoverage2D coverage;

  private GeoTiffFile(
      Path file, RasterHeader header, GeoTiffReader reader, GridCoverage2D coverage) {
    this.file = file;
    this.header = header;
    this.unsigned = header.dataType().equals("UInt32");
    this.reader = reader;
    this.coverage = coverage;
  }

  static GeoTiffFile open(Path file) {
    TiffDirectory tiff = TiffDirectory.read(file);
    tiff.requireWhole();
    RasterHeader header = headerOf(file, tiff);
    try {
      // The CRS is known from the keys; the library need not determine it.
      GeoTiffReader reader =
          new GeoTiffReader(
              file.toFile(),
              new Hints(
                  Hints.DEFAULT_COORDINATE_REFERENCE_SYSTEM, DefaultEngineeringCRS.GENERIC_2D));
      ParameterValue<Boolean> rescale = AbstractGridFormat.RESCALE_PIXELS.createValue();
      rescale.setValue(false);
      return new GeoTiffFile(
          file, header, reader, reader.read(new GeneralParameterValue[] {rescale}));
    } catch (IOException | RuntimeException e) {
      throw damaged(file, e);
    }
  }

  private static RasterHeader headerOf(Path file, TiffDirectory tiff) {
    if (!COMPRESSIONS.contains(tiff.number(TiffDirectory.COMPRESSION, 1))) {
      throw needsGdal(file, "compression " + tiff.number(TiffDirectory.COMPRESSION, 1));
    }
    if (tiff.number(TiffDirectory.BITS, 0) == 64 && tiff.number(TiffDirectory.PREDICTOR, 1) == 2) {
      throw needsGdal(file, "predictor 2 on 64-bit cells");
    }
    if (!DATA_TYPES.contains(tiff.dataType())) {
      throw UserError.of(
          file.toString(),
          "band 1 holds " + tiff.dataType(),
          "one of Byte, UInt16, Int16, UInt32, Int32, Float32, Float64",
          "convert it, for example to Float32");
    }
    if (tiff.masked()
        || tiff.number(TiffDirectory.EXTRA_SAMPLES, 0) != 0
        || file.resolveSibling(file.getFileName() + ".msk").toFile().exists()) {
      throw needsGdal(file, "a mask band");
    }
    GeoKeys keys = GeoKeys.of(tiff);
    Map<String, String> roles;
    String crs;
    try {
      roles = TiffMetadata.roles(tiff.text(TiffDirectory.METADATA));
      crs = GeoKeyCrs.wkt(keys);
    } catch (XMLStreamException e) {
      throw damaged(file, e);
    } catch (IllegalArgumentException e) {
      throw needsGdal(file, "a coordinate reference system (" + e.getMessage() + ")");
    }
    double scale = number(file, roles.getOrDefault("scale", "1"));
    double offset = number(file, roles.getOrDefault("offset", "0"));
    RasterPlace.requireScale(file, scale, offset);
    return new RasterHeader(
        file,
        "GTiff",
        tiff.rows(),
        tiff.cols(),
        tiff.bands(),
        place(file, tiff, keys.cellCentres()),
        crs,
        tiff.dataType(),
        nodata(file, tiff),
        scale,
        offset,
        roles.getOrDefault("unittype", keys.verticalUnit()).strip());
  }

  private static RasterHeader.Affine place(Path file, TiffDirectory tiff, boolean centres) {
    double[] scale = tiff.doubles(TiffDirectory.PIXEL_SCALE);
    double[] tie = tiff.doubles(TiffDirectory.TIE_POINTS);
    double[] m = tiff.doubles(TiffDirectory.MATRIX);
    double shift = centres ? 0.5 : 0;
    RasterHeader.Affine t;
    if (scale.length >= 2 && scale[0] != 0 && scale[1] != 0 && tie.length >= 6) {
      // A negative y scale is read as north-up too, as other readers do.
      double dy = -Math.abs(scale[1]);
      t =
          new RasterHeader.Affine(
              tie[3] - tie[0] * scale[0], scale[0], 0, tie[4] - tie[1] * dy, 0, dy);
    } else if (m.length == 16) {
      t = new RasterHeader.Affine(m[3], m[0], m[1], m[7], m[4], m[5]);
    } else {
      throw RasterPlace.missing(file, tie.length > 6);
    }
    t =
        new RasterHeader.Affine(
            t.x0() - shift * (t.xCol() + t.xRow()),
            t.xCol(),
            t.xRow(),
            t.y0() - shift * (t.yCol() + t.yRow()),
            t.yCol(),
            t.yRow());
    RasterPlace.requireCells(file, t.xCol(), t.xRow(), t.yCol(), t.yRow());
    return t;
  }

  private static Double nodata(Path file, TiffDirectory tiff) {
    String text = tiff.text(TiffDirectory.NODATA).strip();
    return text.isEmpty() ? null : (Double) number(file, text);
  }

  private static double number(Path file, String text) {
    String s = text.strip();
    if (s.equalsIgnoreCase("nan") || s.equalsIgnoreCase("-nan")) {
      return Double.NaN;
    }
    if (s.equalsIgnoreCase("inf") || s.equalsIgnoreCase("-inf")) {
      return s.startsWith("-") ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
    }
    try {
      return Double.parseDouble(s);
    } catch (NumberFormatException e) {
      throw BrokenRaster.of(file, "'" + s + "' where a number is due", "correct its tags");
    }
  }

  @Override
  public RasterHeader header() {
    return header;
  }

  @Override
  public void readStored(int firstRow, int firstCol, int rows, int cols, double[] out) {
    try {
      RenderedImage image = coverage.getRenderedImage();
      Rectangle window =
          new Rectangle(image.getMinX() + firstCol, image.getMinY() + firstRow, cols, rows);
      Raster cells = image.getData(window);
      cells.getSamples(window.x, window.y, cols, rows, 0, out);
    } catch (RuntimeException e) {
      throw damaged(file, e);
    }
    if (unsigned) {
      for (int i = 0; i < rows * cols; i++) {
        out[i] = out[i] < 0 ? out[i] + 0x1p32 : out[i];
      }
    }
  }

  @Override
  public void close() {
    coverage.dispose(true);
    reader.dispose();
  }

  private static UserError needsGdal(Path file, String what) {
    return UserError.of(
        file.toString(),
        "has " + what + " that the pure Java path does not read",
        "a plain GeoTIFF",
        "install GDAL: " + GdalRuntime.INSTALL);
  }

  private static UserError damaged(Path file, Exception e) {
    // The reader wraps each exception under a class name. Only an IOException concerns the file;
    // others are internal errors of the reader, which tell a user nothing.
    Throwable cause = e;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    boolean tells = cause instanceof IOException && cause.getMessage() != null;
    return BrokenRaster.of(
        file,
        "cannot be read" + (tells ? " (" + Reason.of(cause) + ")" : ""),
        "fetch the file again, it may be damaged");
  }
}
