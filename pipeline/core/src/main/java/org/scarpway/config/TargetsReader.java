package org.scarpway.config;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.config.Job.Place;
import org.scarpway.config.Job.TargetRow;
import org.scarpway.config.Job.TargetVisit;
import org.scarpway.grid.Body;
import org.scarpway.stage.Reason;

/**
 * Reads the table of targets: RFC 4180 CSV in UTF-8 with a header. Columns: {@code name}; {@code x}
 * and {@code y} (m, of the DEM's reference system) or {@code lon} and {@code lat} (degrees);
 * optional {@code weight} (1), {@code stay_min} (0) and {@code walk_count} (0); for sorties {@code
 * must} (no), {@code after} (none), {@code opens_h} (0) and {@code closes_h} (never). Or the
 * waypoints of a GPX file ({@link GpxTargets}).
 */
public final class TargetsReader {
  static final int MAX_BYTES = 16 << 20;
  static final int MAX_ROWS = 100_000;
  private static final double MOST_H = 100_000;
  private static final List<String> COLUMNS =
      List.of(
          "name",
          "x",
          "y",
          "lon",
          "lat",
          "weight",
          "stay_min",
          "walk_count",
          "must",
          "after",
          "opens_h",
          "closes_h");
  private static final Pattern NUMBER =
      Pattern.compile("[-+]?[0-9]{1,15}(\\.[0-9]{1,18})?([eE][-+]?[0-9]{1,2})?");

  private final String shownName;
  private final Problems problems;
  private final List<String> header = new ArrayList<>();
  private boolean lonLat;

  private TargetsReader(String shownName, Problems problems) {
    this.shownName = shownName;
    this.problems = problems;
  }

  /**
   * @throws org.scarpway.stage.UserError with one line per problem
   */
  public static List<TargetRow> read(Path file) {
    Problems problems = new Problems();
    List<TargetRow> rows = read(new Found(file, file), Body.EARTH, problems);
    problems.throwIfAny();
    return rows;
  }

  /**
   * Returns the rows, or null if any of them has an error.
   *
   * @param body of the job, null if it could not be read
   */
  static List<TargetRow> read(Found file, Body body, Problems problems) {
    int before = problems.count();
    String text = TextFile.read(file.real(), file.shownName(), MAX_BYTES, problems);
    List<TargetRow> rows = text == null ? List.of() : rows(text, file.shownName(), body, problems);
    return problems.count() > before ? null : rows;
  }

  private static List<TargetRow> rows(String text, String shownName, Body body, Problems problems) {
    if (!GpxTargets.looksLike(text)) {
      return new TargetsReader(shownName, problems).parse(text);
    }
    boolean onEarth =
        body == null || body.sameFigureAs(Body.EARTH.semiMajorM(), Body.EARTH.semiMinorM());
    if (!onEarth) {
      problems.add(
          SourceLocation.file(shownName),
          "a GPX file, whose longitudes and latitudes are WGS 84, for a job on " + body.name(),
          "a table of targets off Earth",
          "write a CSV with name, lon and lat of that body, or x and y");
      return List.of();
    }
    return GpxTargets.read(text, shownName, problems);
  }

