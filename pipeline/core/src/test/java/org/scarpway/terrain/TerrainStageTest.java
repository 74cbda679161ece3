package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

class TerrainStageTest {
  private static GridSpec square(int side, double cellM) {
    return new GridSpec(side, side, cellM, cellM, 0, 0, "");
  }

  /** Whatever a file says of its cells, what is measured over is settled in no time or refused. */
  @Test
  void cellsOfAnySizeAreBoundedBeforeAnythingIsMeasured() {
    Random r = new Random(4);
    assertTimeout(
        Duration.ofSeconds(20),
        () -> {
          for (int i = 0; i < 2000; i++) {
            double cellM = Math.pow(10, -300 + 310 * r.nextDouble());
            if (i % 2 == 0) {
              cellM = Math.pow(10, -4 + 5 * r.nextDouble());
            }
            GridSpec spec = square(3 + r.nextInt(20_000), cellM);
            TerrainParams p =
                new TerrainParams(
                    SlopeMethod.HORN,
                    Math.pow(10, -3 + 7 * r.nextDouble()),
                    Math.pow(10, -3 + 4 * r.nextDouble()),
                    Math.pow(10, -3 + 4 * r.nextDouble()));
            try {
              int halo = FootprintFit.haloRows(p, spec);
              assertTrue(halo >= 1 && halo <= spec.rows(), halo + " rows of " + spec.rows());
              assertTrue(StepHeight.haloCells(p.wheelSpacingM(), cellM) <= StepHeight.MOST_CELLS);
            } catch (UserError e) {
              assertEquals(1, e.getMessage().lines().count());
              assertTrue(e.getMessage().length() < 500, e.getMessage());
            }
          }
        });
  }

  @Test
  void cellsTooFineForTheWheelSpacingAreRefusedWithTheSizeThatIsNot() {
    TerrainParams p = new TerrainParams(SlopeMethod.HORN, 3, 1.92, 2.5);
    assertEquals(64, StepHeight.haloCells(1.92, 0.03));
    assertTrue(FootprintFit.haloRows(p, square(2000, 0.03)) > 0);
    UserError e =
        assertThrows(UserError.class, () -> FootprintFit.haloRows(p, square(2000, 0.0299)));
    assertTrue(e.getMessage().contains("set dem.cell_size_m to 0.03 or more"), e.getMessage());
  }
}
