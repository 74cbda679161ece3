package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.ShownHazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.ShownTerrain;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainLayers;

/** Every record of layers holds all of them, each with the same cells; whatever it is made of. */
class OneGridTest {
  private static final GridSpec SPEC = Grounds.square(6, 5);
  private static final List<GridSpec> OTHERS =
      List.of(
          Grounds.square(5, 5),
          Grounds.square(6, 4),
          new GridSpec(6, 6, 5, 5, 5, 30, ""),
          new GridSpec(4, 9, 5, 5, 0, 30, ""));

  private static List<Record> records() {
    FloatGrid some = Grounds.filled(SPEC, 1);
    Terrain terrain = Grounds.plane(SPEC, 0, 0.1);
    TerrainLayers.SlopeErrors errors = new TerrainLayers.SlopeErrors(some, some, Optional.of(some));
    Hazard.Boulders rocks = new Hazard.Boulders(some, some, 9, 1);
    Hazard hazard = Grounds.noHazard(SPEC).with(rocks, some);
    Mobility m;
    try (Workers workers = new Workers(1)) {
      m =
          MobilityStage.compute(
              terrain, hazard, Vehicles.withStep(0.3), Body.MOON, workers, Progress.NONE);
    }
    return List.of(
        terrain,
        errors,
        new TerrainLayers(terrain, some, some, Optional.of(errors), List.of()),
        new ShownTerrain(some, some, some, null, List.of()),
        rocks,
        hazard,
        new ShownHazard(some, hazard.causes(), hazard.outline(), List.of()),
        new Mobility(
            m.vehicle(),
            m.cls(),
            m.limit(),
            m.headingsPct(),
            m.speedMs(),
            m.energyJm(),
            m.margin01(),
            Optional.of(some),
            m.field(),
            m.unresolved(),
            m.slow(),
            m.notes()),
        new ShownMobility(
            m.vehicle(),
            m.cls(),
            m.limit(),
            m.headingsPct(),
            m.speedMs(),
            Optional.of(some),
            m.unresolved(),
            m.slow(),
            new ClassCells.Tally().cells(1),
            m.notes()));
  }

  @Test
  void noLayerIsMissingOrOfOtherCells() throws Exception {
    int layers = 0;
    for (Record whole : records()) {
      RecordComponent[] parts = whole.getClass().getRecordComponents();
      Object[] values = new Object[parts.length];
      for (int i = 0; i < parts.length; i++) {
        values[i] = parts[i].getAccessor().invoke(whole);
      }
      make(whole, values);
      for (int i = 0; i < parts.length; i++) {
        if (!isLayer(values[i])) {
          continue;
        }
        layers++;
        String where = whole.getClass().getSimpleName() + "." + parts[i].getName();
        assertInstanceOf(NullPointerException.class, refusal(whole, values, i, null), where);
        for (GridSpec other : OTHERS) {
          Object replaced =
              values[i] instanceof ByteGrid
                  ? ByteGrid.empty(other)
                  : values[i] instanceof FloatGrid
                      ? FloatGrid.empty(other)
                      : Optional.of(FloatGrid.empty(other));
          assertInstanceOf(
              IllegalArgumentException.class, refusal(whole, values, i, replaced), where);
        }
      }
    }
    assertTrue(layers > 30, layers + " layers");
    assertThrows(IllegalArgumentException.class, () -> new FloatGrid(SPEC, new float[35]));
    assertThrows(IllegalArgumentException.class, () -> new ByteGrid(SPEC, new byte[35]));
  }

  private static boolean isLayer(Object value) {
    return value instanceof FloatGrid
        || value instanceof ByteGrid
        || (value instanceof Optional<?> o && o.orElseThrow() instanceof FloatGrid);
  }

  private static Throwable refusal(Record whole, Object[] values, int at, Object replaced) {
    Object[] changed = values.clone();
    changed[at] = replaced;
    return assertThrows(InvocationTargetException.class, () -> make(whole, changed)).getCause();
  }

  private static void make(Record like, Object[] values) throws Exception {
    Class<?>[] types =
        Arrays.stream(like.getClass().getRecordComponents())
            .map(RecordComponent::getType)
            .toArray(Class<?>[]::new);
    like.getClass().getDeclaredConstructor(types).newInstance(values);
  }
}
