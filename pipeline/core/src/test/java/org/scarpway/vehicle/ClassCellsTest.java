package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Counts against counting one by one, as strips come. */
class ClassCellsTest {
  @Test
  void everyCellCountsOnce() {
    Random random = new Random(12);
    Limit[] limits = Limit.values();
    int n = 5000;
    byte[] cls = new byte[n];
    byte[] limit = new byte[n];
    for (int i = 0; i < n; i++) {
      cls[i] = (byte) random.nextInt(4);
      limit[i] = random.nextInt(5) == 0 ? 0 : limits[random.nextInt(limits.length)].code();
    }
    ClassCells.Tally tally = new ClassCells.Tally();
    for (int at = 100; at < n; ) {
      int some = Math.min(n - at, 1 + random.nextInt(400));
      tally.add(cls, limit, at, some);
      at += some;
    }
    ClassCells cells = tally.cells(2.5);
    assertEquals(2.5, cells.cellAreaM2());
    assertEquals(n - 100, cells.all());
    for (int c = 0; c < 4; c++) {
      long inClass = 0;
      for (int l = 0; l < 32; l++) {
        long both = 0;
        long bound = 0;
        for (int i = 100; i < n; i++) {
          both += cls[i] == c && limit[i] == l ? 1 : 0;
          bound += limit[i] == l ? 1 : 0;
        }
        inClass += both;
        assertEquals(both, cells.count(c, l));
        assertEquals(bound, cells.bound(l));
      }
      assertEquals(inClass, cells.count(c));
    }
    assertEquals(n - 100 - cells.count(0), cells.judged());
  }
}
