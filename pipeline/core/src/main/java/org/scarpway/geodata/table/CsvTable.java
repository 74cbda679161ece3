package org.scarpway.geodata.table;

import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.scarpway.geodata.file.AtomicFileWrite;

/**
 * Writes tables as RFC 4180 CSV: comma, CRLF, quotes where needed, UTF-8, one header line whose
 * names end in their unit. Numbers have a fixed number of decimals per column; an unknown value is
 * an empty field.
 */
public final class CsvTable {
  private CsvTable() {}

  /**
   * One column to write.
   *
   * @param header name with unit, such as time_s
   * @param decimals number of decimals of its floating-point values
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
   * Writes a table atomically.
   *
   * @param rows values in the order of the columns: text, whole numbers, doubles (a non-finite one
   *     gives an empty field) or null
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static void write(Path file, List<Column> columns, List<List<Object>> rows) {
    AtomicFileWrite.write(
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
}
