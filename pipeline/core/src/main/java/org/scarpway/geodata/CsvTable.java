package org.scarpway.geodata;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;
import org.scarpway.stage.UserError;

/**
 * Tables by RFC 4180: comma, CRLF, quotes where needed, UTF-8, one header line whose names end in
 * their unit. Numbers have a fixed number of decimals per column; what is unknown is an empty
 * field.
 */
public final class CsvTable {
  private static final long MAX_BYTES = 64L << 20;
  private static final String KIND = "a table of comma-separated values";

  private final Path file;
  private final List<String> header;
  private final List<Row> rows;

  private CsvTable(Path file, List<String> header, List<Row> rows) {
    this.file = file;
    this.header = List.copyOf(header);
    this.rows = List.copyOf(rows);
  }

  /**
   * One column to write.
   *
   * @param header name with unit, such as time_s
   * @param decimals of its floating-point values
   */
  public record Column(String header, int decimals) {
    public static Column text(String header) {
      return new Column(header, 0);
    }

    public static Column number(String header, int decimals) {
      return new Column(header, decimals);
    }
  }

  /**
   * Writes a table, whole or not at all.
   *
   * @param rows values in the order of the columns: text, whole numbers, doubles (not finite is
   *     empty) or null
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static void write(Path file, List<Column> columns, List<List<Object>> rows) {
    WriteAside.write(
        file,
        part -> {
          try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8);
              CSVPrinter csv = new CSVPrinter(out, CSVFormat.RFC4180)) {
            csv.printRecord(columns.stream().map(Column::header).toList());
            for (List<Object> row : rows) {
              if (row.size() != columns.size()) {
                throw new IllegalArgumentException(
                    "row of " + row.size() + " values in a table of " + columns.size());
              }
              for (int i = 0; i < row.size(); i++) {
                csv.print(field(row.get(i), columns.get(i).decimals));
              }
              csv.println();
            }
          }
        });
  }

  private static Object field(Object value, int decimals) {
    if (value == null || (value instanceof Number n && !Double.isFinite(n.doubleValue()))) {
      return "";
    }
    if (value instanceof Double || value instanceof Float) {
      String s = String.format(Locale.ROOT, "%." + decimals + "f", value);
      return s.matches("-0(\\.0*)?") ? s.substring(1) : s;
    }
    return value;
  }

  /**
   * Reads a table with one header line; blank lines are skipped.
   *
   * @param maxRows limit on the rows below the header
   * @param maxField limit on the characters of a field
   * @throws UserError with file and line for anything that is not such a table
   */
  public static CsvTable read(Path file, int maxRows, int maxField) {
    InputFile.require(file, MAX_BYTES, KIND);
    CSVFormat format = CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).setTrim(true).get();
    try (Reader text = text(file);
        CSVParser csv = CSVParser.builder().setReader(text).setFormat(format).get()) {
      List<String> header = null;
      List<Row> rows = new ArrayList<>();
      for (CSVRecord r : csv) {
        long line = csv.getCurrentLineNumber();
        requireShort(file, line, r, maxField);
        if (header == null) {
          header = header(file, line, r.toList());
          continue;
        }
        if (rows.size() == maxRows) {
          throw UserError.of(
              file + ":" + line, "too many rows", "at most " + maxRows, "split the table");
        }
        rows.add(row(file, line, header, r.toList()));
      }
      if (header == null) {
        throw UserError.of(file + ":1", "no header line", "names of columns", "add them");
      }
      return new CsvTable(file, header, rows);
    } catch (IOException | UncheckedIOException e) {
      throw InputFile.unreadable(file, KIND + " in UTF-8", e);
    }
  }

  /** Refuses a table that lacks a needed column or has one that nobody knows. */
  public void requireColumns(List<String> needed, List<String> optional) {
    TreeSet<String> known = new TreeSet<>(needed);
    known.addAll(optional);
    for (String name : needed) {
      if (!header.contains(name)) {
        throw UserError.of(
            file + ":1", "no column " + name, "columns " + needed, "add it to the header");
      }
    }
    for (String name : header) {
      if (!known.contains(name)) {
        throw UserError.of(
            file + ":1", "unknown column " + name, "only " + known, "remove or rename it");
      }
    }
  }

  public List<String> header() {
    return header;
  }

  public List<Row> rows() {
    return rows;
  }

  /** One row below the header. */
  public static final class Row {
    private final Path file;
    private final long line;
    private final Map<String, String> cells;

    private Row(Path file, long line, Map<String, String> cells) {
      this.file = file;
      this.line = line;
      this.cells = Collections.unmodifiableMap(cells);
    }

    /** file:line, for messages. */
    public String where() {
      return file + ":" + line;
    }

    /** The field, stripped; empty if the column or the field is missing. */
    public String text(String column) {
      return cells.getOrDefault(column, "");
    }

    /** A finite number that must be there. */
    public double number(String column) {
      String s = text(column);
      double v =
          s.matches("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d{1,3})?")
              ? Double.parseDouble(s)
              : Double.NaN;
      if (!Double.isFinite(v)) {
        String got = s.isEmpty() ? column + " is empty" : column + " is \"" + s + "\"";
        throw UserError.of(where(), got, "a number", "correct the field");
      }
      return v;
    }

    /** A finite number, or the default where the field is empty. */
    public double number(String column, double otherwise) {
      return text(column).isEmpty() ? otherwise : number(column);
    }
  }

  private static Reader text(Path file) throws IOException {
    var strict =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    BufferedReader text =
        new BufferedReader(new InputStreamReader(Files.newInputStream(file), strict));
    text.mark(1);
    if (text.read() != '\uFEFF') {
      text.reset();
    }
    return text;
  }

  private static void requireShort(Path file, long line, CSVRecord r, int maxField) {
    for (String field : r) {
      if (field.length() > maxField) {
        throw UserError.of(
            file + ":" + line,
            "a field has " + field.length() + " characters",
            "at most " + maxField,
            "look for a missing quote or shorten it");
      }
    }
  }

  private static List<String> header(Path file, long line, List<String> names) {
    TreeSet<String> seen = new TreeSet<>();
    for (String name : names) {
      if (name.isEmpty() || !seen.add(name)) {
        throw UserError.of(
            file + ":" + line,
            name.isEmpty() ? "a column has no name" : "two columns are named " + name,
            "one name per column",
            "correct the header");
      }
    }
    return names;
  }

  private static Row row(Path file, long line, List<String> header, List<String> fields) {
    if (fields.size() != header.size()) {
      throw UserError.of(
          file + ":" + line,
          fields.size() + " fields",
          header.size() + " as in the header",
          "add or remove commas");
    }
    Map<String, String> cells = new LinkedHashMap<>();
    for (int i = 0; i < fields.size(); i++) {
      cells.put(header.get(i), fields.get(i));
    }
    return new Row(file, line, cells);
  }
}
