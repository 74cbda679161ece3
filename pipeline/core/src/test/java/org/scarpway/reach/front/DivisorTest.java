package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Division by multiplication against that of the Java language (JLS 17, 15.17.2). */
class DivisorTest {
  @Test
  void dividesAsTheLanguageDoes() {
    Random random = new Random(7);
    for (int k = 0; k < 2000; k++) {
      int by = Math.max(1, random.nextInt() >>> (1 + random.nextInt(31)));
      by = k < 40 ? k + 1 : k < 70 ? 1 << (k - 40) : k == 70 ? Integer.MAX_VALUE : by;
      Divisor divisor = new Divisor(by);
      for (int i = 0; i < 100; i++) {
        int times = Integer.MAX_VALUE / by;
        int multiple = by * (i < 2 ? i * times : random.nextInt(Math.max(1, times)));
        int[] some = {
          multiple, Math.max(0, multiple - 1), random.nextInt() >>> 1, Integer.MAX_VALUE - i
        };
        for (int n : some) {
          assertEquals(n / by, divisor.into(n), n + " / " + by);
        }
      }
    }
  }
}
