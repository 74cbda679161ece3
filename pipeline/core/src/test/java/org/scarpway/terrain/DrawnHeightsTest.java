package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;

/** Realisations by number and by rows are the error field's, pair by pair. */
class DrawnHeightsTest {
  private static final GridSpec SPEC = TestGround.spec(30, 44, 5, 6);

  @Test
  void realisationsAreThoseOfTheErrorField() {
    float[] z = TestGround.rough(30, 44, 5);
    z[77] = Float.NaN;
    HeightRows measured = HeightRows.of(new FloatGrid(SPEC, z));
    for (Double lengthM : new Double[] {null, 9.0}) {
      try (Workers workers = new Workers(2)) {
        for (ScratchFile file : new ScratchFile[] {null, workers.memory().scratch()}) {
          DrawnHeights drawn = new DrawnHeights("asked", measured, 2, lengthM, 8, file, workers);
          ErrorField errors = new ErrorField("asked", SPEC, 2, lengthM, 8, null, workers);
          // Forward, and back to a pair that others followed.
          for (int number : new int[] {0, 1, 2, 3, 4, 1}) {
            float[][] two = new float[2][z.length];
            errors.draw(number / 2, workers);
            errors.add(0, 30, z, two[0], two[1], workers);
            HeightRows one = drawn.realisation(number);
            float[] some = new float[5 * 44];
            float[] want = new float[5 * 44];
            one.read(13, 5, some);
            System.arraycopy(two[number % 2], 13 * 44, want, 0, want.length);
            assertArrayEquals(want, some);
            HeightRows all = HeightRows.of(new FloatGrid(SPEC, two[number % 2]));
            assertEquals(all.lowestM(), one.lowestM());
            assertEquals(all.highestM(), one.highestM());
          }
        }
      }
    }
  }
}
