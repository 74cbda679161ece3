package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Memory;

/** Surfaces that are written and read cost the same on every heading, to the last bit. */
class CostLayersTest {
  private static final Vehicle VEHICLE = Vehicles.full();

  private static TraversalCost random(SplittableRandom random) {
    GridSpec spec = new GridSpec(1 + random.nextInt(40), 1 + random.nextInt(500), 5, 4, 0, 100, "");
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    float[] detour = new float[n];
    TackedHeadings.Finds finds = new TackedHeadings.Finds();
    boolean tacked = random.nextBoolean();
    for (int i = 0; i < n; i++) {
      allowed[i] = random.nextInt(3) == 0 ? random.nextInt() : random.nextInt(2) - 1;
      east[i] = random.nextInt(9) == 0 ? Float.NaN : (float) random.nextDouble(-1, 1);
      north[i] = (float) random.nextDouble(-1, 1);
      cap[i] = random.nextInt(9) == 0 ? Float.POSITIVE_INFINITY : (float) random.nextDouble();
      detour[i] = 1 + (float) random.nextDouble();
      if (tacked && random.nextInt(7) == 0) {
        double[] ratios = new double[32];
        Arrays.setAll(ratios, k -> 1 + random.nextDouble());
        finds.add(i, random.nextInt(), ratios);
      }
    }
    return new TraversalCost(
        new Memory(),
        spec,
        allowed,
        east,
        north,
        random.nextBoolean() ? cap : null,
        random.nextBoolean() ? detour : null,
        TackedHeadings.of(List.of(finds)),
        null,
        new SoilLimits(VEHICLE, null, Body.MOON).tables());
  }

  private static byte[] written(TraversalCost cost) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    CostLayers.write(new DataOutputStream(bytes), cost);
    return bytes.toByteArray();
  }

  private static TraversalCost read(byte[] bytes, GridSpec spec) throws IOException {
    DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes));
    return CostLayers.read(in, new Memory(), spec, VEHICLE, null, Body.MOON);
  }

  @Test
  void aSurfaceReadIsTheOneWritten() throws IOException {
    SplittableRandom random = new SplittableRandom(17);
    for (int trial = 0; trial < 60; trial++) {
      TraversalCost cost = random(random);
      TraversalCost read = read(written(cost), cost.spec());
      assertEquals(cost.digest(), read.digest());
      for (int k = 0; k < 200; k++) {
        int cell = random.nextInt(cost.spec().cells());
        int heading = random.nextInt(32);
        assertEquals(cost.timeSPerM(cell, heading), read.timeSPerM(cell, heading));
        assertEquals(cost.energyJPerM(cell, heading), read.energyJPerM(cell, heading));
        assertEquals(cost.pathRatio(cell, heading), read.pathRatio(cell, heading));
      }
    }
  }

  @Test
  void layersThatEndEarlyAreNoSurface() throws IOException {
    SplittableRandom random = new SplittableRandom(18);
    for (int trial = 0; trial < 20; trial++) {
      TraversalCost cost = random(random);
      byte[] bytes = written(cost);
      byte[] part = Arrays.copyOf(bytes, random.nextInt(bytes.length));
      assertThrows(IOException.class, () -> read(part, cost.spec()));
    }
  }
}
