package org.scarpway.geodata.table;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CsvTableTest {
  private record Stop(String name, double timeS, long walkers) {}

  private static final List<Column<Stop>> COLUMNS =
      List.of(
          Column.position("position"),
          Column.text("name", Stop::name),
          Column.number("time_s", 1, Stop::timeS),
          Column.number("time_h", 4, s -> s.timeS() / 3600),
          Column.whole("walkers", Stop::walkers));

  @TempDir Path dir;

  @Test
  void writesRfc4180WhateverTheLocale() throws Exception {
    Locale before = Locale.getDefault();
    Locale.setDefault(Locale.GERMANY);
    try {
      Path file = dir.resolve("t.csv");
      CsvTable.write(
          file,
          List.of(COLUMNS.get(1), COLUMNS.get(2), COLUMNS.get(4)),
          List.of(
              new Stop("plain", 12345.678, 3),
              new Stop("with, comma and \"quote\"", Double.NaN, -1),
              new Stop(null, Double.POSITIVE_INFINITY, 0),
              new Stop("zero", -0.001, Long.MAX_VALUE)));
      assertEquals(
          "name,time_s,walkers\r\nplain,12345.7,3\r\n"
              + "\"with, comma and \"\"quote\"\"\",,-1\r\n"
              + "\"\",,0\r\nzero,0.0,9223372036854775807\r\n",
          Files.readString(file));
    } finally {
      Locale.setDefault(before);
    }
  }

  /** Any columns in any order, read back by Commons CSV, rounded by BigDecimal. */
  @Test
  void everyValueStandsUnderItsHeading() throws Exception {
    Random random = new Random(20260711);
    for (int n = 0; n < 200; n++) {
      List<Column<Stop>> columns = new ArrayList<>(COLUMNS);
      Collections.shuffle(columns, random);
      columns = columns.subList(0, 1 + random.nextInt(columns.size()));
      List<Stop> stops = new ArrayList<>();
      for (int i = random.nextInt(5); i > 0; i--) {
        stops.add(
            new Stop("stop," + random.nextInt(), 1e6 * random.nextDouble(), random.nextLong()));
      }
      Path file = dir.resolve(n + ".csv");
      CsvTable.write(file, columns, stops);
      CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
      try (CSVParser csv = CSVParser.parse(file, StandardCharsets.UTF_8, format)) {
        assertEquals(columns.stream().map(Column::heading).toList(), csv.getHeaderNames());
        List<CSVRecord> rows = csv.getRecords();
        assertEquals(stops.size(), rows.size());
        for (int i = 0; i < rows.size(); i++) {
          for (String heading : csv.getHeaderNames()) {
            assertEquals(expected(heading, stops.get(i), i), rows.get(i).get(heading), heading);
          }
        }
      }
    }
  }

  private static String expected(String heading, Stop stop, int row) {
    return switch (heading) {
      case "position" -> String.valueOf(row + 1);
      case "name" -> stop.name();
      case "time_s" -> rounded(stop.timeS(), 1);
      case "time_h" -> rounded(stop.timeS() / 3600, 4);
      default -> String.valueOf(stop.walkers());
    };
  }

  private static String rounded(double value, int decimals) {
    return new BigDecimal(value).setScale(decimals, RoundingMode.HALF_UP).toPlainString();
  }

  @Test
  void noTwoColumnsHaveOneHeading() {
    List<Column<Stop>> twice = List.of(COLUMNS.get(2), Column.number("time_s", 0, Stop::timeS));
    Path file = dir.resolve("twice.csv");
    assertThrows(IllegalArgumentException.class, () -> CsvTable.write(file, twice, List.of()));
    assertFalse(Files.exists(file));
  }

  /** Texts that spreadsheets calculate, after OWASP, CSV Injection. */
  @Test
  void wordsOfAFileAreNoFormulas() throws Exception {
    Path file = dir.resolve("words.csv");
    List<String> words = List.of("=1+1|cmd", "+2", "-3", "@SUM(A1)", "\tx", "\n=1", "a=b", "'=1");
    CsvTable.write(file, List.of(Column.foreignText("name", w -> w)), words);
    for (Map<String, String> row : CsvRows.read(file)) {
      assertTrue(row.get("name").matches("(?s)['a].*"), row.get("name"));
    }
    assertTrue(Files.readString(file).contains("a=b"));
  }
}
