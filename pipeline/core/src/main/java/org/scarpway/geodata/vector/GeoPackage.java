package org.scarpway.geodata.vector;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Envelope;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.stage.StageFailure;
import org.sqlite.SQLiteJDBCLoader;

/**
 * Vector layers in an OGC GeoPackage 1.3 (OGC 12-128), an SQLite file with any CRS, planetary ones
 * included. The same layers give the same bytes: the date of last change is fixed.
 */
public final class GeoPackage {
  /** Largest size (bytes) of a file that is read. */
  public static final long MAX_BYTES = 512L << 20;

  /** srs_id for a CRS without an authority code: the first value outside the reserved ranges. */
  private static final int OWN_SRS_ID = 100_000;

  private static final String LAST_CHANGE = "2000-01-01T00:00:00.000Z";

  /** WKT 1 of WGS 84 as the standard requires it in row 4326. */
  private static final String WGS84 =
      "GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563,"
          + "AUTHORITY[\"EPSG\",\"7030\"]],AUTHORITY[\"EPSG\",\"6326\"]],PRIMEM[\"Greenwich\",0,"
          + "AUTHORITY[\"EPSG\",\"8901\"]],UNIT[\"degree\",0.0174532925199433,"
          + "AUTHORITY[\"EPSG\",\"9122\"]],AUTHORITY[\"EPSG\",\"4326\"]]";

  private static final String[] TABLES = {
    "CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY"
        + " KEY, organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL, definition"
        + " TEXT NOT NULL, description TEXT)",
    "CREATE TABLE gpkg_contents (table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL,"
        + " identifier TEXT UNIQUE, description TEXT DEFAULT '', last_change DATETIME NOT NULL"
        + " DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')), min_x DOUBLE, min_y DOUBLE, max_x"
        + " DOUBLE, max_y DOUBLE, srs_id INTEGER, CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id)"
        + " REFERENCES gpkg_spatial_ref_sys(srs_id))",
    "CREATE TABLE gpkg_geometry_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL,"
        + " geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m"
        + " TINYINT NOT NULL, CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),"
        + " CONSTRAINT uk_gc_table_name UNIQUE (table_name), CONSTRAINT fk_gc_tn FOREIGN KEY"
        + " (table_name) REFERENCES gpkg_contents(table_name), CONSTRAINT fk_gc_srs FOREIGN KEY"
        + " (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id))"
  };

  /** The AUTHORITY node at the end of a WKT 1 text. */
  private static final Pattern AUTHORITY =
      Pattern.compile("AUTHORITY\\[\"([A-Za-z0-9_]+)\",\"?(\\d{1,9})\"?\\]\\]\\s*$");

  private GeoPackage() {}

  /** A row of gpkg_spatial_ref_sys. */
  private record Srs(int id, String name, String organization, int code, String wkt) {
    static Srs of(String wkt, String name) {
      if (wkt.isEmpty()) {
        return new Srs(-1, "Undefined Cartesian", "NONE", -1, "undefined");
      }
      Matcher m = AUTHORITY.matcher(wkt);
      if (m.find()) {
        int code = Integer.parseInt(m.group(2));
        return new Srs(code, name, m.group(1), code, wkt);
      }
      return new Srs(OWN_SRS_ID, name, "NONE", OWN_SRS_ID, wkt);
    }
  }

  /**
   * Writes a file with the given layers atomically.
   *
   * @param crsWkt OGC WKT 1 of all coordinates; empty for local metres
   * @param crsName its display name
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static void write(Path file, String crsWkt, String crsName, List<LayerData> layers) {
    Srs srs = Srs.of(crsWkt, crsName);
    AtomicFileWrite.write(
        file,
        part -> {
          try (Connection db = open(part, "rwc")) {
            // The part is deleted if anything fails, so SQLite needs no journal.
            execute(db, "PRAGMA journal_mode=OFF", "PRAGMA synchronous=OFF");
            execute(db, "PRAGMA application_id=0x47504B47", "PRAGMA user_version=10300");
            db.setAutoCommit(false);
            execute(db, TABLES);
            insertSrs(db, new Srs(-1, "Undefined Cartesian", "NONE", -1, "undefined"));
            insertSrs(db, new Srs(0, "Undefined geographic", "NONE", 0, "undefined"));
            insertSrs(db, new Srs(4326, "WGS 84", "EPSG", 4326, WGS84));
            if (srs.id != -1 && srs.id != 0 && srs.id != 4326) {
              insertSrs(db, srs);
            }
            for (LayerData layer : layers) {
              insertLayer(db, layer, srs.id);
            }
            db.commit();
          } catch (SQLException e) {
            throw new IOException(e.getMessage(), e);
          }
        });
  }

  /**
   * @param mode ro, rw or rwc; a file opened ro is treated as immutable, so SQLite creates no side
   *     files
   */
  static Connection open(Path file, String mode) throws SQLException {
    requireLibrary();
    String uri = "file:" + file.toAbsolutePath().toUri().getRawPath();
    String how = mode.equals("ro") ? "?mode=ro&immutable=1" : "?mode=" + mode;
    return DriverManager.getConnection("jdbc:sqlite:" + uri + how);
  }

