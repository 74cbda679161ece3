package org.scarpway.geodata.vector;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.io.ParseException;
import org.scarpway.geodata.file.InputFile;
import org.scarpway.geodata.vector.PolygonFile.Placement;
import org.scarpway.stage.UserError;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteLimits;

/**
 * Reads the polygons of an untrusted GeoPackage: only plain tables are queried, never views or
 * virtual tables, so that no code in the file is executed.
 */
final class GeoPackagePolygons {
  private static final String KIND = "a GeoPackage";
  private static final int MAX_BLOB_BYTES = 64 << 20;
  private static final int MAX_TABLES = 1000;

  private final Path file;
  private final PolygonCheck check;
  private final Connection db;

  private GeoPackagePolygons(Path file, Connection db) {
    this.file = file;
    this.check = new PolygonCheck(file);
    this.db = db;
  }

  private record Table(String name, String column, int srsId) {}

  /**
   * Reads every polygon of every feature table.
   *
   * @throws org.scarpway.stage.UserError if the file is not a valid GeoPackage, contains other
   *     geometry, or its tables differ in CRS
   */
  static PolygonFile read(Path file) {
    InputFile.require(file, GeoPackage.MAX_BYTES, KIND);
    requireNoUnsavedChanges(file);
    try (Connection db = GeoPackage.open(file, "ro")) {
      return new GeoPackagePolygons(file, db).polygons();
    } catch (SQLException e) {
      throw InputFile.unreadable(file, KIND, e);
    }
  }

  /**
   * An open editor stores its latest changes in a side file; ignoring them would give an outdated
   * state.
   */
  private static void requireNoUnsavedChanges(Path file) {
    Path log = file.resolveSibling(file.getFileName() + "-wal");
    try {
      if (Files.exists(log) && Files.size(log) > 0) {
        throw UserError.of(
            file.toString(),
            "has changes waiting in " + log.getFileName(),
            "a saved GeoPackage",
            "close the program that edits it");
      }
    } catch (IOException e) {
      throw InputFile.unreadable(log, KIND, e);
    }
  }

  private PolygonFile polygons() throws SQLException {
    try (Statement s = db.createStatement()) {
      s.execute("PRAGMA trusted_schema=OFF");
      s.execute("PRAGMA cell_size_check=ON");
    }
    db.unwrap(SQLiteConnection.class).setLimit(SQLiteLimits.SQLITE_LIMIT_LENGTH, MAX_BLOB_BYTES);
    List<Table> tables = tables();
    int srsId = tables.get(0).srsId;
    for (Table t : tables) {
      if (t.srsId != srsId) {
        throw UserError.of(
            file.toString(),
            "tables " + tables.get(0).name + " and " + t.name + " differ in CRS",
            "one CRS",
            "split the file");
      }
      readTable(t);
    }
    return placed(srsId);
  }

  private List<Table> tables() throws SQLException {
    requirePlainTable("gpkg_geometry_columns");
    requirePlainTable("gpkg_spatial_ref_sys");
    List<Table> tables = new ArrayList<>();
    try (Statement s = db.createStatement();
        ResultSet r =
            s.executeQuery(
                "SELECT table_name, column_name, srs_id FROM gpkg_geometry_columns ORDER BY"
                    + " table_name")) {
      while (r.next()) {
        if (tables.size() == MAX_TABLES) {
          throw UserError.of(
              file.toString(), "too many tables", "at most " + MAX_TABLES, "split the file");
        }
        tables.add(new Table(r.getString(1), r.getString(2), r.getInt(3)));
      }
    }
    if (tables.isEmpty()) {
      throw UserError.of(
          file.toString(), "holds no feature table", "a table of polygons", "choose another file");
    }
    return tables;
  }

  private void readTable(Table t) throws SQLException {
    requirePlainTable(t.name);
    if (!hasPlainColumn(t, t.column)) {
      throw UserError.of(
          file.toString(),
          "table " + t.name + " has no column " + t.column,
          KIND,
          "write the file again");
    }
    String sql =
        "SELECT "
            + GeoPackage.quoted(t.column)
            + ", "
            + words(t, "name")
            + ", "
            + words(t, "reason")
            + " FROM "
            + GeoPackage.quoted(t.name);
    try (Statement s = db.createStatement();
        ResultSet r = s.executeQuery(sql)) {
      for (int n = 1; r.next(); n++) {
        String feature = "table " + t.name + ", feature " + n;
        byte[] blob = r.getBytes(1);
        if (blob == null) {
          check.countVertices(1);
          check.warn(feature + ": has no geometry and is left out");
          continue;
        }
        try {
          AreaWords words = new AreaWords(r.getString(2), r.getString(3));
          check.add(GeoPackageBlob.decode(blob), feature, words);
        } catch (ParseException e) {
          throw UserError.of(
              file + ": " + feature,
              "no sound polygon (" + e.getMessage() + ")",
              "Polygon or MultiPolygon",
              "remove it, or write the file again");
        }
      }
    }
  }

  private void requirePlainTable(String name) throws SQLException {
    try (PreparedStatement s =
        db.prepareStatement(
            // SQLite normalises these words, whatever a user typed. A file altered by other means
            // may
            // spell a virtual table in many ways, but not in this one.
            "SELECT 1 FROM sqlite_master WHERE lower(name)=lower(?) AND type='table' AND rootpage>0"
                + " AND sql LIKE 'CREATE TABLE %'")) {
      s.setString(1, name);
      try (ResultSet r = s.executeQuery()) {
        if (!r.next()) {
          throw UserError.of(file.toString(), "has no table " + name, KIND, "write the file again");
        }
      }
    }
  }

  /** Selects a column of words, or nothing where the table has none of that name. */
  private String words(Table t, String column) throws SQLException {
    return hasPlainColumn(t, column) ? GeoPackage.quoted(column) : "NULL";
  }

  /** False for a generated column, whose evaluation may be arbitrarily expensive. */
  private boolean hasPlainColumn(Table t, String column) throws SQLException {
    String sql = "SELECT 1 FROM pragma_table_xinfo(?) WHERE lower(name)=lower(?) AND hidden=0";
    try (PreparedStatement s = db.prepareStatement(sql)) {
      s.setString(1, t.name);
      s.setString(2, column);
      try (ResultSet r = s.executeQuery()) {
        return r.next();
      }
    }
  }

  private PolygonFile placed(int srsId) throws SQLException {
    if (srsId == 0) {
      return check.result(Placement.LON_LAT, "");
    }
    if (srsId == -1) {
      return check.result(Placement.DEM_CRS, "");
    }
    try (PreparedStatement s =
        db.prepareStatement("SELECT definition FROM gpkg_spatial_ref_sys WHERE srs_id=?")) {
      s.setInt(1, srsId);
      try (ResultSet r = s.executeQuery()) {
        String wkt = r.next() ? r.getString(1) : null;
        if (wkt == null || wkt.equalsIgnoreCase("undefined")) {
          throw UserError.of(
              file.toString(), "CRS " + srsId + " is not defined in it", "its WKT", "set its CRS");
        }
        boolean geographic = wkt.strip().toUpperCase(Locale.ROOT).startsWith("GEOG");
        return check.result(geographic ? Placement.LON_LAT : Placement.FILE_CRS, wkt);
      }
    }
  }
}
