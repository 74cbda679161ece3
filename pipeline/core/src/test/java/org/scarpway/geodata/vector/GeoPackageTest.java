package org.scarpway.geodata.vector;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import mil.nga.geopackage.GeoPackageManager;
import org.gdal.gdal.gdal;
import org.gdal.ogr.DataSource;
import org.gdal.ogr.Layer;
import org.gdal.ogr.ogr;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osrConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.WKTReader;
import org.scarpway.geodata.vector.PolygonFile.Placement;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

class GeoPackageTest {
  static final String MOON_SOUTH =
      "PROJCS[\"Moon south polar\",GEOGCS[\"Moon\",DATUM[\"Moon\","
          + "SPHEROID[\"Moon\",1737400,0]],PRIMEM[\"Reference_Meridian\",0],"
          + "UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Polar_Stereographic\"],"
          + "PARAMETER[\"latitude_of_origin\",-90],PARAMETER[\"central_meridian\",0],"
          + "PARAMETER[\"scale_factor\",1],PARAMETER[\"false_easting\",0],"
          + "PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";

  @TempDir Path dir;

  private static Geometry wkt(String text) throws Exception {
    return new WKTReader().read(text);
  }

  private Path sample() throws Exception {
    Path file = dir.resolve("a # b?%20.gpkg");
    Map<String, Object> attributes = new TreeMap<>(Map.of("area_m2", 12.5, "band", "1h", "n", 3));
    GeoPackage.write(
        file,
        MOON_SOUTH,
        "Moon south polar",
        List.of(
            new LayerData(
                "bands",
                "MULTIPOLYGON",
                List.of(
                    new Feature(
                        wkt("MULTIPOLYGON (((0 0, 9 0, 9 9, 0 9, 0 0), (1 1, 1 2, 2 2, 1 1)))"),
                        attributes),
                    new Feature(wkt("MULTIPOLYGON EMPTY"), Map.of("area_m2", Double.NaN)))),
            new LayerData(
                "lines",
                "LINESTRING",
                List.of(new Feature(wkt("LINESTRING (1 2, 3 4)"), Map.of("ü \"q\"", "ß"))))));
    return file;
  }

  @Test
  void isASoundDatabaseByTheStandard() throws Exception {
    try (Connection db = GeoPackage.open(sample(), "ro");
        Statement s = db.createStatement()) {
      assertEquals("ok", one(s, "PRAGMA integrity_check"));
      assertFalse(s.executeQuery("PRAGMA foreign_key_check").next());
      assertEquals(String.valueOf(0x47504B47), one(s, "PRAGMA application_id"));
      assertEquals("10300", one(s, "PRAGMA user_version"));
      assertEquals(
          "-1,0,4326,100000",
          one(
              s,
              "SELECT group_concat(srs_id) FROM (SELECT srs_id FROM gpkg_spatial_ref_sys"
                  + " ORDER BY srs_id)"));
      assertEquals("9.0", one(s, "SELECT max_x FROM gpkg_contents WHERE table_name='bands'"));
      assertEquals(
          "2000-01-01T00:00:00.000Z", one(s, "SELECT DISTINCT last_change FROM gpkg_contents"));
      assertEquals("real", one(s, "SELECT typeof(area_m2) FROM bands WHERE fid=1"));
      assertEquals("null", one(s, "SELECT typeof(area_m2) FROM bands WHERE fid=2"));
    }
  }

  private static String one(Statement s, String sql) throws Exception {
    try (ResultSet r = s.executeQuery(sql)) {
      assertTrue(r.next(), sql);
      return r.getString(1);
    }
  }

  @Test
  void sameLayersSameBytes() throws Exception {
    byte[] first = Files.readAllBytes(sample());
    Thread.sleep(5);
    assertArrayEquals(first, Files.readAllBytes(sample()));
    try (var files = Files.list(dir)) {
      assertEquals(1, files.count(), "no side files stay");
    }
  }

  @Test
  void gdalReadsLayersCrsCountsAndGeometry() throws Exception {
    Path file = sample();
    Set<String> before = drivers();
    gdal.AllRegister();
    try {
      DataSource data = ogr.Open(file.toString(), 0);
      assertEquals(2, data.GetLayerCount());
      Layer bands = data.GetLayerByName("bands");
      assertEquals(2, bands.GetFeatureCount());
      double[] xy = project(bands.GetSpatialRef(), 45, -85);
      assertEquals(107277.3225, xy[0], 1e-3);
      assertEquals(107277.3225, xy[1], 1e-3);
      org.gdal.ogr.Feature f = bands.GetNextFeature();
      assertEquals(80.5, f.GetGeometryRef().GetArea(), 1e-12);
      assertEquals(12.5, f.GetFieldAsDouble("area_m2"));
      assertEquals("1h", f.GetFieldAsString("band"));
      f.delete();
      org.gdal.ogr.Feature line = data.GetLayerByName("lines").GetNextFeature();
      assertEquals("ß", line.GetFieldAsString("ü \"q\""));
      line.delete();
      data.delete();
    } finally {
      for (String name : drivers()) {
        if (!before.contains(name)) {
          gdal.GetDriverByName(name).Deregister();
        }
      }
    }
  }

