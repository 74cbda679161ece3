package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Memory;

class DrivenTogetherTest {
  private static final GridSpec SPEC = new GridSpec(9, 11, 4, 5, 0, 36, "");
  private static final int N = SPEC.cells();

  private static GradeTable table(Random random) {
    double[] speed = new double[81];
    double[] traction = new double[81];
    double rated = 0.5 + 3 * random.nextDouble();
    double flat = 200 + 2000 * random.nextDouble();
    double weight = 3000 * random.nextDouble();
    for (int i = 0; i < speed.length; i++) {
      double grade = (i - 40) * GradeTable.GRADE_STEP * 20;
      speed[i] = Math.max(0, rated * (1 - Math.max(0, grade) * random.nextDouble()));
      traction[i] = flat + weight * grade;
    }
    double end = 40 * GradeTable.GRADE_STEP * 20;
    return new GradeTable(-end, end, speed, traction, 100 * random.nextDouble(), 0);
  }

  private static TraversalCost field(Random random, float[] east, float[] north, boolean tacking) {
    int soils = 1 + random.nextInt(3);
    int[] allowed = new int[N];
    float[] cap = new float[N];
    float[] detour = random.nextBoolean() ? new float[N] : null;
    byte[] soil = new byte[N];
    TackedHeadings.Finds finds = new TackedHeadings.Finds();
    for (int i = 0; i < N; i++) {
      int some = random.nextInt();
      allowed[i] = random.nextInt(4) == 0 ? 0 : some | random.nextInt();
      cap[i] = (float) (0.2 + 3 * random.nextDouble());
      soil[i] = (byte) random.nextInt(soils);
      if (detour != null) {
        detour[i] = (float) (1 + random.nextDouble());
      }
      if (tacking && random.nextInt(3) == 0) {
        double[] ratio = new double[Headings.COUNT];
        Arrays.fill(ratio, 1.0);
        int k = random.nextInt(Headings.COUNT);
        ratio[k] = 1 + random.nextDouble();
        finds.add(i, 1 << k, ratio);
      }
    }
    GradeTable[] tables = new GradeTable[soils];
    for (int t = 0; t < soils; t++) {
      tables[t] = table(random);
    }
    return new TraversalCost(
        new Memory(),
        SPEC,
        allowed,
        east,
        north,
        cap,
        detour,
        TackedHeadings.of(List.of(finds)),
        soils == 1 ? null : soil,
        tables);
  }

  /** Energy of a metre where the speed is that of the pair. */
  private static double energyAt(TraversalCost f, int cell, int k, double timeS) {
    double g = f.grade(cell, k);
    GradeTable t = f.table(f.soil(cell));
    double surplus = (f.pathRatio(cell, k) - 1) * t.tractionJPerM(0);
    return (t.tractionJPerM(g) + surplus) * Math.sqrt(1 + g * g) + t.hotelW() * timeS;
  }

  /** What holds for the pair on a heading holds for each of the two there. */
  @Test
  void nowhereBetterThanEitherVehicle() {
    Random random = new Random(31);
    int open = 0;
    for (int trial = 0; trial < 60; trial++) {
      float[] east = new float[N];
      float[] north = new float[N];
      for (int i = 0; i < N; i++) {
        east[i] = (float) (0.3 * random.nextGaussian());
        north[i] = (float) (0.3 * random.nextGaussian());
      }
      TraversalCost a = field(random, east, north, trial % 2 == 0);
      TraversalCost b = field(random, east, north, trial % 3 == 0);
      double factor = trial % 5 == 0 ? 0 : 2 * random.nextDouble();
      TraversalCost both = DrivenTogether.of(a, b, factor);
      for (int cell = 0; cell < N; cell++) {
        for (int k = 0; k < Headings.COUNT; k++) {
          assertEquals(a.allows(cell, k) && b.allows(cell, k), both.allows(cell, k));
          double timeS = both.timeSPerM(cell, k);
          double least = Math.max(a.timeSPerM(cell, k), b.timeSPerM(cell, k));
          assertTrue(timeS >= least * (1 - 1e-6), timeS + " of " + least);
          if (timeS < Double.POSITIVE_INFINITY) {
            open++;
            assertTrue(both.lengthPerM(cell, k) >= a.lengthPerM(cell, k) * (1 - 1e-6));
            assertTrue(both.lengthPerM(cell, k) >= b.lengthPerM(cell, k) * (1 - 1e-6));
            double joules = both.energyJPerM(cell, k);
            double slack = 1e-6 * Math.abs(joules) + 1e-6;
            assertTrue(joules >= energyAt(a, cell, k, timeS) - slack);
            assertTrue(joules >= factor * energyAt(b, cell, k, timeS) - slack);
          }
        }
      }
    }
    assertTrue(open > 10_000, "open headings: " + open);
  }

  /** Of two of a kind the field is that of one. */
  @Test
  void twoOfAKindAreOne() {
    Random random = new Random(8);
    float[] level = new float[N];
    TraversalCost a = field(random, level, level, true);
    TraversalCost both = DrivenTogether.of(a, a, 1);
    for (int cell = 0; cell < N; cell++) {
      for (int k = 0; k < Headings.COUNT; k++) {
        assertEquals(a.timeSPerM(cell, k), both.timeSPerM(cell, k));
        assertEquals(a.energyJPerM(cell, k), both.energyJPerM(cell, k));
        assertEquals(a.lengthPerM(cell, k), both.lengthPerM(cell, k));
      }
    }
  }

  @Test
  void otherGroundIsRefused() {
    Random random = new Random(9);
    float[] level = new float[N];
    float[] other = new float[N];
    other[7] = 0.25f;
    TraversalCost a = field(random, level, level, false);
    TraversalCost b = field(random, other, level, false);
    assertThrows(IllegalArgumentException.class, () -> DrivenTogether.of(a, b, 1));
    assertFalse(a.digest().equals(b.digest()));
  }
}
