package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.HashSet;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Memory;

/** One value changed anywhere gives another digest; equal values in other arrays give the same. */
class TraversalCostDigestTest {
  private static final int ROWS = 7;
  private static final int COLS = 9;
  private static final int N = ROWS * COLS;

  private final int[] allowed = new int[N];
  private final float[] east = new float[N];
  private final float[] north = new float[N];
  private final float[] cap = new float[N];
  private final float[] detour = new float[N];
  private final byte[] soil = new byte[N];
  private final double[][] speed = new double[2][5];
  private final double[][] traction = new double[2][5];
  private double hotelW = 40;
  private double potential = 12;
  private double cellM = 5;
  private double minGrade = -1;
  private float ratio = 1.25f;
  private boolean capped = true;
  private boolean detoured = true;
  private boolean soils = true;
  private boolean tacked = true;

  private String digest() {
    GradeTable[] tables = new GradeTable[2];
    for (int t = 0; t < 2; t++) {
      tables[t] = new GradeTable(minGrade, 1, speed[t], traction[t], hotelW, potential);
    }
    TackedHeadings.Finds finds = new TackedHeadings.Finds();
    double[] ratios = new double[32];
    ratios[3] = ratio;
    finds.add(17, 1 << 3, ratios);
    return new TraversalCost(
            new Memory(),
            new GridSpec(ROWS, COLS, cellM, 5, 0, 100, ""),
            allowed.clone(),
            east.clone(),
            north.clone(),
            capped ? cap.clone() : null,
            detoured ? detour.clone() : null,
            tacked ? TackedHeadings.of(Set.of(finds)) : null,
            soils ? soil.clone() : null,
            tables)
        .digest();
  }

  @Test
  void everyValueCounts() {
    SplittableRandom random = new SplittableRandom(1);
    for (int i = 0; i < N; i++) {
      allowed[i] = random.nextInt();
      east[i] = (float) random.nextDouble();
      north[i] = (float) random.nextDouble();
      cap[i] = (float) random.nextDouble();
      detour[i] = 1 + (float) random.nextDouble();
      soil[i] = (byte) random.nextInt(2);
    }
    for (int t = 0; t < 2; t++) {
      for (int i = 0; i < 5; i++) {
        speed[t][i] = random.nextDouble();
        traction[t][i] = random.nextDouble();
      }
    }
    Set<String> seen = new HashSet<>();
    seen.add(digest());
    assertEquals(Set.of(digest()), seen);
    int changes = 0;
    for (int k = 0; k < 40; k++) {
      int i = k < 2 ? k * (N - 1) : random.nextInt(N);
      allowed[i] ^= 1 << random.nextInt(32);
      assertTrue(seen.add(digest()));
      east[i] = Math.nextUp(east[i]);
      assertTrue(seen.add(digest()));
      north[i] = Math.nextUp(north[i]);
      assertTrue(seen.add(digest()));
      cap[i] = Math.nextUp(cap[i]);
      assertTrue(seen.add(digest()));
      detour[i] = Math.nextUp(detour[i]);
      assertTrue(seen.add(digest()));
      soil[i] ^= 1;
      assertTrue(seen.add(digest()));
      int t = random.nextInt(2);
      int e = random.nextInt(5);
      speed[t][e] = Math.nextUp(speed[t][e]);
      assertTrue(seen.add(digest()));
      traction[t][e] = Math.nextUp(traction[t][e]);
      assertTrue(seen.add(digest()));
      changes += 8;
    }
    hotelW = Math.nextUp(hotelW);
    assertTrue(seen.add(digest()));
    potential = Math.nextUp(potential);
    assertTrue(seen.add(digest()));
    cellM = Math.nextUp(cellM);
    assertTrue(seen.add(digest()));
    minGrade = Math.nextUp(minGrade);
    assertTrue(seen.add(digest()));
    ratio = Math.nextUp(ratio);
    assertTrue(seen.add(digest()));
    tacked = false;
    assertTrue(seen.add(digest()));
    detoured = false;
    assertTrue(seen.add(digest()));
    soils = false;
    assertTrue(seen.add(digest()));
    capped = false;
    assertTrue(seen.add(digest()));
    assertEquals(changes + 10, seen.size());
  }

  @Test
  void aDomainAndOtherTablesGiveOtherDigests() {
    GradeTable table = new GradeTable(-1, 1, new double[] {1, 2}, new double[2], 0, 0);
    java.util.Arrays.fill(allowed, -1);
    GridSpec spec = new GridSpec(ROWS, COLS, 5, 5, 0, 100, "");
    TraversalCost field = new TraversalCost(spec, allowed, east, north, null, null, table);
    BitSet all = new BitSet();
    all.set(0, N);
    assertEquals(field.digest(), field.within(all).digest());
    all.clear(11);
    Set<String> seen = new HashSet<>(Set.of(field.digest()));
    assertTrue(seen.add(field.within(all).digest()));
    assertTrue(seen.add(field.withTables(table.weighted(1, 1, 1)).digest()));
    assertEquals(field.digest(), field.withTables(table).digest());
  }
}
