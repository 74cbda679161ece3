package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

class TileGroundTest {
  private static final int ROWS = 21;
  private static final int COLS = 26;
  private static final int SIDE = 16;

  /**
   * The costs of a tile are those worked out plainly, on any ground, at the edges of the grid too.
   */
  @Test
  void costsOfATileAreThePlainOnesBitForBit() {
    Random random = new Random(11);
    int finite = 0;
    int tacked = 0;
    for (int round = 0; round < 30; round++) {
      GridSpec spec = new GridSpec(ROWS, COLS, 5, 5 + round % 3, 0, 1000, "");
      TraversalCost field = random(spec, random);
      float[] factor = new float[spec.cells()];
      for (int i = 0; i < factor.length; i++) {
        factor[i] = 1 + 3 * random.nextFloat();
      }
      for (Quantity q : Quantity.values()) {
        for (boolean tacking : new boolean[] {true, false}) {
          for (boolean weighted : new boolean[] {false, true}) {
            Direction d = random.nextBoolean() ? Direction.OUT : Direction.HOME;
            Costs with = new Costs(field, q, d, weighted ? Floats.of(factor) : null);
            Costs costs = tacking ? with : with.withoutTacks();
            PlainCosts plain = new PlainCosts(field, q, tacking, weighted ? factor : null);
            TileGround ground = new TileGround(SIDE);
            for (int tile = 0; tile < 4; tile++) {
              ground.load(costs, tile / 2 * SIDE, tile % 2 * SIDE);
              for (int r = -2; r < SIDE + 2; r++) {
                for (int c = -2; c < SIDE + 2; c++) {
                  int row = tile / 2 * SIDE + r;
                  int col = tile % 2 * SIDE + c;
                  int at = (r + TileGround.PAD) * ground.stride + c + TileGround.PAD;
                  for (int t = 0; t < Headings.COUNT; t++) {
                    float got = ground.perM[t * ground.stride * ground.stride + at];
                    float expected = Float.POSITIVE_INFINITY;
                    if (spec.holds(row, col)) {
                      int cell = row * COLS + col;
                      expected = plain.perM(cell, t);
                      assertEquals(got, (float) costs.perM(cell, (t - costs.turn()) & 31));
                      tacked += !field.allows(cell, t) && got < Float.POSITIVE_INFINITY ? 1 : 0;
                    }
                    assertEquals(expected, got, "quantity " + q + " heading " + t);
                    finite += got < Float.POSITIVE_INFINITY ? 1 : 0;
                  }
                }
              }
            }
          }
        }
      }
    }
    assertTrue(finite > 1_000_000 && tacked > 10_000, finite + " " + tacked);
  }

  /** Barriers, barred headings, gradients beyond all tables, dented curves, steps without speed. */
  private static TraversalCost random(GridSpec spec, Random random) {
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    byte[] soil = new byte[n];
    for (int i = 0; i < n; i++) {
      int kind = random.nextInt(10);
      allowed[i] =
          kind == 0 ? 0 : kind == 1 ? random.nextInt() : kind == 2 ? ~(0x7FF << (3 * kind)) : -1;
      double steep = random.nextInt(20) == 0 ? 3 : 0.4;
      east[i] = (float) (steep * random.nextGaussian());
      north[i] = (float) (steep * random.nextGaussian());
      cap[i] = random.nextInt(5) == 0 ? Float.POSITIVE_INFINITY : 3 * random.nextFloat();
      soil[i] = (byte) random.nextInt(3);
    }
    GradeTable[] tables = new GradeTable[3];
    for (int t = 0; t < tables.length; t++) {
      double[] speed = new double[121];
      double[] traction = new double[121];
      for (int i = 0; i < speed.length; i++) {
        speed[i] = random.nextInt(12) == 0 ? 0 : 0.5 + 3 * random.nextDouble();
        traction[i] = 2000 * random.nextDouble() + 30 * i - 500;
      }
      tables[t] = new GradeTable(-1.5, 1.5, speed, traction, t == 1 ? 0 : 120, 900 * t);
    }
    return new TraversalCost(spec, allowed, east, north, cap, soil, tables);
  }
}
