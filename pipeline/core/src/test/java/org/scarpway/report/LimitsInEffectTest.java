package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.vehicle.SlowWithoutSoil;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

class LimitsInEffectTest {
  private static Vehicle cart(Vehicle.SlowFrom slow) {
    Vehicle.Drive drive = VehicleParts.drive(2, null, null, null, null, 0.0, null);
    return new Vehicle("cart", "", null, null, null, null, slow, drive, null, null, null);
  }

  /** What the warning calls idle is not listed as in effect, and everything else is. */
  @Test
  void limitsThatWantASoilAreInEffectOnlyWithOne() {
    Double[] none = {null, 20.0};
    for (Double slip : none) {
      for (Double sinkage : none) {
        Vehicle v = cart(new Vehicle.SlowFrom(10.0, 0.2, 0.15, slip, sinkage, 30.0));
        for (boolean soil : new boolean[] {false, true}) {
          List<String> listed =
              LimitsInEffect.table(v, null, soil).rows().stream().map(TableView.Row::head).toList();
          boolean idle = SlowWithoutSoil.note(v, soil).isPresent();
          assertEquals(!soil && (slip != null || sinkage != null), idle);
          assertEquals(soil && slip != null, listed.contains("wheel slip, slow from"));
          assertEquals(soil && sinkage != null, listed.contains("wheel sinkage, slow from"));
          assertTrue(listed.contains("roughness, slow from"));
          assertTrue(listed.contains("loss of speed, slow from"));
        }
      }
    }
  }
}
