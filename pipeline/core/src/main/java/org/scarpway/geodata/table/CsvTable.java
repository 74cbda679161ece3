package org.scarpway.geodata.table;

import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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
   * Writes a table atomically.
   *
   * @throws IllegalArgumentException if two columns have the same heading
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static <R> void write(Path file, List<Column<R>> columns, List<R> rows) {
    List<String> headings = columns.stream().map(Column::heading).toList();
    if (headings.stream().distinct().count() < headings.size()) {
      throw new IllegalArgumentException("two columns of one heading in " + headings);
    }
    AtomicFileWrite.write(
        file,
        part -> {
          try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8);
              CSVPrinter csv = new CSVPrinter(out, CSVFormat.RFC4180)) {
            csv.printRecord(headings);
            long position = 0;
            for (R row : rows) {
              position++;
              for (Column<R> column : columns) {
                csv.print(column.field(row, position));
              }
              csv.println();
            }
          }
        });
  }
}
