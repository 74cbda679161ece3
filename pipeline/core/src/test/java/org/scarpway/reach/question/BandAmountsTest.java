package org.scarpway.reach.question;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Memory;

class BandAmountsTest {
  private static final int CELLS = 40_000;

  private static List<Band> bands(double... amounts) {
    List<Band> bands = new ArrayList<>();
    for (double a : amounts) {
      bands.add(new Band(a + "s", Quantity.TIME_S, a));
    }
    return bands;
  }

  /** No cell lies in a band that its amount exceeds, and none seems further than a float tells. */
  @Test
  void aCellIsInTheSmallestBandThatHoldsItAndNeverInASmaller() {
    Random random = new Random(7);
    double[] amount = new double[CELLS];
    BandAmounts all = BandAmounts.none(CELLS, null);
    for (int i = 0; i < CELLS; i++) {
      amount[i] = random.nextInt(5) == 0 ? Double.NaN : 7000 * random.nextDouble() - 500;
      amount[i] = random.nextInt(9) == 0 ? 2700 : amount[i];
      amount[i] = random.nextInt(9) == 0 ? 0 : amount[i];
      if (!Double.isNaN(amount[i])) {
        all.set(i, amount[i]);
      }
    }
    double third = amount[3] + 3000;
    List<Band> bands = bands(0, 2700, third, 1e4);
    byte[] in = all.bands(bands, 0, CELLS);
    for (int i = 0; i < CELLS; i++) {
      int exact = 0;
      for (int k = bands.size(); k > 0 && amount[i] <= bands.get(k - 1).amount(); k--) {
        exact = k;
      }
      double over = exact == 0 ? 0 : bands.get(exact - 1).amount() - amount[i];
      boolean close = exact > 0 && over > 0 && over < 1e-6 * Math.abs(amount[i]);
      assertEquals(close ? in[i] : exact, in[i], "cell " + i + " of " + amount[i]);
    }
  }

  @Test
  void areasAreCumulative() {
    BandAmounts all = BandAmounts.none(10, null);
    all.set(0, 0);
    all.set(1, 5);
    all.set(7, 15);
    assertEquals(List.of(8.0, 12.0), all.areasM2(bands(5, 20), 4));
    assertEquals(List.of(), all.areasM2(List.of(), 4));
  }

  @Test
  void severalThreadsAndFilesGiveTheSame() throws IOException {
    BandAmounts heap = BandAmounts.none(CELLS, null);
    BandAmounts file = BandAmounts.none(CELLS, new Memory().scratch());
    for (BandAmounts all : List.of(heap, file)) {
      IntStream.range(0, CELLS).parallel().filter(i -> i % 3 > 0).forEach(i -> all.set(i, i % 977));
    }
    List<Band> bands = bands(10, 500, 900);
    byte[] expected = heap.bands(bands, 0, CELLS);
    assertArrayEquals(expected, file.bands(bands, 0, CELLS));
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    file.writeTo(new DataOutputStream(out));
    DataInputStream in = new DataInputStream(new ByteArrayInputStream(out.toByteArray()));
    BandAmounts read = BandAmounts.readFrom(in, CELLS, null);
    assertArrayEquals(expected, read.bands(bands, 0, CELLS));
    assertEquals(-1, in.read());
    DataInputStream again = new DataInputStream(new ByteArrayInputStream(out.toByteArray()));
    assertThrows(IOException.class, () -> BandAmounts.readFrom(again, CELLS - 1, null));
  }
}
