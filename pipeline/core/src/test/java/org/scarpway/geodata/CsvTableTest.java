package org.scarpway.geodata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.scarpway.geodata.CsvTable.Column;
import org.scarpway.stage.UserError;

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

  @Test
  void readsWhatItWroteAndWhatSpreadsheetsWrite() throws Exception {
    Path file = dir.resolve("t.csv");
    Files.writeString(
        file,
        "\uFEFFname, x ,y\nrim,1.5,-2e3\n\n\"two\nlines\",+.5,7.\r\nlast,,0",
        StandardCharsets.UTF_8);
    CsvTable t = CsvTable.read(file, 10, 100);
    t.requireColumns(List.of("name", "x"), List.of("y", "weight"));
    assertEquals(List.of("name", "x", "y"), t.header());
    assertEquals(3, t.rows().size());
    assertEquals(1.5, t.rows().get(0).number("x"));
    assertEquals(-2000, t.rows().get(0).number("y"));
    assertEquals("two\nlines", t.rows().get(1).text("name"));
    assertEquals(9, t.rows().get(2).number("x", 9));
    assertEquals(file + ":2", t.rows().get(0).where());
    assertEquals(file + ":6", t.rows().get(2).where());
    assertEquals(1, t.rows().get(0).number("weight", 1));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "name,x\\na,0x10     | :2: x is \"0x10\"",
        "name,x\\na,NaN      | :2: x is \"NaN\"",
        "name,x\\na,1e999    | :2: x is \"1e999\"",
        "name,x\\na,1d       | :2: x is \"1d\"",
        "name,x\\na,         | :2: x is empty",
        "name,x\\na,1,2      | :2: 3 fields",
        "name,name\\na,1     | two columns are named name",
        "name,\\na,1         | a column has no name",
        "name,wieght,x\\na,1,2 | unknown column wieght",
        "name\\na            | no column x",
        "name,x\\n\"a,1      | cannot be read",
        "name,x\\na,1\\nb,2\\nc,3\\nd,4 | :5: too many rows",
        "name,x\\naaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa,1 | a field has",
      })
  void oneClearLineForBadTables(String text, String expected) throws Exception {
    Path file = Files.writeString(dir.resolve("t.csv"), text.replace("\\n", "\n"));
    UserError e =
        assertThrows(
            UserError.class,
            () -> {
              CsvTable t = CsvTable.read(file, 3, 40);
              t.requireColumns(List.of("name", "x"), List.of());
              t.rows().forEach(r -> r.number("x"));
            });
    assertTrue(e.getMessage().contains(expected), e.getMessage());
    assertEquals(1, e.getMessage().lines().count());
  }

  @Test
  void refusesOtherEncodingsEmptyAndMissingFiles() throws Exception {
    Path latin = dir.resolve("latin.csv");
    Files.write(latin, "name,x\nGrün,1\n".getBytes(StandardCharsets.ISO_8859_1));
    assertThrows(UserError.class, () -> CsvTable.read(latin, 3, 40));
    Path empty = Files.createFile(dir.resolve("empty.csv"));
    assertThrows(UserError.class, () -> CsvTable.read(empty, 3, 40));
    Path blank = Files.writeString(dir.resolve("blank.csv"), "\n\n");
    assertThrows(UserError.class, () -> CsvTable.read(blank, 3, 40));
    assertThrows(UserError.class, () -> CsvTable.read(dir.resolve("none.csv"), 3, 40));
    assertThrows(UserError.class, () -> CsvTable.read(dir, 3, 40));
  }
}
