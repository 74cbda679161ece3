package org.scarpway.geodata.table;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/** Reads tables that {@link CsvTable} wrote. */
public final class CsvRows {
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();

  private CsvRows() {}

  /**
   * Returns the fields of every row by their heading, in the order of the columns.
   *
   * @throws UserError if the file is missing or is no such table
   */
  public static List<Map<String, String>> read(Path file) {
    try (CSVParser rows = CSVParser.parse(file, StandardCharsets.UTF_8, FORMAT)) {
      return rows.stream().map(CSVRecord::toMap).toList();
    } catch (IOException | UncheckedIOException | IllegalArgumentException e) {
      throw UserError.of(
          file.toString(),
          "cannot be read (" + Reason.plain(e.getMessage()) + ")",
          "a table as the run wrote it",
          "run the job again with --fresh");
    }
  }
}
