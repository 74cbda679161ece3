package org.scarpway.geodata.raster;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osr;
import org.gdal.osr.osrConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.geodata.crs.WktTree;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** A system written by either path is the same one to GDAL's own reading, point by point. */
class RasterCrsTest {
  @TempDir Path dir;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "+proj=stere +lat_0=-90 +lon_0=0 +k=1 +R=1737400 +units=m",
        "+proj=stere +lat_0=90 +lon_0=45 +k=0.97 +R=1737400 +units=m",
        "+proj=stere +lat_0=-90 +lat_ts=-71 +lon_0=10 +a=3396190 +b=3376200 +units=m",
        "+proj=stere +lat_0=40 +lon_0=20 +k=1 +R=1737400 +units=m",
        "+proj=sterea +lat_0=40 +lon_0=20 +k=0.9 +a=6378137 +rf=298.257223563 +units=m",
        "+proj=tmerc +lat_0=-85 +lon_0=20 +k=1 +R=1737400 +units=m",
        "+proj=tmerc +lat_0=0 +lon_0=-81 +k=0.9996 +x_0=500000 +y_0=1e7 +ellps=WGS84 +units=m",
        "+proj=eqc +lat_ts=10 +lon_0=20 +R=3396190 +units=m",
        "+proj=merc +lon_0=20 +lat_ts=30 +R=1737400 +units=m",
        "+proj=merc +lon_0=20 +k=0.9 +R=1737400 +units=m",
        "+proj=lcc +lat_1=40 +lat_2=50 +lat_0=45 +lon_0=20 +x_0=3 +ellps=GRS80 +units=m",
        "+proj=lcc +lat_1=40 +lat_0=40 +lon_0=20 +k_0=.99 +R=1737400 +units=m",
        "+proj=aea +lat_1=40 +lat_2=50 +lat_0=45 +lon_0=20 +R=1737400 +units=m",
        "+proj=laea +lat_0=45 +lon_0=20 +R=1737400 +units=m",
        "+proj=aeqd +lat_0=45 +lon_0=20 +R=1737400 +units=m",
        "+proj=sinu +lon_0=20 +R=3396190 +units=m",
        "IAU_2015:30135",
        "IAU_2015:49930",
        "EPSG:32717"
      })
  void survivesBothPaths(String user) {
    GdalRuntime.require();
    SpatialReference wanted = GdalFixture.srs(user);
    String wkt = GdalCrs.of(Path.of("given"), wanted).wkt();
    GridSpec spec = new GridSpec(2, 3, 1, 1, 100, 200, wkt);
    for (RasterIo writer : RasterIoTest.both()) {
      writer.requireWritable(spec);
      Path file = dir.resolve("crs.tif");
      writer.write(file, FloatGrid.empty(spec), BandInfo.of("", "m"));
      for (RasterIo reader : RasterIoTest.both()) {
        SpatialReference got = GdalCrs.parse(reader.header(file).crsWkt());
        String pair = writer.name() + " to " + reader.name() + ": " + reader.header(file).crsWkt();
        assertSamePoints(GdalCrs.parse(wkt), got, pair);
        assertEquals(wanted.GetSemiMajor(), got.GetSemiMajor(), pair);
        assertEquals(wanted.GetSemiMinor(), got.GetSemiMinor(), 1e-6, pair);
      }
      SpatialReference stored = GdalFixture.look(file, d -> d.GetSpatialRef().Clone());
      assertTrue(GdalCrs.same(wanted, stored), writer.name() + " wrote another system");
    }
  }

  /** Map points back to longitude and latitude by either system: the same to a micrometre. */
  private static void assertSamePoints(SpatialReference a, SpatialReference b, String what) {
    a.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    b.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    var fromA = osr.CreateCoordinateTransformation(a, a.CloneGeogCS());
    var fromB = osr.CreateCoordinateTransformation(b, b.CloneGeogCS());
    for (double[] xy : new double[][] {{1000, 2000}, {-30_000, 45_000}, {120_000, -90_000}}) {
      double[] p = fromA.TransformPoint(xy[0], xy[1]);
      double[] q = fromB.TransformPoint(xy[0], xy[1]);
      assertEquals(p[0], q[0], 1e-12 * 180 / Math.PI, what);
      assertEquals(p[1], q[1], 1e-12 * 180 / Math.PI, what);
    }
  }

  @Test
  void whatDoesNotSurviveIsRefusedBeforeWorkBegins() {
    GdalRuntime.require();
    String both =
        "PROJCS[\"x\",GEOGCS[\"g\",DATUM[\"d\",SPHEROID[\"s\",1737400,0]],PRIMEM[\"p\",0],"
            + "UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Polar_Stereographic\"],"
            + "PARAMETER[\"latitude_of_origin\",-71],PARAMETER[\"scale_factor\",0.9],"
            + "UNIT[\"metre\",1]]";
    String pseudo = GdalCrs.of(Path.of("given"), GdalFixture.srs("EPSG:3857")).wkt();
    String feet = GdalCrs.of(Path.of("given"), GdalFixture.srs("EPSG:2225")).wkt();
    for (String wkt : new String[] {both, pseudo, feet, "PROJCS[\"x\"]", "no text", "GEOGCS["}) {
      GridSpec spec = new GridSpec(1, 1, 1, 1, 0, 0, wkt);
      RasterIoTest.assertRefused(
          () -> RasterIos.pureJava().requireWritable(spec), "coordinate reference system");
    }
    for (String wkt : new String[] {"PROJCS[\"x\"]", "no text", "GEOGCS["}) {
      GridSpec spec = new GridSpec(1, 1, 1, 1, 0, 0, wkt);
      RasterIoTest.assertRefused(
          () -> RasterIos.gdal().requireWritable(spec), "coordinate reference system");
    }
  }

  @Test
  void treeReadsWritesAndBoundsItsText() {
    String text = "PROJCS[\"a \"\"b\"\"\",UNIT[\"m\",1.50,AXIS[\"x\",EAST]],AXIS[\"y\",NORTH]]";
    assertEquals(text, WktTree.parse(text.replace(",", " , ").replace("[", " [")).toString());
    assertEquals(
        "PROJCS[\"a \"\"b\"\"\",UNIT[\"m\",1.50]]", WktTree.parse(text).without("AXIS").toString());
    assertEquals(1.5, WktTree.parse(text).first("UNIT").number(1));
    for (String bad : new String[] {"", "A", "A[", "A[\"x]", "A[1]]", "A[,]", "A(1]", "A[B[]]"}) {
      assertThrows(IllegalArgumentException.class, () -> WktTree.parse(bad), bad);
    }
    assertThrows(IllegalArgumentException.class, () -> WktTree.parse("A[".repeat(2000)));
    assertThrows(IllegalArgumentException.class, () -> WktTree.parse("A".repeat(70_000) + "[1]"));
    assertThrows(
        UserError.class,
        () -> RasterIos.gdal().requireWritable(new GridSpec(1, 1, 1, 1, 0, 0, "A[".repeat(2000))));
  }
}