  /**
   * Checks that SQLite's native library, which is unpacked into the temporary folder at first use,
   * can be loaded.
   */
  private static void requireLibrary() {
    try {
      SQLiteJDBCLoader.initialize();
    } catch (Exception e) {
      throw new StageFailure(
          "the SQLite library cannot be unpacked into "
              + System.getProperty("org.sqlite.tmpdir", System.getProperty("java.io.tmpdir"))
              + "; free space there or set SCARPWAY_JAVA_OPTS=-Djava.io.tmpdir=DIR",
          e);
    }
  }

  static String quoted(String identifier) {
    return '"' + identifier.replace("\"", "\"\"") + '"';
  }

  private static void execute(Connection db, String... statements) throws SQLException {
    try (Statement s = db.createStatement()) {
      for (String sql : statements) {
        s.execute(sql);
      }
    }
  }

  private static void insert(Connection db, String sql, Object... values) throws SQLException {
    try (PreparedStatement s = db.prepareStatement(sql)) {
      for (int i = 0; i < values.length; i++) {
        s.setObject(i + 1, values[i]);
      }
      s.executeUpdate();
    }
  }

  private static void insertSrs(Connection db, Srs srs) throws SQLException {
    insert(
        db,
        "INSERT INTO gpkg_spatial_ref_sys VALUES (?,?,?,?,?,?)",
        srs.name,
        srs.id,
        srs.organization,
        srs.code,
        srs.wkt,
        null);
  }

  private static void insertLayer(Connection db, LayerData layer, int srsId) throws SQLException {
    Map<String, String> columns = columns(layer);
    String declared =
        columns.entrySet().stream()
            .map(c -> ", " + quoted(c.getKey()) + " " + c.getValue())
            .collect(Collectors.joining());
    execute(
        db,
        "CREATE TABLE "
            + quoted(layer.name())
            + " (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom "
            + layer.geometryType()
            + declared
            + ")");
    Envelope box = new Envelope();
    layer.features().forEach(f -> box.expandToInclude(f.geometry().getEnvelopeInternal()));
    boolean none = box.isNull();
    insert(
        db,
        "INSERT INTO gpkg_contents VALUES (?,'features',?,?,?,?,?,?,?,?)",
        layer.name(),
        layer.title(),
        layer.description(),
        LAST_CHANGE,
        none ? null : box.getMinX(),
        none ? null : box.getMinY(),
        none ? null : box.getMaxX(),
        none ? null : box.getMaxY(),
        srsId);
    insert(
        db,
        "INSERT INTO gpkg_geometry_columns VALUES (?,'geom',?,?,0,0)",
        layer.name(),
        layer.geometryType(),
        srsId);
    insertRows(db, layer, List.copyOf(columns.keySet()), srsId);
  }

  private static void insertRows(Connection db, LayerData layer, List<String> columns, int srsId)
      throws SQLException {
    String names = columns.stream().map(c -> ", " + quoted(c)).collect(Collectors.joining());
    String sql =
        "INSERT INTO "
            + quoted(layer.name())
            + " (geom"
            + names
            + ") VALUES (?"
            + ", ?".repeat(columns.size())
            + ")";
    try (PreparedStatement row = db.prepareStatement(sql)) {
      for (Feature f : layer.features()) {
        row.setBytes(1, GeoPackageBlob.encode(f.geometry(), srsId));
        for (int i = 0; i < columns.size(); i++) {
          Object value = f.attributes().get(columns.get(i));
          boolean absent = value instanceof Double d && !Double.isFinite(d);
          row.setObject(i + 2, absent ? null : value);
        }
        row.executeUpdate();
      }
    }
  }

  /** Attribute columns in order of appearance with their GeoPackage types. */
  private static Map<String, String> columns(LayerData layer) {
    Map<String, String> types = new LinkedHashMap<>();
    for (Feature f : layer.features()) {
      f.attributes()
          .forEach(
              (name, value) -> {
                if (name.equalsIgnoreCase("fid") || name.equalsIgnoreCase("geom")) {
                  throw new IllegalArgumentException("attribute name is taken: " + name);
                }
                types.merge(name, typeOf(name, value), GeoPackage::wider);
              });
    }
    types.replaceAll((name, type) -> type.isEmpty() ? "TEXT" : type);
    return types;
  }

  private static String typeOf(String name, Object value) {
    if (value == null) {
      return "";
    }
    if (value instanceof String) {
      return "TEXT";
    }
    if (value instanceof Double) {
      return "DOUBLE";
    }
    if (value instanceof Integer || value instanceof Long) {
      return "INTEGER";
    }
    throw new IllegalArgumentException(
        "attribute " + name + " must be text or a number, got " + value.getClass());
  }

  private static String wider(String a, String b) {
    if (a.equals(b) || b.isEmpty()) {
      return a;
    }
    if (a.isEmpty()) {
      return b;
    }
    return a.equals("TEXT") || b.equals("TEXT") ? "TEXT" : "DOUBLE";
  }
}
