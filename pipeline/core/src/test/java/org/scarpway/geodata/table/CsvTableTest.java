package org.scarpway.geodata.table;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.table.CsvTable.Column;

class CsvTableTest {
  @TempDir Path dir;

  @Test
  void writesRfc4180WhateverTheLocale() throws Exception {
    Locale before = Locale.getDefault();
    Locale.setDefault(Locale.GERMANY);
    try {
      Path file = dir.resolve("t.csv");
      CsvTable.write(
          file,
          List.of(Column.text("name"), Column.number("time_s", 1), Column.text("walk_count")),
          List.of(
              List.of("plain", 12345.678, 3),
              Arrays.asList("with, comma and \"quote\"", Double.NaN, null),
              List.of("zero", -0.001, 4L)));
      assertEquals(
          "name,time_s,walk_count\r\nplain,12345.7,3\r\n"
              + "\"with, comma and \"\"quote\"\"\",,\r\nzero,0.0,4\r\n",
          Files.readString(file));
    } finally {
      Locale.setDefault(before);
    }
  }
}
