package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;

/**
 * Four cells that rise 0.3 to the east and 0.4 to the north, without and with a load, worked out by
 * hand: headings, caps and tables of both, tacks and soils of the loaded vehicle. Heading 0 is
 * north, 8 east, 16 south, 24 west.
 */
class LoadFieldTest {
  private static final GridSpec SPEC = new GridSpec(1, 4, 5, 5, 0, 5, "");
  private static final int NORTH = 0;
  private static final int EAST = 8;
  private static final int SOUTH = 16;
  private static final int WEST = 24;
  private static final float FREE = Float.POSITIVE_INFINITY;

  /** 3 m/s less 2 m/s for each unit of grade; 100 J/m and 200 J/m more for each; 50 W. */
  private static final GradeTable LIGHT =
      new GradeTable(-1, 1, new double[] {5, 1}, new double[] {-100, 300}, 50, 400);

  /** 2 m/s less 1 m/s for each; 170 J/m and 250 J/m more for each. */
  private static final GradeTable HEAVY =
      new GradeTable(-1, 1, new double[] {3, 1}, new double[] {-80, 420}, 50, 600);

  private static final GradeTable SLOW =
      new GradeTable(-1, 1, new double[] {0.5, 0.5}, new double[] {100, 100}, 50, 10);

  private static TraversalCost field(
      GridSpec spec,
      int[] bits,
      float[] caps,
      TackedHeadings tacks,
      byte[] soils,
      GradeTable... tables) {
    float[] east = {0.3f, 0.3f, 0.3f, 0.3f};
    float[] north = {0.4f, 0.4f, 0.4f, 0.4f};
    return new TraversalCost(
        new Memory(),
        spec,
        bits,
        east,
        north,
        caps,
        new float[] {1, 1, 2, 1},
        tacks,
        soils,
        tables);
  }

  private static TackedHeadings tacks(int cell, int heading, double longer) {
    double[] by = new double[32];
    by[heading] = longer;
    TackedHeadings.Finds finds = new TackedHeadings.Finds();
    finds.add(cell, 1 << heading, by);
    return TackedHeadings.of(List.of(finds));
  }

  private static TraversalCost light() {
    int west = 1 << WEST;
    return field(
        SPEC,
        new int[] {-1, ~west, -1, -1},
        new float[] {FREE, 0.7f, FREE, 9},
        tacks(0, NORTH, 1.25),
        new byte[] {0, 0, 0, 0},
        LIGHT,
        SLOW);
  }

  private static TraversalCost heavy() {
    int north = 1 << NORTH;
    return field(
        SPEC,
        new int[] {-1, ~north, -1, -1},
        new float[] {0.6f, FREE, FREE, 8},
        tacks(0, EAST, 1.5),
        new byte[] {0, 0, 0, 1},
        HEAVY,
        SLOW);
  }

  @Test
  void aLoadLeavesWhatBothAllow() {
    TraversalCost both = light().withLoad(heavy());
    assertEquals(-1, both.allowed(0));
    assertEquals(~(1 << WEST | 1 << NORTH), both.allowed(1));
    assertFalse(both.allows(1, WEST) || both.allows(1, NORTH));
    assertTrue(both.allows(1, EAST) && both.allows(1, SOUTH));
    assertEquals(0.6f, both.speedCapMs(0));
    assertEquals(0.7f, both.speedCapMs(1));
    assertEquals(FREE, both.speedCapMs(2));
    assertEquals(8, both.speedCapMs(3));
    // Tacks and soils of the loaded vehicle: its window is the narrower one.
    assertEquals(1.5, both.pathRatio(0, EAST));
    assertEquals(1, both.pathRatio(0, NORTH));
    assertEquals(1, both.soil(3));
    assertEquals(0, both.soil(2));
    // Around rocks twice the way, as without the load.
    assertEquals(2, both.pathRatio(2, SOUTH));
    for (int k = 0; k < 32; k += 8) {
      assertEquals(light().grade(2, k), both.grade(2, k));
    }
  }

