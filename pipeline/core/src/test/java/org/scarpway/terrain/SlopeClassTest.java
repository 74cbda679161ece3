package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Classes by percent of slope: FM 5-33, FM 34-130 (from memory). */
class SlopeClassTest {
  @ParameterizedTest
  @CsvSource({
    "0, 0",
    "2.999, 0",
    "3, 1",
    "9.999, 1",
    "10, 2",
    "19.999, 2",
    "20, 3",
    "29.999, 3",
    "30, 4",
    "44.99, 4",
    "45, 4",
    "45.01, 5",
    "100, 5",
    "1e6, 5"
  })
  void aPercentageFallsIntoItsClass(double percent, int want) {
    float[] slope = {80, (float) Math.toDegrees(Math.atan(percent / 100)), Float.NaN, 80};
    long[] cells = new long[6];
    SlopeClass.count(slope, 1, 3, cells);
    long[] expected = new long[6];
    expected[want] = 1;
    assertArrayEquals(expected, cells);
    SlopeClass.count(slope, 1, 3, cells);
    expected[want] = 2;
    assertArrayEquals(expected, cells, "added to what was counted");
    SlopeClass c = SlopeClass.values()[want];
    assertTrue(percent >= c.fromPct() && percent <= c.toPct());
  }

  @Test
  void sixClassesInThreeTerrains() {
    String[] label = {
      "0 to 3 %", "3 to 10 %", "10 to 20 %", "20 to 30 %", "30 to 45 %", "over 45 %"
    };
    String[] terrain = {
      "unrestricted",
      "unrestricted",
      "unrestricted",
      "unrestricted",
      "restricted",
      "severely restricted"
    };
    double[] from = {0, 3, 10, 20, 30, 45};
    for (SlopeClass c : SlopeClass.values()) {
      int k = c.ordinal();
      assertEquals(label[k], c.label());
      assertEquals(terrain[k], c.terrain());
      assertEquals(from[k], c.fromPct());
      assertEquals(k == 5 ? Double.POSITIVE_INFINITY : from[k + 1], c.toPct());
    }
  }
}
