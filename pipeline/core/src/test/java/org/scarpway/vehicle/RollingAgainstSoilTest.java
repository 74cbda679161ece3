package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

/**
 * Against Bekker's sinkage and resistance of a rigid wheel, written out, every wheel loaded alike.
 */
class RollingAgainstSoilTest {
  private static Vehicle cart(double loadN, double b, double r, double rolling, Soil soil) {
    return new Vehicle(
        "cart",
        "",
        4 * loadN / Body.MOON.gravityMs2(),
        new Vehicle.Chassis(3, 2, 0.4, null, null, null),
        VehicleParts.wheels(List.of(1.0, -1.0), 1.8, r, b),
        new Vehicle.Limits(20.0, 20.0, null, null, null),
        null,
        VehicleParts.drive(3, null, 1000.0, 0.6, 0.0, 100.0, rolling),
        soil,
        null,
        null);
  }

  /** Rc = b (kc/b + kphi) z^(n+1) / (n+1), z = [3 W / ((3-n)(kc + b kphi) sqrt D)]^(2/(2n+1)). */
  private static double ofSoil(double loadN, double b, double r, Soil.Bekker k) {
    double stiff = k.kc() + b * k.kphi();
    double z = Math.pow(3 * loadN / ((3 - k.n()) * stiff * Math.sqrt(2 * r)), 2 / (2 * k.n() + 1));
    return stiff * Math.pow(z, k.n() + 1) / (k.n() + 1) / loadN;
  }

  @Test
  void aLowerCoefficientThanThatOfTheSoilIsTold() {
    // Published: 0.112165 for b 0.23 m, D 0.818 m, 283.5 N.
    assertEquals(0.112165, ofSoil(283.5, 0.23, 0.409, Vehicles.LUNAR.bekker()), 1e-6);
    Random random = new Random(1);
    for (int i = 0; i < 200; i++) {
      double loadN = 100 + 2000 * random.nextDouble();
      double b = 0.15 + 0.3 * random.nextDouble();
      double r = 0.3 + 0.4 * random.nextDouble();
      double soil = ofSoil(loadN, b, r, Vehicles.LUNAR.bekker());
      double share = 0.5 + random.nextDouble();
      if (Math.abs(share - 0.95) > 0.001) {
        Optional<String> note =
            RollingAgainstSoil.note(cart(loadN, b, r, share * soil, Vehicles.LUNAR), Body.MOON);
        assertEquals(share < 0.95, note.isPresent(), "share " + share);
        String pct = Math.round(100 * (1 - share)) + " % below";
        assertTrue(note.isEmpty() || note.get().contains(pct), () -> pct + ": " + note);
      }
    }
    assertTrue(RollingAgainstSoil.note(cart(300, 0.2, 0.4, 0.01, null), Body.MOON).isEmpty());
  }
}
