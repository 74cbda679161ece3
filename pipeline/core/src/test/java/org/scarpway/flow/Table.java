package org.scarpway.flow;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/** A table that a run wrote, read back by Commons CSV. */
public record Table(List<String> header, List<Row> rows) {
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();

  public static Table read(Path file) {
    try (CSVParser csv = CSVParser.parse(file, StandardCharsets.UTF_8, FORMAT)) {
      return new Table(csv.getHeaderNames(), csv.stream().map(Row::new).toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** One row below the header. */
  public record Row(CSVRecord cells) {
    /** The field; empty if the column is missing. */
    public String text(String column) {
      return cells.isMapped(column) ? cells.get(column) : "";
    }

    /** For messages. */
    public String where() {
      return "row " + cells.getRecordNumber();
    }

    public double number(String column) {
      return Double.parseDouble(text(column));
    }

    /** A number, or the default where the field is empty. */
    public double number(String column, double otherwise) {
      return text(column).isEmpty() ? otherwise : number(column);
    }
  }
}
