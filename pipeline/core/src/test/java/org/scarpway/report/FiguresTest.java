package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class FiguresTest {
  @Test
  void digitsThatMeanSomething() {
    assertEquals("12.3", Figures.sig(12.345));
    assertEquals("0.0123", Figures.sig(0.012345));
    assertEquals("12346", Figures.sig(12345.6));
    assertEquals("0", Figures.sig(0));
    assertEquals("5.00", Figures.sig(4.9999));
    assertEquals("–", Figures.sig(Double.NaN));
    assertEquals("0.0", Figures.fixed(-0.04, 1));
    assertEquals("-0.1", Figures.fixed(-0.05, 1));
    assertEquals("1200000", Figures.plain(1.2e6));
    assertEquals("0.3", Figures.plain(0.1 + 0.2));
  }

  @Test
  void quantitiesWithUnits() {
    assertEquals("12.3 km²", Figures.area(12.34e6));
    assertEquals("250 m²", Figures.area(250));
    assertEquals("0 km²", Figures.area(0));
    assertEquals("0.0573", Figures.km2(57_349));
    assertEquals("0.0002", Figures.km2(175));
    assertEquals("<0.0001", Figures.km2(25));
    assertEquals("1.23", Figures.km2(1_234_567));
    assertEquals("36 m", Figures.distance(36));
    assertEquals("4.2 km", Figures.distance(4200));
    assertEquals("45 s", Figures.duration(45));
    assertEquals("1 min", Figures.duration(59.7));
    assertEquals("12 min", Figures.duration(720));
    assertEquals("6 h", Figures.duration(21_600));
    assertEquals("5 h 40 min", Figures.duration(20_400));
    assertEquals("1 h", Figures.duration(3599));
    assertEquals("-10 min", Figures.duration(-600));
    assertEquals("60 kWh", Figures.energy(60 * 3.6e6));
    assertEquals("85.12345° S, 30.50000° E", Figures.lonLat(new double[] {30.5, -85.12345}));
    assertEquals("km²", Figures.unit("km2"));
  }

  @Test
  void sharesDoNotRoundToNothingOrToAll() {
    assertEquals("0", Figures.percent(0, 10));
    assertEquals("<0.1", Figures.percent(0.001, 10));
    assertEquals("2.5", Figures.percent(0.25, 10));
    assertEquals("25", Figures.percent(2.5, 10));
    assertEquals(">99.5", Figures.percent(9.99, 10));
    assertEquals("100", Figures.percent(10, 10));
    assertEquals("–", Figures.percent(1, 0));
  }
}