  @Test
  void aLoadTakesTheLowerSpeedAndTheHigherEnergy() {
    TraversalCost both = light().withLoad(heavy());
    // Uphill north, 0.4: 3 - 0.8 and 2 - 0.4 m/s, 180 and 270 J/m; south 3.8 and 2.4, 20 and 70.
    double length = Math.sqrt(1.16);
    assertEquals(2 * length / 1.6, both.timeSPerM(2, NORTH), 1e-6);
    double surplusJ = 170;
    assertEquals(
        (270 + surplusJ) * length + 50 * 2 * length / 1.6, both.energyJPerM(2, NORTH), 1e-3);
    assertEquals(2 * length / 2.4, both.timeSPerM(2, SOUTH), 1e-6);
    assertEquals(
        (70 + surplusJ) * length + 50 * 2 * length / 2.4, both.energyJPerM(2, SOUTH), 1e-3);
    // West, down 0.3: 2.3 m/s, but 0.6 by the cap of the loaded vehicle.
    assertEquals(Math.sqrt(1.09) / 0.6, both.timeSPerM(0, WEST), 1e-6);
    assertEquals(Math.sqrt(1.16) / 0.5, both.timeSPerM(3, NORTH), 1e-6);
    assertEquals(2, both.soils());
    // Height that is paid for once: without the load.
    assertEquals(400, both.table(0).potentialJPerM());
    assertEquals(10, both.table(1).potentialJPerM());
  }

  @Test
  void aLoadOnOtherGroundIsRefused() {
    GridSpec other = new GridSpec(1, 4, 5, 5, 5, 5, "");
    byte[] soils = new byte[4];
    int[] all = {-1, -1, -1, -1};
    float[] caps = {1, 1, 1, 1};
    TraversalCost elsewhere = field(other, all, caps, null, soils, HEAVY, SLOW);
    TraversalCost oneSoil = field(SPEC, all, caps, null, soils, HEAVY);
    assertThrows(IllegalArgumentException.class, () -> light().withLoad(elsewhere));
    assertThrows(IllegalArgumentException.class, () -> light().withLoad(oneSoil));
  }

  @Test
  void whatAFieldHolds() {
    TackedHeadings tacks = tacks(0, NORTH, 1.25);
    TraversalCost f =
        field(
            SPEC,
            new int[] {1, 2, 3, 4},
            new float[] {1, 2, 3, 4},
            tacks,
            new byte[] {0, 1, 0, 1},
            LIGHT,
            SLOW);
    assertSame(SPEC, f.spec());
    assertSame(tacks, f.tacks());
    assertTrue(f.capped() && f.detoured() && !f.beyondHeap());
    assertNull(f.scratch(1));
    assertArrayEquals(new GradeTable[] {LIGHT, SLOW}, f.tables());
    assertSame(SLOW, f.table(f.soil(1)));
    assertEquals(0.3f, f.gradEast(1));
    assertEquals(0.4f, f.gradNorth(1));
    assertEquals(4, f.speedCapMs(3));
    assertEquals(2, f.detour(2));
    assertEquals(Math.sqrt(1.16) * 1.25, f.lengthPerM(0, NORTH), 1e-6);
    // -100 J/m and 50 W at 5 m/s: braking gives back more; with 100 J/m on any grade it never does.
    assertTrue(f.gains());
    assertFalse(f.withTables(SLOW, SLOW).gains());
    assertEquals(10, f.withTables(SLOW, SLOW).potentialJPerM());
    // No energy at all is no gain either.
    assertFalse(
        f.withTables(new GradeTable(-1, 1, new double[] {1, 1}, new double[2], 0, 0)).gains());
    TraversalCost swapped = f.withTables(Bytes.of(new byte[] {1, 0, 1, 0}), LIGHT, SLOW);
    assertEquals(1, swapped.soil(0));
    assertEquals(0, swapped.soil(1));
    assertEquals(2, swapped.allowed(1));
    TraversalCost bare =
        new TraversalCost(SPEC, new int[4], new float[4], new float[4], null, null, LIGHT);
    assertFalse(bare.capped() || bare.detoured());
    assertNull(bare.tacks());
    assertEquals(FREE, bare.speedCapMs(0));
    assertEquals(1, bare.detour(0));
    assertEquals(1, bare.pathRatio(0, EAST));
  }

  /** Where headings lie in a scratch file, what is worked out on them goes there as well. */
  @Test
  void aFieldBeyondTheHeap() {
    ScratchFile file = new Memory().scratch();
    Ints bits = Ints.of(4, file);
    bits.set(2, 5);
    Floats east = Floats.of(4, file);
    TraversalCost f = new TraversalCost(SPEC, bits, east, east, null, LIGHT);
    assertTrue(f.beyondHeap());
    assertNotNull(f.scratch(1));
    assertTrue(f.withLoad(f).beyondHeap());
    assertEquals(5, f.withLoad(f).allowed(2));
    assertEquals(Math.sqrt(1) / 3, f.timeSPerM(2, NORTH), 1e-6);
  }
}
