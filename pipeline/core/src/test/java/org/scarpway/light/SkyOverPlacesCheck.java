package org.scarpway.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.validation.Validation;

/** Elevation and map azimuth of sun and Earth at places, and shares and radii of their disks. */
class SkyOverPlacesCheck {
  private static final String SPA =
      "NREL solar position algorithm (Reda and Andreas 2004), by solarpositioning 2.0.5";

  /** Time, latitude, longitude, zenith angle, azimuth from north. */
  private static final Object[][] EARTH = {
    {"2003-10-17T19:30:30Z", 39.742476, -105.1786, 50.127954, 194.340241},
    {"2028-07-09T12:01:17Z", -55.435009, -3.994362, 77.807517, 4.739749},
    {"2008-02-07T03:20:30Z", -5.900615, 71.176444, 61.696586, 104.473267},
    {"1994-02-10T13:01:24Z", 31.326996, -101.071979, 96.791857, 102.652477},
    {"2042-12-14T18:32:28Z", 50.543887, -100.079423, 73.794020, 179.366644},
    {"2040-03-05T14:02:17Z", -6.953792, -38.564481, 10.823762, 83.825985},
    {"2048-08-07T18:22:32Z", 49.729531, -78.066382, 36.123895, 206.948610}
  };

  /** A map with x east and y north about a place, true to scale there. */
  private static LonLat about(double lon, double lat, double radiusM) {
    return (x, y) ->
        new double[] {
          lon + Math.toDegrees(x / (radiusM * Math.cos(Math.toRadians(lat)))),
          lat + Math.toDegrees(y / radiusM)
        };
  }

  /** The polar stereographic map of a sphere about its south pole, x to longitude 90. */
  private static double[] southPolar(double x, double y) {
    double colat = 2 * Math.atan(Math.hypot(x, y) / (2 * 1_737_400.0));
    return new double[] {Math.toDegrees(Math.atan2(x, y)), -90 + Math.toDegrees(colat)};
  }

  @Test
  void theSunOnEarth() {
    PlaceAxes.Direction d = new PlaceAxes.Direction();
    for (Object[] row : EARTH) {
      String time = (String) row[0];
      PlaceAxes axes = PlaceAxes.of(about((double) row[2], (double) row[1], 6_371_000), 0, 0, 6371);
      axes.sun(new EarthSky().at(Instant.parse(time)), d);
      Validation.near(
          "14.4-D33-zenith-" + time,
          "zenith angle of the sun without refraction (deg) at " + time,
          SPA,
          "R",
          (double) row[3],
          90 - d.elevationDeg(),
          0.01);
      Validation.near(
          "14.4-D32-azimuth-" + time,
          "azimuth of the sun, on the sky (deg) at " + time,
          SPA,
          "R",
          0,
          (d.azimuthDeg() - (double) row[4]) * Math.cos(Math.toRadians(d.elevationDeg())),
          0.01);
    }
  }

  @Test
  void heightsOfTheSunOverTheMoonsYear() {
    // Noon and midnight under a sun at latitude 1.543; the parallax of the sun is 0.0007 degrees.
    double[][] rows = {
      {85, 0, 1.543, 6.543}, {85, 180, 1.543, -3.457}, {85, 0, -1.543, 3.457},
      {89.5, 0, 1.543, 2.043}, {89.5, 180, 1.543, 1.043}, {89.5, 0, -1.543, -1.043}
    };
    PlaceAxes.Direction d = new PlaceAxes.Direction();
    int n = 0;
    for (double[] row : rows) {
      PlaceAxes axes = PlaceAxes.of(about(0, row[0], 1_737_400), 0, 0, 1737.4);
      axes.sun(new SkyPosition(row[1], row[2], 1.496e8, 0, 0, 384_400), d);
      String what =
          "height of the sun (deg) at latitude "
              + row[0]
              + ", hour angle "
              + row[1]
              + ", declination "
              + row[2];
      Validation.near(
          "14.4-D23-" + n++,
          what,
          "90 - latitude +- declination",
          "C",
          row[3],
          d.elevationDeg(),
          0.002);
    }
    double day = 360 / 708.734;
    Validation.near(
        "14.4-D22",
        "turn of the sun at the pole (deg/h)",
        "synodic month 29.530589 d",
        "C",
        0.507948,
        day,
        1e-5);
  }

  @Test
  void parallaxOfTheEarth() {
    PlaceAxes.Direction d = new PlaceAxes.Direction();
    PlaceAxes pole = PlaceAxes.of(SkyOverPlacesCheck::southPolar, 0, 0, 1737.4);
    pole.earth(new SkyPosition(0, 0, 1.5e8, 30, -6.867, 384_400), d);
    double expected =
        Math.toDegrees(
            Math.atan2(
                384_400 * Math.sin(Math.toRadians(6.867)) - 1737.4,
                384_400 * Math.cos(Math.toRadians(6.867))));
    Validation.near(
        "14.4-parallax",
        "height of the Earth at the Moon's pole, at libration 6.867 (deg)",
        "plane triangle",
        "C",
        expected,
        d.elevationDeg(),
        1e-9);
    Validation.near(
        "14.4-pole-azimuth",
        "map azimuth of longitude 30 at the pole of a polar map (deg)",
        "the map's own definition",
        "C",
        30,
        d.azimuthDeg(),
        1e-5);
  }

