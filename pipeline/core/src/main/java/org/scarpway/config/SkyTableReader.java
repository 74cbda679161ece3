package org.scarpway.config;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.light.SkyPosition;
import org.scarpway.light.SkyTable;
import org.scarpway.stage.Reason;

/**
 * Reads a table of where sun and Earth stand over the body: RFC 4180 CSV with the columns {@code
 * utc}, {@code sun_lon_deg}, {@code sun_lat_deg}, {@code sun_km} and, if the Earth matters, {@code
 * earth_lon_deg}, {@code earth_lat_deg}, {@code earth_km}; longitudes grow to the east.
 */
final class SkyTableReader {
  private static final int MAX_BYTES = 64 << 20;
  private static final List<String> SUN = List.of("utc", "sun_lon_deg", "sun_lat_deg", "sun_km");
  private static final List<String> EARTH = List.of("earth_lon_deg", "earth_lat_deg", "earth_km");

  private final Found file;
  private final Problems problems;
  private final List<String> header = new ArrayList<>();

  private SkyTableReader(Found file, Problems problems) {
    this.file = file;
    this.problems = problems;
  }

  /** Returns the table, or null if it has an error. */
  static SkyTable read(Found file, Problems problems) {
    String text = TextFile.read(file.real(), file.shownName(), MAX_BYTES, problems);
    return text == null ? null : new SkyTableReader(file, problems).parse(text);
  }

  private SkyTable parse(String text) {
    List<SkyTable.Row> rows = new ArrayList<>();
    CSVFormat format = CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).get();
    int line = 1;
    try (CSVParser parser = CSVParser.parse(text, format)) {
      for (CSVRecord record : parser) {
        line = Math.toIntExact(parser.getCurrentLineNumber());
        if (header.isEmpty()) {
          record.forEach(column -> header.add(column.strip()));
          if (!header.containsAll(SUN)) {
            return fail(
                line, "columns " + String.join(", ", header), String.join(", ", SUN), "add them");
          }
          continue;
        }
        SkyTable.Row row = row(record, line);
        if (row == null) {
          return null;
        }
        rows.add(row);
        if (rows.size() > 1 && !follows(rows.get(rows.size() - 2), row)) {
          return fail(
              line,
              "a time that does not follow within 6 h of the one before",
              "rows in the order of time, at most 6 h apart",
              "sort the table, or write it in shorter steps");
        }
      }
    } catch (IOException | UncheckedIOException e) {
      return fail(line, "not valid CSV: " + Reason.of(e), "RFC 4180", "check the quotes there");
    }
    return rows.size() < 2
        ? fail(line, rows.size() + " rows", "two rows or more", "add them")
        : new SkyTable(rows);
  }

  private static boolean follows(SkyTable.Row a, SkyTable.Row b) {
    return b.utc().isAfter(a.utc()) && !b.utc().isAfter(a.utc().plus(SkyTable.LONGEST_STEP));
  }

  private SkyTable.Row row(CSVRecord record, int line) {
    if (record.size() != header.size()) {
      fail(
          line,
          "a row of " + record.size() + " cells",
          header.size() + " as in the header",
          "check commas, and use a decimal point");
      return null;
    }
    boolean earth = header.containsAll(EARTH);
    double[] v = new double[6];
    for (int i = 0; i < 6; i++) {
      String column = i < 3 ? SUN.get(i + 1) : EARTH.get(i - 3);
      v[i] = i < 3 || earth ? number(record, column) : Double.NaN;
      boolean lat = column.endsWith("lat_deg");
      double most = lat ? 90 : column.endsWith("km") ? 1e10 : 360;
      double least = column.endsWith("km") ? 1 : -most;
      if ((i < 3 || earth) && !(v[i] >= least && v[i] <= most)) {
        fail(
            line,
            column + " is " + Problems.quote(record.get(header.indexOf(column))),
            "a number from " + least + " to " + most,
            "correct it");
        return null;
      }
    }
    Instant utc;
    try {
      utc = Instant.parse(record.get(header.indexOf("utc")).strip());
    } catch (DateTimeParseException e) {
      fail(
          line,
          "utc is " + Problems.quote(record.get(header.indexOf("utc"))),
          "a time such as 2031-04-12T06:30:00Z",
          "rewrite it");
      return null;
    }
    return new SkyTable.Row(utc, new SkyPosition(v[0], v[1], v[2], v[3], v[4], v[5]));
  }

  private double number(CSVRecord record, String column) {
    try {
      return Double.parseDouble(record.get(header.indexOf(column)).strip());
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }

  private SkyTable fail(int line, String what, String expected, String remedy) {
    problems.add(new SourceLocation(file.shownName(), line, 1), what, expected, remedy);
    return null;
  }
}
