package org.scarpway.geodata.raster;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.osr.SpatialReference;

/**
 * Makes raster files with GDAL itself, so that what is read was not written by the code under test.
 */
public final class GdalFixture {
  public static final String MOON_SOUTH =
      "PROJCS[\"Moon south\",GEOGCS[\"Moon\",DATUM[\"D_Moon\",SPHEROID[\"Moon\",1737400,0]],"
          + "PRIMEM[\"Reference_Meridian\",0],UNIT[\"degree\",0.0174532925199433]],"
          + "PROJECTION[\"Polar_Stereographic\"],PARAMETER[\"latitude_of_origin\",-90],"
          + "PARAMETER[\"central_meridian\",0],PARAMETER[\"scale_factor\",1],"
          + "PARAMETER[\"false_easting\",0],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";

  private GdalFixture() {}

  /** A grid of one band placed at (1000, 2000) with cells of 5 m. */
  static Path create(
      Path file,
      int type,
      int cols,
      double[] cells,
      List<String> options,
      Consumer<Dataset> dress) {
    GdalRuntime.require();
    GdalRuntime.quiet();
    int rows = cells.length / cols;
    Dataset d =
        gdal.GetDriverByName("GTiff")
            .Create(file.toString(), cols, rows, 1, type, GdalRuntime.words(options));
    assertNotNull(d, GdalRuntime::message);
    try {
      d.SetGeoTransform(new double[] {1000, 5, 0, 2000, 0, -5});
      d.SetSpatialRef(srs(MOON_SOUTH));
      dress.accept(d);
      assertEquals(0, d.GetRasterBand(1).WriteRaster(0, 0, cols, rows, cells.clone()));
    } finally {
      d.delete();
    }
    return file;
  }

  static SpatialReference srs(String text) {
    SpatialReference s = new SpatialReference();
    assertEquals(0, s.SetFromUserInput(text));
    return s;
  }

  /** Opens a file with GDAL alone. */
  public static <T> T look(Path file, java.util.function.Function<Dataset, T> at) {
    GdalRuntime.require();
    GdalRuntime.quiet();
    Dataset d = gdal.Open(file.toString());
    assertNotNull(d, GdalRuntime::message);
    try {
      return at.apply(d);
    } finally {
      d.delete();
    }
  }
}
