package org.scarpway.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Random;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class SpellsTest {
  /** Random changes of sign, straight between: everything is known without following it. */
  @Test
  void randomChanges() {
    Random random = new Random(17);
    for (int n = 0; n < 400; n++) {
      double end = 100;
      TreeSet<Double> changes = new TreeSet<>();
      for (int k = random.nextInt(6); k > 0; k--) {
        changes.add(1 + 98 * random.nextDouble());
      }
      boolean upFirst = random.nextBoolean();
      TreeSet<Double> times = new TreeSet<>();
      times.add(0.0);
      times.add(end);
      ArrayList<Double> all = new ArrayList<>(changes);
      double given = random.nextInt(100);
      times.add(given);
      // A time on either side of each change, as far from it, so that the line crosses in it.
      for (int k = 0; k < all.size(); k++) {
        double room =
            Math.min(
                k == 0 ? all.get(k) : all.get(k) - all.get(k - 1),
                k + 1 == all.size() ? end - all.get(k) : all.get(k + 1) - all.get(k));
        room = Math.min(room / 3, Math.abs(all.get(k) - given) / 2);
        times.add(all.get(k) - room);
        times.add(all.get(k) + room);
      }
      Spells spells = new Spells(1, end, java.util.List.of(given));
      for (double t : times) {
        boolean up = upFirst == (changes.headSet(t).size() % 2 == 0);
        spells.next(t, new float[] {up ? 1 : -1});
      }
      spells.finish();
      double above = 0;
      double longest = 0;
      boolean cut = false;
      double from = 0;
      boolean up = upFirst;
      double toAbove = Double.NaN;
      double toBelow = Double.NaN;
      changes.add(end);
      for (double to : changes) {
        if (up) {
          above += to - from;
        } else if (to - from > longest) {
          longest = to - from;
        }
        // Any that the window cuts may last longer than the longest seen.
        cut |= !up && (from == 0 || to == end);
        if (from <= given && (given < to || to == end)) {
          toAbove = up ? 0 : to - given;
          toBelow = up ? to - given : 0;
        }
        from = to;
        up = !up;
      }
      assertEquals(above / end, spells.aboveShare(0), 1e-5);
      assertEquals(longest, spells.longestBelowH(0), 1e-4);
      assertEquals(cut, spells.longestIsAtLeast(0));
      assertEquals(toAbove, spells.toAboveH(0, 0), 1e-4);
      assertEquals(toBelow, spells.toBelowH(0, 0), 1e-4);
    }
  }

  @Test
  void whatTheWindowCutsIsAtLeast() {
    Spells spells = new Spells(2, 10, java.util.List.of(0.0, 10.0));
    spells.next(0, new float[] {-1, 1});
    spells.next(4, new float[] {-1, 1});
    spells.next(10, new float[] {-1, 1});
    spells.finish();
    assertEquals(10, spells.longestBelowH(0));
    assertTrue(spells.longestIsAtLeast(0));
    assertTrue(spells.toIsAtLeast(true, 0, 0));
    assertFalse(spells.toIsAtLeast(false, 0, 0));
    assertEquals(0, spells.longestBelowH(1));
    assertFalse(spells.longestIsAtLeast(1));
    assertEquals(10, spells.toBelowH(0, 1));
    assertEquals(0, spells.toAboveH(1, 1));
  }
}
