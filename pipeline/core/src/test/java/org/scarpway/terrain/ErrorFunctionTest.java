package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against scipy 1.10: special.erf and special.erfcx. */
class ErrorFunctionTest {
  @ParameterizedTest
  @CsvSource({
    "-2.5, -0.999593047982555",
    "-0.3, -0.3286267594591274",
    "0, 0",
    "1e-8, 1.1283791670955125e-08",
    "0.1, 0.1124629160182849",
    "1, 0.8427007929497148",
    "1.999, 0.9953015566513705",
    "2, 0.9953222650189527",
    "2.001, 0.9953428907185247",
    "3, 0.9999779095030014",
    "7, 1"
  })
  void erf(double x, double want) {
    assertEquals(want, ErrorFunction.erf(x), 1e-13 * Math.abs(want));
  }

  @ParameterizedTest
  @CsvSource({
    "0, 1",
    "0.5, 0.6156903441929258",
    "1, 0.427583576155807",
    "1.999, 0.2555025145905779",
    "2, 0.2553956763105058",
    "2.5, 0.2108063640611436",
    "5, 0.11070463773306861",
    "30, 0.018795888861416754",
    "1000, 0.0005641893014533876"
  })
  void scaledErfc(double x, double want) {
    // Just below the split the complement of the series has lost two digits.
    assertEquals(want, ErrorFunction.scaledErfc(x), 2e-13);
  }
}
