package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.reach.question.ReachRequest.Quantity;

class AmountTest {

  @ParameterizedTest
  @CsvSource({
    "1h, TIME_S, 3600",
    "90min, TIME_S, 5400",
    "90 min, TIME_S, 5400",
    "600s, TIME_S, 600",
    "1.5h, TIME_S, 5400",
    "40kWh, ENERGY_J, 144000000",
    "500Wh, ENERGY_J, 1800000",
    "3.6MJ, ENERGY_J, 3600000",
    "7J, ENERGY_J, 7",
    "5km, DISTANCE_M, 5000",
    "90m, DISTANCE_M, 90"
  })
  void isInSi(String text, Quantity quantity, double si) {
    Amount a = Amount.parse(text);
    assertEquals(quantity, a.quantity());
    assertEquals(si, a.si());
    assertEquals(text, a.label());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "", "1", "h", "1 hour", "1H", "-1h", "+1h", "1e3s", ".5h", "5.h", "1,5h", "1  h", "1h ",
        "KWh", "1kwh"
      })
  void isNothingElse(String text) {
    assertNull(Amount.parse(text));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"1h", "90 min", "1.5kWh", "2MJ", "5km", "1", "1 hour", "-1h", "5.h", "1  h"})
  void isWhatTheSchemaAllows(String text) throws Exception {
    try (var in = AmountTest.class.getResourceAsStream("/schema/job.schema.json")) {
      String pattern = new ObjectMapper().readTree(in).at("/$defs/amount/pattern").asText();
      assertEquals(text.matches(pattern), Amount.parse(text) != null);
    }
  }
}
