package org.scarpway.run.unit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.WKBReader;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.corridor.CorridorSolver;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.Questions;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Lines of corridors are valid simple features (OGC 06-103r4), or there are none. */
class CorridorProductsTest {
  /** WKB after the header of a GeoPackage geometry without envelope is at least this far in. */
  private static final int HEADER = 8;

  @Test
  void everyLineWrittenIsValidHoweverNearTheStops(@TempDir Path dir) throws Exception {
    GridSpec spec = Fields.grid(12, 12, 10, 0, 0);
    Random random = new Random(12);
    int without = 0;
    for (int i = 0; i < 30; i++) {
      double x = 20 + 60 * random.nextDouble();
      double y = 20 + 60 * random.nextDouble();
      double far = i % 3 == 0 ? 0 : 15 * random.nextDouble();
      Stop a = Questions.stop("a", x, y);
      Stop b = Questions.stop("b", x + far, y + far / 2);
      boolean oneCell = spec.cellOf(a.xM(), a.yM()) == spec.cellOf(b.xM(), b.yM());
      CorridorResult r;
      try (Workers workers = new Workers(1)) {
        r =
            CorridorSolver.solve(
                Questions.corridor("c", List.of(a, b), false, Cost.TIME, List.of(5.0), 1, 50, 2),
                Fields.level(Fields.level(spec, (e, n) -> 1)),
                workers,
                Progress.NONE);
      }
      Path folder = dir.resolve("c" + i);
      java.nio.file.Files.createDirectories(folder);
      new CorridorProducts(spec, Body.MOON, () -> null, false).writeRest(folder, r);
      List<Geometry> lines = lines(folder.resolve("centreline.gpkg"), "centreline_c");
      assertEquals(oneCell, lines.isEmpty(), "run " + i);
      lines.addAll(lines(folder.resolve("trade_offs.gpkg"), "trade_offs_c"));
      for (Geometry line : lines) {
        assertTrue(line.isValid() && line.getLength() > 0, "run " + i + ": " + line);
      }
      boolean told = r.warnings().stream().anyMatch(w -> w.contains("no line to draw"));
      assertEquals(oneCell, told, "run " + i);
      without += oneCell ? 1 : 0;
    }
    assertTrue(without > 9 && without < 28, without + " without a line");
  }

  private static List<Geometry> lines(Path file, String table) throws Exception {
    List<Geometry> found = new ArrayList<>();
    try (Connection db = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = db.createStatement();
        ResultSet rows = s.executeQuery("SELECT geom FROM " + table)) {
      while (rows.next()) {
        byte[] blob = rows.getBytes(1);
        int envelope = new int[] {0, 32, 48, 48, 64}[blob[3] >> 1 & 7];
        byte[] wkb = new byte[blob.length - HEADER - envelope];
        ByteBuffer.wrap(blob, HEADER + envelope, wkb.length).get(wkb);
        found.add(new WKBReader().read(wkb));
      }
    }
    return found;
  }
}
