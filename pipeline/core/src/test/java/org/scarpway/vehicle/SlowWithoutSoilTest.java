package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Every way to state them, with a soil or without. */
class SlowWithoutSoilTest {
  private static Vehicle cart(Double slipPct, Double sinkageM, Soil soil) {
    return new Vehicle(
        "cart",
        "",
        400.0,
        new Vehicle.Chassis(3, 2, 0.4, null, null, null),
        VehicleParts.wheels(List.of(1.0, -1.0), 1.8, 0.4, 0.2),
        new Vehicle.Limits(20.0, 20.0, null, null, null),
        new Vehicle.SlowFrom(10.0, null, null, slipPct, sinkageM, 50.0),
        VehicleParts.drive(3, null, 1000.0, 0.6, 0.0, 100.0, 0.1),
        soil,
        null,
        null);
  }

  @Test
  void whatNothingMeasuresIsTold() {
    for (Double slipPct : new Double[] {null, 20.0}) {
      for (Double sinkageM : new Double[] {null, 0.05}) {
        String told = SlowWithoutSoil.note(cart(slipPct, sinkageM, null), false).orElse("");
        assertEquals(slipPct != null, told.contains("slip_pct"), told);
        assertEquals(sinkageM != null, told.contains("sinkage_m"), told);
        assertEquals("", SlowWithoutSoil.note(cart(slipPct, sinkageM, null), true).orElse(""));
        Vehicle onSoil = cart(slipPct, sinkageM, Vehicles.LUNAR);
        assertEquals("", SlowWithoutSoil.note(onSoil, false).orElse(""));
      }
    }
  }
}
