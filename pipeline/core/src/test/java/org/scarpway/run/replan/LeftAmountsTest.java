package org.scarpway.run.replan;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.config.Job;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Suits;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** No crew has more left of anything than it had at departure. */
class LeftAmountsTest {
  private static Job.ReachEntry question(Budget budget) {
    return new Job.ReachEntry(
        "day",
        "west",
        budget,
        HomeRule.DRIVE_BACK,
        List.of(),
        0,
        new Rescue(0, 0, 0, 0),
        new Reserves(10, 10, 10, 10),
        0,
        false,
        List.of(),
        null,
        "cart",
        "here");
  }

  private static Vehicle vehicle(Double batteryKwh, Double lifeSupportH) {
    return new Vehicle(
        "cart",
        "",
        1000.0,
        null,
        null,
        null,
        null,
        VehicleParts.drive(2, null, 5000.0, 0.8, null, 50.0, 0.1),
        null,
        batteryKwh,
        lifeSupportH == null ? null : VehicleParts.crew(2, 2, lifeSupportH));
  }

  private static Double some(Random random) {
    return random.nextInt(3) == 0 ? null : (Double) (0.1 * (1 + random.nextInt(400)));
  }

  private static Double times(Double v, double factor) {
    return v == null ? null : (Double) (v * factor);
  }

  private static void least(Map<String, Double> all, String key, Double amount) {
    if (amount != null) {
      all.merge(key, amount, Math::min);
    }
  }

  private static Map<String, String> text(Map<String, Double> amounts) {
    Map<String, String> text = new LinkedHashMap<>();
    amounts.forEach((key, v) -> text.put(key, BigDecimal.valueOf(v).toPlainString()));
    return text;
  }

  @Test
  void allOfTheLeastSupplyIsAcceptedAndAnyMoreRefused() {
    Random random = new Random(5);
    for (int i = 0; i < 500; i++) {
      Double timeH = some(random);
      Double energyKwh = some(random);
      Double distanceKm = some(random);
      Double aliveH = some(random);
      Double batteryKwh = some(random);
      Double vehicleH = some(random);
      Double suitH = some(random);
      Suits suits = suitH == null ? null : new Suits(suitH * 3600, 600);
      Budget budget =
          new Budget(
              times(timeH, 3600),
              times(energyKwh, 3.6e6),
              times(distanceKm, 1000),
              times(aliveH, 3600),
              suits);
      Map<String, Double> most = new LinkedHashMap<>();
      least(most, "time_h", timeH);
      least(most, "energy_kwh", energyKwh);
      least(most, "energy_kwh", batteryKwh);
      least(most, "distance_km", distanceKm);
      least(most, "life_support_h", aliveH);
      least(most, "life_support_h", vehicleH);
      least(most, "life_support_h", suitH);
      Job.ReachEntry question = question(budget);
      Vehicle vehicle = vehicle(batteryKwh, vehicleH);
      Left left = assertDoesNotThrow(() -> LeftAmounts.read(text(most), question, vehicle));
      assertEquals(most.containsKey("time_h"), left.timeS() != null);
      for (String key : most.keySet()) {
        Map<String, Double> more = new LinkedHashMap<>(most);
        more.put(key, most.get(key) * (1 + 1e-6 + random.nextInt(3)));
        String told =
            assertThrows(UserError.class, () -> LeftAmounts.read(text(more), question, vehicle))
                .getMessage();
        assertEquals(1, told.lines().count(), told);
        assertTrue(told.startsWith("--left: " + key + " = "), told);
      }
    }
  }

  @Test
  void theBudgetAndTheQuestionAreNamed() {
    Budget budget = new Budget(3600.0, 4 * 3.6e6, null);
    Map<String, String> left = Map.of("time_h", "6", "energy_kwh", "25", "life_support_h", "20");
    String told =
        assertThrows(
                UserError.class,
                () -> LeftAmounts.read(left, question(budget), vehicle(60.0, 48.0)))
            .getMessage();
    assertEquals(2, told.lines().count(), told);
    assertTrue(told.contains("at most the 1 h of budget.drive_h of question 'day'"), told);
    assertTrue(told.contains("at most the 4 kWh of budget.energy_kwh of question 'day'"), told);
  }
}
