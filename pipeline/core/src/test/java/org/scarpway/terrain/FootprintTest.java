package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Octagons counted cell by cell, and the one that differs from a disc in the fewest cells. */
class FootprintTest {

  @Test
  void sumsAreThoseOverItsCells() {
    for (int hc = 1; hc <= 4; hc++) {
      for (int hr = 1; hr <= 5; hr++) {
        for (int hd = Math.max(hc, hr); hd <= hc + hr; hd++) {
          Footprint f = new Footprint(hc, hr, hd);
          int cells = 0;
          double xx = 0;
          double yy = 0;
          int full = 0;
          for (int y = -hr; y <= hr; y++) {
            int width = 0;
            for (int x = -hc; x <= hc; x++) {
              if (Math.abs(x) + Math.abs(y) <= hd) {
                cells++;
                width++;
                xx += x * x;
                yy += y * y;
              }
            }
            assertEquals(width, 2 * f.halfWidth(y) + 1, f + " row " + y);
            full = y >= 0 && width == 2 * hc + 1 ? y : full;
          }
          assertEquals(full, f.fullRows(), f.toString());
          assertEquals(cells, f.cells(), f.toString());
          assertEquals(xx, f.sumDx2(), f.toString());
          assertEquals(yy, f.sumDy2(), f.toString());
          assertEquals(Math.sqrt(4 * cells * 6 / Math.PI), f.baselineM(2, 3), 1e-12);
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"0,1,1", "1,0,1", "2,1,1", "1,2,1", "1,1,3", "2,3,6"})
  void whatIsNoOctagonIsRefused(int halfCols, int halfRows, int halfDiagonal) {
    assertThrows(
        IllegalArgumentException.class, () -> new Footprint(halfCols, halfRows, halfDiagonal));
  }

  /** Every octagon near the disc is compared with it, cell by cell. */
  @ParameterizedTest
  @CsvSource({
    "1,1,1",
    "1.5,1,1",
    "2,1,1",
    "2.3,1,1",
    "3.2,1,1",
    "4.4,1,1",
    "6.1,1,1",
    "0.3,0.1,0.1",
    "5,1,2",
    "5,2,1",
    "7.3,1.5,2.25",
    "9,3,1",
    "2,1,2"
  })
  void noOctagonIsNearerToTheDisc(double radiusM, double cellXM, double cellYM) {
    Footprint got = Footprint.disc(radiusM, cellXM, cellYM);
    int least = Integer.MAX_VALUE;
    for (int hc = 1; hc <= 10; hc++) {
      for (int hr = 1; hr <= 10; hr++) {
        for (int hd = Math.max(hc, hr); hd <= hc + hr; hd++) {
          least = Math.min(least, differ(new Footprint(hc, hr, hd), radiusM, cellXM, cellYM));
        }
      }
    }
    assertEquals(least, differ(got, radiusM, cellXM, cellYM), got.toString());
    if (cellXM == cellYM) {
      assertEquals(got.halfCols(), got.halfRows());
    }
  }

  private static int differ(Footprint f, double radiusM, double cellXM, double cellYM) {
    int n = 0;
    for (int y = -12; y <= 12; y++) {
      for (int x = -12; x <= 12; x++) {
        boolean mine =
            Math.abs(x) <= f.halfCols()
                && Math.abs(y) <= f.halfRows()
                && Math.abs(x) + Math.abs(y) <= f.halfDiagonal();
        boolean disc = Math.hypot(x * cellXM, y * cellYM) <= radiusM * (1 + 1e-9);
        n += mine == disc ? 0 : 1;
      }
    }
    return n;
  }

  @Test
  void discsSmallerThanACellAreThreeByThree() {
    assertEquals(Footprint.SMALLEST, Footprint.disc(0.9, 1, 1));
    assertEquals(Footprint.SMALLEST, Footprint.disc(3, 4, 1));
    assertEquals(Footprint.SMALLEST, Footprint.disc(3, 1, 4));
    assertEquals(new Footprint(1, 1, 1), Footprint.disc(1, 1, 1));
  }

  /** Coarse enough that the squares of the whole relief over all cells stay within 2^62. */
  @ParameterizedTest
  @CsvSource({"0, 0, 2", "-5, 5, 2", "-10000, 10000, 2", "0, 1e6, 20", "-3e5, 1e6, 60"})
  void theQuantumIsTheFinestThatFits(double lowestM, double highestM, int half) {
    Footprint f = new Footprint(half, half, 2 * half);
    HeightScale scale = HeightScale.of(lowestM, highestM, f);
    double relief = highestM - lowestM;
    double cells = (2.0 * half + 1) * (2 * half + 1);
    double q = scale.quantumM();
    assertEquals((lowestM + highestM) / 2, scale.middleM());
    assertTrue(cells * (relief / q) * (relief / q) <= 0x1p62);
    assertEquals(Math.rint(Math.log(q) / Math.log(2)), Math.log(q) / Math.log(2), 1e-9);
    boolean finerFits = cells * (2 * relief / q) * (2 * relief / q) <= 0x1p62;
    assertEquals(finerFits, q == Math.pow(2, -24));
    assertEquals(Math.pow(2, -24), HeightScale.of(Double.NaN, Double.NaN, f).quantumM());
    assertEquals(0, HeightScale.of(Double.NaN, Double.NaN, f).middleM());
  }
}
