package org.scarpway.geodata.raster;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.gdal.gdal.Band;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.scarpway.geodata.file.BrokenRaster;
import org.scarpway.geodata.file.RasterFiles;
import org.scarpway.geodata.tiff.GeoKeyCrs;
import org.scarpway.geodata.tiff.GeoKeys;
import org.scarpway.geodata.tiff.TiffDirectory;
import org.scarpway.stage.UserError;

/**
 * Owns one GDAL dataset. Dataset and band never leave this class: a band used after its dataset is
 * closed crashes the whole process, so every use goes through {@link #dataset()}, which refuses
 * after {@link #close()}.
 */
final class GdalFile implements OpenRaster {
  private static final List<String> DATA_TYPES =
      List.of("Byte", "UInt16", "Int16", "UInt32", "Int32", "Float32", "Float64");

  private final Path file;
  private final RasterHeader header;
  private final boolean masked;
  private Dataset dataset;
  private byte[] mask = new byte[0];

  private GdalFile(Path file, Dataset dataset) {
    this.file = file;
    this.dataset = dataset;
    requirePartnersBeside();
    if (dataset.GetRasterCount() < 1) {
      throw BrokenRaster.of(file, "holds no raster band", "name a file with heights");
    }
    Band band = dataset.GetRasterBand(1);
    RasterFiles.requireBlock(
        file,
        band.GetBlockXSize(),
        band.GetBlockYSize(),
        gdal.GetDataTypeSize(band.getDataType()) / 8);
    this.header = readHeader(band);
    UncompressedSizeCheck.requireAll(
        header, partners(), gdal.GetDataTypeSize(band.getDataType()) / 8);
    int flags = band.GetMaskFlags();
    this.masked = (flags & (gdalconstConstants.GMF_ALL_VALID | gdalconstConstants.GMF_NODATA)) == 0;
  }

  static GdalFile open(Path file) {
    GdalRuntime.quiet();
    requireNativeName(file);
    RasterFiles.requireSelfContained(file);
    if (TiffDirectory.isTiff(file)) {
      TiffDirectory.read(file).requireWhole();
    } else {
      RasterFiles.requireNoRedirect(file);
    }
    Dataset dataset =
        gdal.OpenEx(
            file.toString(),
            gdalconstConstants.OF_RASTER
                | gdalconstConstants.OF_READONLY
                | gdalconstConstants.OF_VERBOSE_ERROR,
            GdalRuntime.words(GdalRuntime.READ_DRIVERS));
    if (dataset == null) {
      throw UserError.of(
          file.toString(),
          "is no raster that can be read ("
              + GdalRuntime.message().replace(file.toString(), "it")
              + ")",
          "one of the formats " + String.join(", ", GdalRuntime.READ_DRIVERS),
          "convert it to GeoTIFF");
    }
    boolean sound = false;
    try {
      GdalFile opened = new GdalFile(file, dataset);
      sound = true;
      return opened;
    } finally {
      if (!sound) {
        dataset.delete();
      }
    }
  }

  /**
   * Refuses file names with characters beyond the first 65536: Java passes them to native code in
   * an encoding that does not match the name on disk.
   */
  private static void requireNativeName(Path file) {
    if (file.toString().chars().anyMatch(c -> Character.isSurrogate((char) c))) {
      throw UserError.of(
          file.toString(),
          "a name with a character that the raster library cannot be handed",
          "letters, digits and other characters up to U+FFFF in names of files and folders",
          "rename it, or read GeoTIFF and ASCII grids with SCARPWAY_RASTER=java");
    }
  }

  @Override
  public RasterHeader header() {
    return header;
  }

  @Override
  public void readStored(int firstRow, int firstCol, int rows, int cols, double[] out) {
    GdalRuntime.quiet();
    Band band = dataset().GetRasterBand(1);
    int rc = band.ReadRaster(firstCol, firstRow, cols, rows, out);
    if (rc == gdalconstConstants.CE_None && masked) {
      int n = rows * cols;
      if (mask.length < n) {
        mask = new byte[n];
      }
      rc = band.GetMaskBand().ReadRaster(firstCol, firstRow, cols, rows, mask);
      for (int i = 0; i < n && rc == gdalconstConstants.CE_None; i++) {
        if (mask[i] == 0) {
          out[i] = Double.NaN;
        }
      }
    }
    if (rc != gdalconstConstants.CE_None) {
      throw BrokenRaster.of(
          file,
          "cells of rows "
              + firstRow
              + " to "
              + (firstRow + rows - 1)
              + " cannot be read ("
              + GdalRuntime.message().replace(file.toString(), "it")
              + ")",
          "fetch the file again, it may be truncated");
    }
  }