  /** A polar map: azimuths turn with the longitude, so that both ways to a place agree. */
  @Test
  void azimuthsOfTheMapAreThoseOfTheGround() {
    Random random = new Random(11);
    PlaceAxes.Direction d = new PlaceAxes.Direction();
    for (int n = 0; n < 300; n++) {
      double x = random.nextDouble() * 200_000 - 100_000;
      double y = random.nextDouble() * 200_000 - 100_000;
      double[] here = southPolar(x, y);
      double lon = random.nextDouble() * 360 - 180;
      double lat = random.nextDouble() * 4 - 2;
      PlaceAxes.of(SkyOverPlacesCheck::southPolar, x, y, 1737.4)
          .sun(new SkyPosition(lon, lat, 1.5e11, 0, 0, 1), d);
      // Spherical triangle of pole, place and the point below the sun.
      double h = Math.toRadians(lon - here[0]);
      double phi = Math.toRadians(here[1]);
      double dec = Math.toRadians(lat);
      double trueAzimuth =
          Math.toDegrees(
              Math.atan2(
                  Math.sin(h) * Math.cos(dec),
                  Math.sin(dec) * Math.cos(phi) - Math.cos(dec) * Math.sin(phi) * Math.cos(h)));
      double sin = Math.sin(phi) * Math.sin(dec) + Math.cos(phi) * Math.cos(dec) * Math.cos(h);
      assertEquals(Math.toDegrees(Math.asin(sin)), d.elevationDeg(), 1e-5);
      // On this map the meridian of a longitude leads away from the pole at that azimuth.
      double apart = d.azimuthDeg() - (here[0] + trueAzimuth);
      assertEquals(0, apart - 360 * Math.rint(apart / 360), 1e-4, "place " + x + ", " + y);
    }
  }

  @Test
  void disks() {
    String share = "(acos(-u) + u sqrt(1 - u2)) / pi";
    double[][] rows = {
      {-1, 0},
      {0, 0.5},
      {1, 1},
      {-0.5, 0.195501},
      {0.5, 0.804499},
      {-0.75, 0.072147},
      {-0.25, 0.342519},
      {0.25, 0.657481},
      {0.75, 0.927853}
    };
    for (double[] row : rows) {
      Validation.near(
          "14.5-C1-" + row[0],
          "share of a disk over a straight horizon at u = " + row[0],
          share,
          "C",
          row[1],
          DiskShare.of(row[0]),
          1e-6);
    }
    double au = 149_597_870.7;
    double[][] suns = {
      {au, 0.266453},
      {0.98329 * au, 0.270981},
      {1.01671 * au, 0.262074},
      {1.38133 * au, 0.192896},
      {1.66599 * au, 0.159936},
      {146_699_483, 0.271718},
      {152_494_814, 0.261391}
    };
    for (double[] row : suns) {
      Validation.near(
          "14.5-C5-" + Math.round(row[0]),
          "radius of the sun (deg) from " + row[0] + " km",
          "asin(695700 km / distance)",
          "C",
          row[1],
          new SkyPosition(0, 0, row[0], 0, 0, 1e6).sunRadiusDeg(),
          1e-5);
    }
    double[][] earths = {{356_448, 1.025282}, {384_400, 0.950721}, {406_702, 0.898583}};
    for (double[] row : earths) {
      Validation.near(
          "14.5-C9-" + Math.round(row[0]),
          "radius of the Earth (deg) from " + row[0] + " km",
          "asin(6378.137 km / distance)",
          "C",
          row[1],
          new SkyPosition(0, 0, au, 0, 0, row[0]).earthRadiusDeg(),
          1e-5);
    }
    double worst = 0;
    for (int i = -2000; i <= 2000; i++) {
      worst = Math.max(worst, Math.abs(DiskShare.tabled(i / 1900f) - DiskShare.of(i / 1900f)));
    }
    Validation.near(
        "14.5-table", "worst share of the disk by the table", share, "C", 0, worst, 2e-4);
  }

  /** The same by counting points of the disk. */
  @Test
  void shareByCounting() {
    int n = 1000;
    for (double u : new double[] {-0.9, -0.3, 0.15, 0.62}) {
      int in = 0;
      int above = 0;
      for (int i = 0; i < n; i++) {
        for (int k = 0; k < n; k++) {
          double x = (2 * i + 1.0) / n - 1;
          double y = (2 * k + 1.0) / n - 1;
          if (x * x + y * y < 1) {
            in++;
            above += y > -u ? 1 : 0;
          }
        }
      }
      assertEquals((double) above / in, DiskShare.of(u), 1e-3);
    }
  }

  @Test
  void timesOutsideAreRefused() {
    MoonSky sky = new MoonSky();
    assertThrows(
        IllegalArgumentException.class, () -> sky.at(Instant.parse("1971-12-31T23:59:59Z")));
    assertThrows(
        IllegalArgumentException.class, () -> sky.at(Instant.parse("2100-01-01T00:00:00Z")));
    assertTrue(sky.at(Instant.parse("2099-12-31T23:00:00Z")).sunKm() > 1.4e8);
  }
}
