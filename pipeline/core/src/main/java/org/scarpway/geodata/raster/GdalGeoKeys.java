package org.scarpway.geodata.raster;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.gdal.osr.SpatialReference;
import org.scarpway.geodata.tiff.GeoKeys;
import org.scarpway.geodata.tiff.TiffDirectory;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/**
 * The GeoTIFF keys that GDAL writes for a coordinate reference system, extracted from a file of one
 * cell after checking that it reads back as the same CRS.
 */
final class GdalGeoKeys {
  private GdalGeoKeys() {}

  static GeoKeys.Tags of(String wkt) {
    GdalRuntime.quiet();
    SpatialReference wanted = GdalCrs.parse(wkt);
    Path trial = null;
    try {
      trial = Files.createTempFile("scarpway-crs", ".tif");
      write(trial, wanted);
      String failure = difference(trial, wanted);
      if (!failure.isEmpty()) {
        throw UserError.of(
            "coordinate reference system",
            "GeoTIFF cannot hold it (" + failure + ")",
            "a system that is read back as it was written",
            "reproject the elevation model, for example to polar stereographic or transverse"
                + " Mercator");
      }
      return GeoKeys.Tags.of(TiffDirectory.read(trial));
    } catch (IOException e) {
      throw new StageFailure("no temporary file can be written: " + Reason.of(e), e);
    } finally {
      remove(trial);
    }
  }

  private static void write(Path trial, SpatialReference crs) throws IOException {
    Dataset one =
        gdal.GetDriverByName("GTiff")
            .Create(trial.toString(), 1, 1, 1, gdalconstConstants.GDT_Byte, new String[0]);
    if (one == null) {
      throw new IOException(GdalRuntime.message());
    }
    try {
      if (one.SetGeoTransform(new double[] {0, 1, 0, 0, 0, -1}) != gdalconstConstants.CE_None
          || one.SetSpatialRef(crs) != gdalconstConstants.CE_None) {
        throw new IOException(GdalRuntime.message());
      }
    } finally {
      one.delete();
    }
  }

  private static String difference(Path trial, SpatialReference wanted) {
    Dataset back =
        gdal.OpenEx(
            trial.toString(), gdalconstConstants.OF_RASTER, GdalRuntime.words(List.of("GTiff")));
    if (back == null) {
      return GdalRuntime.message();
    }
    try {
      SpatialReference got = back.GetSpatialRef();
      boolean same = got != null && GdalCrs.same(wanted, got);
      return same ? "" : "read back as " + (got == null ? "none" : got.ExportToWkt());
    } catch (IllegalArgumentException e) {
      return e.getMessage();
    } finally {
      back.delete();
    }
  }

  private static void remove(Path trial) {
    try {
      if (trial != null) {
        Files.deleteIfExists(trial);
      }
    } catch (IOException e) {
      trial.toFile().deleteOnExit();
    }
  }
}
