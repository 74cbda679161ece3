package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Abramowitz and Stegun 1964, tables 5.1 and 5.2 (from memory, reproduced with scipy 1.10). */
class ExponentialIntegralTest {
  @ParameterizedTest
  @CsvSource({
    "0.01, 4.037929576538114",
    "0.5, 0.5597735947761608",
    "1, 0.21938393439552026",
    "1.0000001, 0.21938389760757987",
    "2, 0.04890051070806112",
    "5, 0.001148295591275326",
    "10, 4.156968929685324e-06",
    "40, 1.0367732614516570e-19"
  })
  void tableValues(double x, double want) {
    assertEquals(want, ExponentialIntegral.e1(x), 1e-13 * want);
  }
}
