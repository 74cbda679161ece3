package org.scarpway.stage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class DigitsTest {
  @Test
  void whatAPlannerReads() {
    assertEquals("0.3", Digits.of(0.3));
    assertEquals("6", Digits.of(6));
    assertEquals("18.9", Digits.of(18.8934));
    assertEquals("12346", Digits.of(12_345.6));
    assertEquals("100", Digits.of(100));
    assertEquals("0.00002", Digits.of(2e-5));
    assertEquals("0", Digits.of(-1e-9));
    assertEquals("Infinity", Digits.of(Double.POSITIVE_INFINITY));
  }

  /** Of any size: near the number, short, without exponent or zeros that say nothing. */
  @Test
  void anyNumberIsShortAndNear() {
    Random random = new Random(7);
    for (int n = 0; n < 20_000; n++) {
      double v = random.nextGaussian() * Math.pow(10, 18 * random.nextDouble() - 8);
      String text = Digits.of(v);
      double offBy = Math.abs(Double.parseDouble(text) - v);
      assertTrue(offBy <= Math.max(0.005 * Math.abs(v), 5e-7), v + " as " + text);
      assertTrue(text.matches("-?(0|[1-9][0-9]*)(\\.[0-9]*[1-9])?"), text);
      assertFalse(text.equals("-0"), text);
    }
  }

  @Test
  void sentencesHoldThem() {
    assertEquals(
        "of 3 cells, 12.3 m and 5.00 % of rock",
        Digits.text("of %d cells, %s m and %.2f %% of %s", 3, 12.345, 5.0, "rock"));
  }
}
