package org.scarpway.grid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class HeadingsTest {
  @Test
  void headingsTurnClockwiseFromNorth() {
    Headings h = Headings.of(new GridSpec(3, 3, 5, 5, 0, 0, ""));
    assertEquals(0, h.azimuthDeg(0), 1e-12);
    assertEquals(45, h.azimuthDeg(4), 1e-12);
    assertEquals(90, h.azimuthDeg(8), 1e-12);
    assertEquals(180, h.azimuthDeg(16), 1e-12);
    assertEquals(270, h.azimuthDeg(24), 1e-12);
    for (int k = 1; k < Headings.COUNT; k++) {
      assertTrue(h.azimuthDeg(k) > h.azimuthDeg(k - 1));
    }
  }

  @Test
  void everyRingCellIsHitOnceAndHalfTurnIsOpposite() {
    Set<String> seen = new HashSet<>();
    for (int k = 0; k < Headings.COUNT; k++) {
      int dc = Headings.dCol(k);
      int dr = Headings.dRow(k);
      assertEquals(4, Math.max(Math.abs(dc), Math.abs(dr)));
      assertTrue(seen.add(dc + "," + dr));
      assertEquals(-dc, Headings.dCol((k + Headings.COUNT / 2) % Headings.COUNT));
      assertEquals(-dr, Headings.dRow((k + Headings.COUNT / 2) % Headings.COUNT));
    }
  }

  @Test
  void unitVectorsFollowTheCellsShape() {
    Headings h = Headings.of(new GridSpec(3, 3, 10, 20, 0, 0, ""));
    double dx = Headings.dCol(4) * 10;
    double dy = -Headings.dRow(4) * 20;
    assertEquals(Math.atan2(dx, dy), Math.toRadians(h.azimuthDeg(4)), 1e-12);
  }
}
