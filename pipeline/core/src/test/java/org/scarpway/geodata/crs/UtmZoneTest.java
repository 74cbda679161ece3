package org.scarpway.geodata.crs;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class UtmZoneTest {
  /** Zones of PROJ 9.1, from its query of reference systems by area. */
  @Test
  void zonesAreThoseOfProj() {
    assertEquals("33N", UtmZone.at(15.0, 52.0));
    assertEquals("25S", UtmZone.at(-34.9, -8.0));
    assertEquals("1N", UtmZone.at(-179.99, 10));
    assertEquals("60N", UtmZone.at(179.99, 10));
    assertEquals("1S", UtmZone.at(-180, -10));
    assertEquals("31N", UtmZone.at(5.3, 64.1));
    assertEquals("33N", UtmZone.at(15.6, 78.2));
    assertEquals("38N", UtmZone.at(42.01, 80));
  }

  @Test
  void longitudesTurnAndPolesHaveNone() {
    for (int k = -720; k <= 720; k += 7) {
      assertEquals(UtmZone.at(k + 0.3, 40), UtmZone.at(k + 360.3, 40));
    }
    assertEquals("", UtmZone.at(10, 84.1));
    assertEquals("", UtmZone.at(10, -80.1));
    assertEquals("", UtmZone.at(Double.NaN, 10));
  }

  /** Bergen lies in the wide zone 32, and Svalbard has four zones: rules of the published grid. */
  @Test
  void norwayHasItsOwnZones() {
    assertEquals("32N", UtmZone.at(5.3, 60.4));
    assertEquals("31N", UtmZone.at(8.9, 78.2));
    assertEquals("37N", UtmZone.at(35.0, 80.0));
  }
}