  private List<TargetRow> parse(String text) {
    List<TargetRow> rows = new ArrayList<>();
    Map<String, Integer> lineOf = new HashMap<>();
    CSVFormat format = CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).get();
    int line = 1;
    try (CSVParser parser = CSVParser.parse(text, format)) {
      for (CSVRecord record : parser) {
        line = Math.toIntExact(parser.getCurrentLineNumber());
        if (header.isEmpty()) {
          if (!readHeader(record, line)) {
            return rows;
          }
        } else if (rows.size() == MAX_ROWS) {
          fail(line, 0, "too many targets", "at most " + MAX_ROWS, "split the table");
          return rows;
        } else {
          TargetRow row = row(record, line);
          if (row != null && isNew(row, line, lineOf)) {
            rows.add(row);
          }
        }
      }
    } catch (IOException | UncheckedIOException e) {
      String detail = Reason.of(e).replaceAll(".*(?=\\(line)", "");
      fail(line, 0, "not valid CSV: " + detail, "RFC 4180", "check the quotes there");
      return rows;
    }
    if (header.contains("after")) {
      requireOrder(rows, lineOf);
    }
    if (header.isEmpty()) {
      fail(1, 0, "the table is empty", "a header and a row per target", "fill it in");
    } else if (line == 1) {
      fail(1, 0, "the table has no target", "a row per target", "add one or drop targets");
    }
    return rows;
  }

  private boolean readHeader(CSVRecord record, int line) {
    boolean good = true;
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < record.size(); i++) {
      String column = record.get(i).strip();
      header.add(column);
      if (!COLUMNS.contains(column)) {
        boolean semicolons = record.size() == 1 && column.contains(";");
        fail(
            line,
            i + 1,
            "unknown column " + Problems.quote(column),
            String.join(", ", COLUMNS),
            semicolons ? "separate by commas" : SpellingSuggestion.remedy(column, COLUMNS));
        good = false;
      } else if (!seen.add(column)) {
        fail(
            line, i + 1, "column " + column + " is given twice", "every column once", "remove one");
        good = false;
      }
    }
    boolean xy = seen.contains("x") && seen.contains("y");
    boolean geographic = seen.contains("lon") && seen.contains("lat");
    boolean some = seen.contains("x") || seen.contains("y");
    boolean someGeographic = seen.contains("lon") || seen.contains("lat");
    if (good && (!seen.contains("name") || xy == geographic || (xy ? someGeographic : some))) {
      fail(
          line,
          0,
          "columns " + String.join(", ", header),
          "name, and either x and y or lon and lat",
          "complete the header");
      good = false;
    }
    lonLat = geographic;
    return good;
  }

  private TargetRow row(CSVRecord record, int line) {
    if (record.size() != header.size()) {
      fail(
          line,
          0,
          "a row of " + record.size() + " cells",
          header.size() + " as in the header",
          "check commas, and use a decimal point");
      return null;
    }
    String name = cell(record, "name");
    if (!PlaceNames.isFit(name)) {
      fail(line, column("name"), "name " + Problems.quote(name), PlaceNames.RULE, "rename it");
      return null;
    }
    Double x = number(record, line, lonLat ? "lon" : "x", lonLat ? -180 : -1e9, lonLat ? 360 : 1e9);
    Double y = number(record, line, lonLat ? "lat" : "y", lonLat ? -90 : -1e9, lonLat ? 90 : 1e9);
    Double weight = optional(record, line, "weight", 1, 1e6);
    Double stayMin = optional(record, line, "stay_min", 0, 1e6);
    Double walks = optional(record, line, "walk_count", 0, 1000);
    if (walks != null && walks != Math.rint(walks)) {
      fail(
          line,
          column("walk_count"),
          "walk_count = " + cell(record, "walk_count"),
          "a whole number",
          "round it");
      return null;
    }
    TargetVisit visit = visit(record, line);
    if (x == null
        || y == null
        || weight == null
        || stayMin == null
        || walks == null
        || visit == null) {
      return null;
    }
    Place place = new Place(name, x, y, lonLat, new SourceLocation(shownName, line, 1).toString());
    return new TargetRow(place, weight, stayMin * 60, walks.intValue(), visit);
  }

  /** Reads when a sortie may visit the target, and after which others; null if that is wrong. */
  private TargetVisit visit(CSVRecord record, int line) {
    String must = header.contains("must") ? cell(record, "must") : "";
    if (!List.of("", "yes", "no").contains(must)) {
      fail(
          line, column("must"), "must is " + Problems.quote(must), "yes or no", "correct the cell");
      return null;
    }
    List<String> after = new ArrayList<>();
    if (header.contains("after")) {
      for (String name : cell(record, "after").split(";")) {
        if (!name.isBlank()) {
          after.add(name.strip());
        }
      }
    }
    Double opensH = optional(record, line, "opens_h", 0, MOST_H);
    Double closesH = optional(record, line, "closes_h", Double.POSITIVE_INFINITY, MOST_H);
    if (opensH == null || closesH == null) {
      return null;
    }
    if (closesH <= opensH) {
      fail(
          line,
          column("closes_h"),
          "closes_h = " + cell(record, "closes_h"),
          "more than opens_h",
          "exchange or correct them");
      return null;
    }
    return new TargetVisit(must.equals("yes"), after, 3600 * opensH, 3600 * closesH);
  }

  /** Requires that {@code after} names other targets of the table, without a circle. */
  private void requireOrder(List<TargetRow> rows, Map<String, Integer> lineOf) {
    Map<String, TargetRow> byName = new HashMap<>();
    rows.forEach(r -> byName.put(r.place().name(), r));
    for (TargetRow row : rows) {
      int line = lineOf.get(row.place().name());
      for (String name : row.visit().after()) {
        if (!lineOf.containsKey(name)) {
          fail(
              line,
              column("after"),
              "after names " + Problems.quote(name),
              "targets of this table, separated by ;",
              SpellingSuggestion.remedy(name, lineOf.keySet()));
        } else if (comesAfter(row.place().name(), name, byName, new HashSet<>())) {
          fail(
              line,
              column("after"),
              "after " + Problems.quote(name) + ", which itself waits for this target",
              "an order without a circle",
              "remove one of them");
          return;
        }
      }
    }
  }

  /** True if a target waits, over any number of others, for the given one. */
  private static boolean comesAfter(
      String sought, String name, Map<String, TargetRow> byName, Set<String> seen) {
    if (name.equals(sought)) {
      return true;
    }
    TargetRow row = byName.get(name);
    return row != null
        && seen.add(name)
        && row.visit().after().stream().anyMatch(n -> comesAfter(sought, n, byName, seen));
  }

  private boolean isNew(TargetRow row, int line, Map<String, Integer> lineOf) {
    Integer before = lineOf.putIfAbsent(row.place().name(), line);
    if (before != null) {
      fail(
          line,
          column("name"),
          "target "
              + Problems.quote(row.place().name())
              + " is given twice (first in line "
              + before
              + ")",
          "every name once",
          "rename one of them");
    }
    return before == null;
  }

  private Double optional(CSVRecord record, int line, String column, double absent, double max) {
    return header.contains(column) && !cell(record, column).isEmpty()
        ? number(record, line, column, 0, max)
        : Double.valueOf(absent);
  }

  private Double number(CSVRecord record, int line, String column, double min, double max) {
    String text = cell(record, column);
    double value = NUMBER.matcher(text).matches() ? Double.parseDouble(text) : Double.NaN;
    if (!(value >= min && value <= max)) {
      fail(
          line,
          column(column),
          column + " is " + Problems.quote(text),
          "a number in [" + plain(min) + ", " + plain(max) + "]",
          "correct the cell");
      return null;
    }
    // Adding 0.0 turns -0.0 into 0.0.
    return value + 0.0;
  }

  private static String plain(double value) {
    return Long.toString((long) value);
  }

  private String cell(CSVRecord record, String column) {
    return record.get(header.indexOf(column)).strip();
  }

  private int column(String name) {
    return header.indexOf(name) + 1;
  }

  /** The column counts cells from 1, as a spreadsheet shows them. */
  private void fail(int line, int cell, String what, String expected, String remedy) {
    problems.add(new SourceLocation(shownName, line, Math.max(1, cell)), what, expected, remedy);
  }
}
