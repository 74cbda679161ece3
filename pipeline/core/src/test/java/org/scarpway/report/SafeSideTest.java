package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.question.ReplanResult.Consumable;

/** Rounded figures never promise a crew more, nor ask less of it, than there is. */
class SafeSideTest {
  /** Units in s, J and m. */
  private static final Map<String, Double> UNITS =
      Map.of("s", 1.0, "min", 60.0, "h", 3600.0, "Wh", 3600.0, "kWh", 3.6e6, "m", 1.0, "km", 1e3);

  /** The amount that a text such as -1 h 6 min states. */
  private static double read(String text) {
    String[] words = text.replace("-", "").split(" ");
    double sum = 0;
    for (int i = 0; i < words.length; i += 2) {
      sum += Double.parseDouble(words[i]) * UNITS.get(words[i + 1]);
    }
    return text.startsWith("-") ? -sum : sum;
  }

  @Test
  void textNeverLeavesTheSafeSideAndStaysNearTheValue() {
    Random random = new Random(9);
    for (int i = 0; i < 20_000; i++) {
      Consumable of = Consumable.values()[random.nextInt(4)];
      double v = (random.nextBoolean() ? 1 : -1) * Math.pow(10, 1 + 6 * random.nextDouble());
      boolean timed = of == Consumable.TIME || of == Consumable.LIFE_SUPPORT;
      // A minute or second of a time; of an amount the third digit is worth at most a hundredth.
      double step = timed ? (Math.abs(v) < 60 ? 1 : 60) : 0.01 * Math.abs(v);
      double noise = 1e-9 * Math.abs(v);
      double down = read(SafeSide.down(of, v));
      double up = read(SafeSide.up(of, v));
      assertTrue(down <= v + noise && down >= v - step - noise, v + ": " + SafeSide.down(of, v));
      assertTrue(up >= v - noise && up <= v + step + noise, v + ": " + SafeSide.up(of, v));
    }
  }

  @Test
  void decimalsNeverLeaveTheSafeSide() {
    Random random = new Random(10);
    for (int i = 0; i < 20_000; i++) {
      double v = 2e4 * (random.nextDouble() - 0.5);
      int decimals = random.nextInt(4);
      double step = Math.pow(10, -decimals);
      assertTrue(SafeSide.down(v, decimals) <= v + 1e-7);
      assertTrue(SafeSide.down(v, decimals) > v - step - 1e-7);
      assertTrue(SafeSide.up(v, decimals) >= v - 1e-7);
      assertTrue(SafeSide.up(v, decimals) < v + step + 1e-7);
    }
  }

  @Test
  void examples() {
    assertEquals("24 min", SafeSide.down(Consumable.TIME, 24.7 * 60));
    assertEquals("25 min", SafeSide.up(Consumable.TIME, 24.2 * 60));
    assertEquals("59 s", SafeSide.down(Consumable.TIME, 59.9));
    assertEquals("-25 min", SafeSide.down(Consumable.TIME, -24.2 * 60));
    assertEquals("1.57 kWh", SafeSide.down(Consumable.ENERGY, 1.578 * 3.6e6));
    assertEquals("1 km", SafeSide.up(Consumable.DISTANCE, 999.3));
    // What a user states is shown as stated.
    assertEquals("36 min", SafeSide.down(Consumable.TIME, 0.6 * 3600));
    assertEquals("0.7 kWh", SafeSide.down(Consumable.ENERGY, 0.7 * 3.6e6));
    assertEquals("16 h 6 min", SafeSide.up(Consumable.LIFE_SUPPORT, 16.1 * 3600));
    assertEquals(Figures.NONE, SafeSide.up(Consumable.TIME, Double.NaN));
    assertTrue(Double.isNaN(SafeSide.down(Double.NaN, 1)));
  }
}