  private static double[] project(SpatialReference map, double lonDeg, double latDeg) {
    SpatialReference degrees = map.CloneGeogCS();
    degrees.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    map.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    return CoordinateTransformation.CreateCoordinateTransformation(degrees, map)
        .TransformPoint(lonDeg, latDeg);
  }

  private static Set<String> drivers() {
    TreeSet<String> names = new TreeSet<>();
    for (int i = 0; i < gdal.GetDriverCount(); i++) {
      names.add(gdal.GetDriver(i).getShortName());
    }
    return names;
  }

  @Test
  void aSecondLibraryReadsIt() throws Exception {
    try (var gp = GeoPackageManager.open(sample().toFile())) {
      assertEquals(List.of("bands", "lines"), gp.getFeatureTables());
      var features = gp.getFeatureDao("bands");
      assertEquals(2, features.count());
      assertEquals(100_000, features.getSrs().getSrsId());
      var rows = features.queryForAll();
      assertTrue(rows.moveToNext());
      assertEquals(9.0, rows.getRow().getGeometryEnvelope().getMaxX());
      rows.close();
    }
  }

  @Test
  void readsItsOwnPolygonsBack() throws Exception {
    Path file = dir.resolve("keep.gpkg");
    Geometry p = wkt("POLYGON ((0 0, 9 0, 9 9, 0 9, 0 0))");
    LayerData layer = new LayerData("keep_out", "POLYGON", List.of(new Feature(p, Map.of())));
    GeoPackage.write(file, MOON_SOUTH, "Moon", List.of(layer));
    PolygonFile back = PolygonReader.read(file);
    assertEquals(List.of(p), back.polygons());
    assertEquals(Placement.FILE_CRS, back.placement());
    assertEquals(MOON_SOUTH, back.crsWkt());
    GeoPackage.write(file, "", "", List.of(layer));
    assertEquals(Placement.DEM_CRS, PolygonReader.read(file).placement());
    GeoPackage.write(file, "GEOGCS[\"x\",AUTHORITY[\"EPSG\",\"4326\"]]", "x", List.of(layer));
    assertEquals(Placement.LON_LAT, PolygonReader.read(file).placement());
  }

  @Test
  void refusesOtherGeometry() throws Exception {
    UserError e = assertThrows(UserError.class, () -> PolygonReader.read(sample()));
    assertTrue(e.getMessage().contains("table lines, feature 1"), e.getMessage());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "DROP TABLE gpkg_geometry_columns",
        "DELETE FROM gpkg_geometry_columns",
        "DROP TABLE gpkg_spatial_ref_sys",
        "UPDATE gpkg_geometry_columns SET column_name='nope'",
        "UPDATE gpkg_geometry_columns SET srs_id=77",
        "UPDATE keep_out SET geom=x'4750'",
        "UPDATE keep_out SET geom='text'",
        "UPDATE keep_out SET geom=zeroblob(100)",
        // A ring of 2^31-1 points in a few bytes.
        "UPDATE keep_out SET geom=x'47500001000000000103000000010000" + "00ffffff7f'",
        "ALTER TABLE keep_out RENAME TO real; CREATE VIEW keep_out AS WITH RECURSIVE n(geom) AS"
            + " (SELECT 1 UNION ALL SELECT geom+1 FROM n) SELECT geom FROM n",
      })
  void oneClearLineForBrokenFiles(String damage) throws Exception {
    Path file = dir.resolve("keep.gpkg");
    Geometry p = wkt("POLYGON ((0 0, 9 0, 9 9, 0 9, 0 0))");
    LayerData layer = new LayerData("keep_out", "POLYGON", List.of(new Feature(p, Map.of())));
    GeoPackage.write(file, MOON_SOUTH, "Moon", List.of(layer));
    try (Connection db = GeoPackage.open(file, "rw");
        Statement s = db.createStatement()) {
      for (String sql : damage.split("; ")) {
        s.execute(sql);
      }
    }
    UserError e = assertThrows(UserError.class, () -> PolygonReader.read(file));
    assertEquals(1, e.getMessage().lines().count(), e.getMessage());
    assertTrue(e.getMessage().startsWith(file.toString()), e.getMessage());
  }

  @Test
  void damagedBytesNeverEscapeAsAnythingElse() throws Exception {
    Path file = dir.resolve("keep.gpkg");
    Geometry p = wkt("POLYGON ((0 0, 9 0, 9 9, 0 9, 0 0))");
    LayerData layer = new LayerData("keep_out", "POLYGON", List.of(new Feature(p, Map.of())));
    GeoPackage.write(file, MOON_SOUTH, "Moon", List.of(layer));
    byte[] sound = Files.readAllBytes(file);
    Random random = new Random(5);
    for (int round = 0; round < 200; round++) {
      byte[] bytes =
          round % 4 == 0 ? Arrays.copyOf(sound, 1 + random.nextInt(sound.length)) : sound.clone();
      for (int i = 0; i < 20; i++) {
        bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
      }
      Files.write(file, bytes);
      try {
        PolygonReader.read(file);
      } catch (UserError e) {
        assertEquals(1, e.getMessage().lines().count(), e.getMessage());
      }
    }
  }

  @Test
  void anUnwritablePlaceIsAStageFailure() throws Exception {
    Path notADir = Files.writeString(dir.resolve("file"), "x");
    assertThrows(
        StageFailure.class, () -> GeoPackage.write(notADir.resolve("x.gpkg"), "", "", List.of()));
  }
}
