package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard.Cause;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Extrapolation;
import org.scarpway.terrain.Terrain;

/**
 * What walls a vehicle in: two walls of one cell with a gap of two cells between them, given by
 * whatever blocks, and a vehicle that needs three. The gap is narrow exactly where the walls block.
 */
class NarrowStripsTest {
  private static final int SIZE = 60;
  private static final GridSpec SPEC = new GridSpec(SIZE, SIZE, 1, 1, 0, SIZE, "");
  private static final int GAP = 30 * SIZE + 29;
  private static final HazardParams.Room ROOM = new HazardParams.Room(3, 0, 25);

  /** Layers that are 0 but for the cells of the wall. */
  private static final class Walls {
    final float[] slopeDeg = new float[SPEC.cells()];
    final float[] stepM = new float[SPEC.cells()];
    final float[] coverage = new float[SPEC.cells()];
    Extrapolation extrapolation;
    List<Geometry> keepOut = List.of();

    static void put(float[] layer, double value) {
      for (int col = 0; col < SIZE; col++) {
        if (col != 29 && col != 30) {
          layer[30 * SIZE + col] = (float) value;
        }
      }
    }
  }

  private static HazardParams params(List<Geometry> keepOut, HazardParams.Room room) {
    return new HazardParams(new RockParams(null, null, 0.35, 3), keepOut, 0, 90, 0.25, 1, 5, room);
  }

  private static boolean narrow(Consumer<Walls> with) {
    Walls walls = new Walls();
    with.accept(walls);
    FloatGrid zero = FloatGrid.empty(SPEC);
    Arrays.fill(zero.values(), 0);
    Terrain terrain =
        new Terrain(
            zero,
            new FloatGrid(SPEC, walls.slopeDeg),
            zero,
            zero,
            zero,
            new FloatGrid(SPEC, walls.stepM),
            zero,
            walls.extrapolation,
            null);
    try (Workers workers = new Workers(1)) {
      Hazard h =
          new HazardStrips(SPEC, params(walls.keepOut, ROOM))
              .strip(terrain, 0, new FloatGrid(SPEC, walls.coverage), workers, Progress.NONE);
      boolean gap = (h.causes().values()[GAP] & Cause.NARROW.bit()) != 0;
      assertEquals(gap ? 1 : 0, h.hazard01().values()[GAP]);
      assertEquals(0, h.causes().values()[5 * SIZE + 5], "far from the walls");
      return gap;
    }
  }

  @Test
  void slopeBlocksAboveItsLimit() {
    assertEquals(false, narrow(w -> Walls.put(w.slopeDeg, 0)));
    assertEquals(false, narrow(w -> Walls.put(w.slopeDeg, 25)));
    assertEquals(true, narrow(w -> Walls.put(w.slopeDeg, 25.01)));
    assertEquals(true, narrow(w -> Walls.put(w.slopeDeg, Double.NaN)));
  }

  @Test
  void aStepBlocksWhereItWasMeasured() {
    assertEquals(false, narrow(w -> Walls.put(w.stepM, 0.25)));
    assertEquals(true, narrow(w -> Walls.put(w.stepM, 0.26)));
    assertEquals(true, narrow(w -> Walls.put(w.stepM, Double.NaN)));
    Extrapolation.Scale scale = new Extrapolation.Scale(5, 1, 0.3, 0.2);
    assertEquals(
        false,
        narrow(
            w -> {
              Walls.put(w.stepM, 0.26);
              w.extrapolation = new Extrapolation(null, null, scale);
            }));
    assertEquals(
        true,
        narrow(
            w -> {
              Walls.put(w.stepM, 0.26);
              w.extrapolation = new Extrapolation(null, scale, null);
            }));
  }

  @Test
  void rocksBlockWhereTheyLeaveNoWayOrAreNotKnown() {
    assertEquals(false, narrow(w -> Walls.put(w.coverage, 0.05)));
    assertEquals(true, narrow(w -> Walls.put(w.coverage, 0.4)));
    assertEquals(true, narrow(w -> Walls.put(w.coverage, Double.NaN)));
  }

  @Test
  void keptOutGroundBlocksByItself() {
    GeometryFactory geometry = new GeometryFactory();
    double south = SPEC.yM(30) - 0.5;
    Geometry west = geometry.toGeometry(new Envelope(0, 29, south, south + 1));
    Geometry east = geometry.toGeometry(new Envelope(31, SIZE, south, south + 1));
    assertEquals(true, narrow(w -> w.keepOut = List.of(west, east)));
    assertEquals(
        false,
        narrow(w -> w.keepOut = List.of(geometry.createPoint(new Coordinate(1, 1)).buffer(0))));
  }

  @Test
  void roomIsLookedForWhereAskedAndNeeded() {
    assertNull(NarrowStrips.of(params(List.of(), null), SPEC));
    assertNull(NarrowStrips.of(params(List.of(), new HazardParams.Room(0.5, 0.9, 25)), SPEC));
    assertEquals(0, new HazardStrips(SPEC, params(List.of(), null)).haloRows());
    // Discs of up to 12 cells: two radii and two rows more (MinimumGap); pockets of 5 m.
    assertEquals(26, new HazardStrips(SPEC, params(List.of(), ROOM)).haloRows());
    HazardParams.Room turn = new HazardParams.Room(0, 5, 25);
    assertEquals(7, new HazardStrips(SPEC, params(List.of(), turn)).haloRows());
  }
}
