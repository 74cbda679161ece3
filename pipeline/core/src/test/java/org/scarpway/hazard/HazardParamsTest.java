package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

class HazardParamsTest {
  private static final String[] LENGTHS = {
    "bellyM", "swathM", "slopeDeg", "stepM", "roughnessM", "footprintM"
  };

  private static HazardParams with(Double rocks, double... v) {
    return new HazardParams(
        new RockParams(rocks, null, v[0], v[1]), List.of(), 0, v[2], v[3], v[4], v[5], null);
  }

  @Test
  void eachValueMustBeAboveZero() {
    for (int i = 0; i < LENGTHS.length; i++) {
      for (double wrong : new double[] {0, -1, Double.NaN}) {
        double[] v = {1, 1, 1, 1, 1, 1};
        v[i] = wrong;
        String name = LENGTHS[i];
        String message =
            assertThrows(IllegalArgumentException.class, () -> with(null, v)).getMessage();
        assertTrue(message.startsWith(name + " must be positive"), message);
      }
      double[] none = {1, 1, 1, 1, 1, 1};
      none[i] = Double.POSITIVE_INFINITY;
      assertDoesNotThrow(() -> with(null, none));
    }
  }

  @Test
  void rocksCoverAFraction() {
    double[] v = {1, 1, 1, 1, 1, 1};
    for (double wrong : new double[] {-1e-9, 0.41, 1, 5, Double.NaN}) {
      String message =
          assertThrows(IllegalArgumentException.class, () -> with(wrong, v)).getMessage();
      assertTrue(message.startsWith("coverage must be in [0, 0.4"), message);
    }
    assertEquals(0, with(0.0, v).rocks().coverage());
    assertEquals(0.4, with(0.4, v).rocks().coverage());
  }

  @Test
  void keptOutGroundIsThatOfTheTimeOfAsking() {
    List<Geometry> areas = new ArrayList<>();
    areas.add(new GeometryFactory().createPolygon());
    HazardParams params =
        new HazardParams(new RockParams(null, null, 1, 1), areas, 0, 1, 1, 1, 5, null);
    areas.clear();
    assertEquals(1, params.keepOut().size());
  }
}