  @Override
  public void close() {
    if (dataset != null) {
      dataset.delete();
      dataset = null;
    }
  }

  private Dataset dataset() {
    if (dataset == null) {
      throw new IllegalStateException(file + " was closed");
    }
    return dataset;
  }

  private List<Path> partners() {
    List<Path> list = new ArrayList<>();
    for (Object partner : dataset.GetFileList()) {
      list.add(Path.of(partner.toString()).toAbsolutePath().normalize());
    }
    return list;
  }

  private void requirePartnersBeside() {
    for (Path p : partners()) {
      if (!file.getParent().equals(p.getParent())) {
        throw BrokenRaster.of(
            file, "takes cells from " + p, "keep both in one folder or convert it to GeoTIFF");
      }
    }
  }

  private RasterHeader readHeader(Band band) {
    String dataType = gdal.GetDataTypeName(band.getDataType());
    if ("SIGNEDBYTE".equals(band.GetMetadataItem("PIXELTYPE", "IMAGE_STRUCTURE"))) {
      dataType = "Int8";
    }
    if (!DATA_TYPES.contains(dataType)) {
      throw UserError.of(
          file.toString(),
          "band 1 holds " + dataType,
          "one of " + String.join(", ", DATA_TYPES),
          "convert it, for example to Float32");
    }
    double[] t = dataset.GetGeoTransform();
    requirePosition(t);
    GdalCrs crs = GdalCrs.of(file, dataset.GetSpatialRef());
    requireKnown(crs);
    double scale = valueOr(1, band::GetScale);
    double offset = valueOr(0, band::GetOffset);
    RasterPlace.requireScale(file, scale, offset);
    String unit = band.GetUnitType();
    String format = dataset.GetDriver().getShortName();
    PdsLabel.Placed placed = new PdsLabel.Placed(affine(t), "");
    if (format.equals("PDS")) {
      placed =
          PdsLabel.read(file)
              .place(
                  placed.transform(),
                  dataset.getRasterYSize(),
                  dataset.getRasterXSize(),
                  crs.wkt());
    }
    return new RasterHeader(
        file,
        format,
        dataset.getRasterYSize(),
        dataset.getRasterXSize(),
        dataset.GetRasterCount(),
        placed.transform(),
        crs.wkt(),
        dataType,
        value(band::GetNoDataValue),
        scale,
        offset,
        unit == null || unit.isBlank() ? crs.verticalUnit() : unit.strip(),
        placed.note());
  }

  /** Refuses a CRS that GDAL does not know and replaces by an unnamed plane in metres. */
  private void requireKnown(GdalCrs crs) {
    if (!TiffDirectory.isTiff(file) || !(crs.wkt().isEmpty() || crs.wkt().startsWith("LOCAL_CS"))) {
      return;
    }
    String claim = GeoKeyCrs.claim(GeoKeys.of(TiffDirectory.read(file)));
    if (!claim.isEmpty()) {
      throw UserError.of(
          file.toString(),
          "its coordinate reference system is not known (" + claim + ")",
          "a system of the EPSG register, or one spelled out",
          "assign the right one to the file, for example with gdal_edit -a_srs");
    }
  }

  private void requirePosition(double[] t) {
    // GDAL returns the identity if a file has no georeference.
    boolean none = t[0] == 0 && t[1] == 1 && t[2] == 0 && t[3] == 0 && t[4] == 0 && t[5] == 1;
    if (none) {
      boolean points = dataset.GetGCPCount() > 0;
      throw RasterPlace.missing(file, points);
    }
    RasterPlace.requireCells(file, t[1], t[2], t[4], t[5]);
  }

  /** Some drivers return -0 for an absent term. */
  private static RasterHeader.Affine affine(double[] t) {
    return new RasterHeader.Affine(
        t[0] + 0.0, t[1] + 0.0, t[2] + 0.0, t[3] + 0.0, t[4] + 0.0, t[5] + 0.0);
  }

  private interface Getter {
    void get(Double[] into);
  }

  private static Double value(Getter getter) {
    Double[] v = new Double[1];
    getter.get(v);
    return v[0];
  }

  private static double valueOr(double otherwise, Getter getter) {
    Double v = value(getter);
    return v == null ? otherwise : v;
  }
}
