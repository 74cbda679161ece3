package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against scipy 1.10: special.ive for the mean, stats.ncx2 for the tail. */
class RiceGradientTest {
  @ParameterizedTest
  @CsvSource({
    "0, 0.05, 0.06266570686577501",
    "0.02, 0.05, 0.06514759894337584",
    "0.1, 0.05, 0.11361917140343711",
    "0.4, 0.05, 0.4031375083041456",
    "0.7, 0.1, 0.7071804953654977",
    "0.99, 0.1, 0.9950635914648758",
    "1, 0.1, 1.0050126936677415",
    "1, 0.0999, 1.0050026475706733",
    "1.2, 0.1, 1.2041739775086733",
    "2, 0.1, 2.0025015684057217",
    "3, 0.05, 3.0004166956139184",
    "0.5, 0.002, 0.5000040000160004"
  })
  void mean(double gradient, double sigma, double want) {
    assertEquals(want, RiceGradient.mean(gradient, sigma), 1e-12 * want);
  }

  @ParameterizedTest
  @CsvSource({
    "0.2, 0.3, 0.05, 0.028851084749766855",
    "0.3, 0.3, 0.05, 0.5333624829317896",
    "0.4, 0.3, 0.05, 0.9808757401995816",
    "0.3, 0.3, 0.2, 0.6437159694486956",
    "0.05, 0.3, 0.4, 0.7564926296743586",
    "0.3, 0.3, 0.001, 0.5006649047241535",
    "0, 0.1, 0.05, 0.1353352832366127",
    "1, 0.3, 0.05, 1",
    "0.1, 1, 0.05, 0"
  })
  void exceedance(double gradient, double limit, double sigma, double want) {
    assertEquals(want, RiceGradient.exceedance(gradient, limit, sigma), 1e-9);
  }

  /** The arc tangent averaged over the distribution of Rayleigh, by scipy's integrate.quad. */
  @ParameterizedTest
  @CsvSource({
    "0.01, 0.7180243166442258",
    "0.05, 3.581570816698866",
    "0.3, 19.97735524509895",
    "1, 47.08409253572221",
    "4, 74.52577853059236"
  })
  void meanSlopeOfLevelGround(double sigma, double want) {
    assertEquals(want, RiceGradient.meanSlopeOfLevelDeg(sigma), 1e-9);
  }

  /** By scipy's stats.rayleigh.ppf. */
  @ParameterizedTest
  @CsvSource({
    "0.05, 0.5, 0.05887050112577374",
    "0.05, 0.95, 0.12238734153404081",
    "0.3, 0.99, 0.9104562776310877",
    "2, 0.01, 0.2835536753914707"
  })
  void quantilesOfLevelGround(double sigma, double p, double want) {
    assertEquals(want, RiceGradient.quantileOfLevel(sigma, p), 1e-14);
  }

  @Test
  void withoutAnErrorTheGradientIsWhatItIs() {
    assertEquals(0.3, RiceGradient.mean(0.3, 0));
    assertEquals(1, RiceGradient.exceedance(0.31, 0.3, 0));
    assertEquals(0, RiceGradient.exceedance(0.3, 0.3, 0));
    assertEquals(0, RiceGradient.exceedance(0.29, 0.3, 0));
  }
}
