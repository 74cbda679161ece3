package org.scarpway.run.product;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.dem.DemReader;
import org.scarpway.dem.DemRequest;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.table.Column;
import org.scarpway.grid.Body;

/** On a raster in metres without a reference system: its own places are those of the products. */
class PlaceTableTest {
  private record Trip(double xM, double yM, double atXM, double atYM) {}

  private static final List<Column<Trip>> COLUMNS =
      List.of(
          Column.number("x_m", 3, Trip::xM),
          Column.number("y_m", 3, Trip::yM),
          Column.number("at_x_m", 3, Trip::atXM),
          Column.number("at_y_m", 3, Trip::atYM),
          Column.position("trip"));

  @TempDir Path dir;

  private PlaceFrame frame() throws IOException {
    Path raster = dir.resolve("local.asc");
    Files.writeString(
        raster,
        "ncols 3\nnrows 3\nxllcorner 70000\nyllcorner 90000\ncellsize 5\n1 2 3\n4 5 6\n7 8 9\n",
        StandardCharsets.US_ASCII);
    return DemReader.frame(
        new DemRequest(
            List.of(raster), Body.MOON, null, null, VoidRule.NO_GO, 0, null, null, 100, true),
        RasterIos.pureJava());
  }

  /** In whatever order the columns stand. */
  @Test
  void everyPlaceIsGivenInTheRastersOwnSystemToo() throws Exception {
    PlaceFrame frame = frame();
    Random random = new Random(20260712);
    for (int n = 0; n < 50; n++) {
      List<Trip> trips = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        trips.add(new Trip(metres(random), metres(random), metres(random), metres(random)));
      }
      trips.add(new Trip(metres(random), metres(random), Double.NaN, Double.NaN));
      List<Column<Trip>> columns = new ArrayList<>(COLUMNS);
      Collections.shuffle(columns, random);
      Path file = dir.resolve(n + ".csv");
      PlaceTable.write(file, columns, trips, frame);
      CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
      try (CSVParser csv = CSVParser.parse(file, StandardCharsets.UTF_8, format)) {
        List<CSVRecord> rows = csv.getRecords();
        assertEquals(trips.size(), rows.size());
        for (int i = 0; i < rows.size(); i++) {
          Trip trip = trips.get(i);
          assertPlace(trip.xM(), trip.yM(), "", rows.get(i));
          assertPlace(trip.atXM(), trip.atYM(), "at_", rows.get(i));
        }
      }
    }
  }

  private static double metres(Random random) {
    return 70_000 + 30_000 * random.nextDouble();
  }

  private static void assertPlace(double xM, double yM, String before, CSVRecord row) {
    assertEquals(xM, number(row, before + "x"), 5.1e-4);
    assertEquals(yM, number(row, before + "y"), 5.1e-4);
    assertEquals(xM, number(row, before + "x_m"), 5.1e-4);
    assertEquals(yM, number(row, before + "y_m"), 5.1e-4);
  }

  private static double number(CSVRecord row, String heading) {
    return row.get(heading).isEmpty() ? Double.NaN : Double.parseDouble(row.get(heading));
  }

  @Test
  void halfAPlaceIsNoPlace() throws Exception {
    PlaceFrame frame = frame();
    List<Column<Trip>> half = COLUMNS.subList(1, 4);
    Path file = dir.resolve("half.csv");
    assertThrows(
        IllegalArgumentException.class, () -> PlaceTable.write(file, half, List.of(), frame));
    assertFalse(Files.exists(file));
  }
}
