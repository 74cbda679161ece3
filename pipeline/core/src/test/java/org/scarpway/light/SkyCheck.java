package org.scarpway.light;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.scarpway.validation.Validation;

/** Sun and Earth over the Moon, Mars and the Earth against published rows and other programs. */
class SkyCheck {
  private static final String HOURLY =
      "NASA Scientific Visualization Studio, Moon Phase and Libration, hourly table (DE421, mean"
          + " Earth axes)";
  private static final String MEEUS = "Meeus, Astronomical Algorithms, 2nd ed. 1998, example ";
  private static final String ALLISON =
      "Allison and McEwen 2000, worked example of NASA GISS for 2000-01-06 00:00 UTC";

  /** Time; sub-solar longitude, latitude; sub-Earth longitude, latitude; distance (km). */
  private static final Object[][] ROWS = {
    {"2020-01-01T00:00:00Z", 114.557, -0.045, 0.773, 6.360, 403_898.0, "V"},
    {"2020-01-03T12:00:00Z", 84.148, -0.096, -2.382, 6.805, 403_260.0, "V"},
    {"2021-01-01T00:00:00Z", -27.058, -0.567, -5.232, -4.624, 386_460.0, "V"},
    {"2024-01-01T00:00:00Z", -55.867, -1.554, 0.041, -4.685, 404_634.0, "Vs"},
    {"2024-01-01T01:00:00Z", -56.372, -1.554, -0.015, -4.644, 404_664.0, "Vs"},
  };

  @Test
  void theMoonsHours() {
    for (Object[] row : ROWS) {
      String time = (String) row[0];
      SkyPosition got = new MoonSky().at(Instant.parse(time));
      String flag = (String) row[6];
      String at = " over the Moon at " + time;
      String id = "14.1-" + time.substring(0, 13) + "-";
      double[] values = {
        got.sunLonDeg(), got.sunLatDeg(), got.earthLonDeg(), got.earthLatDeg(), got.earthKm()
      };
      String[] names = {"sun longitude", "sun latitude", "Earth longitude", "Earth latitude", "km"};
      double[] tolerances = {0.012, 0.012, 0.008, 0.008, 60};
      for (int k = 0; k < 5; k++) {
        String name = k == 4 ? "Earth's distance (km)" : names[k] + " (deg)";
        Validation.near(
            id + names[k].replace(' ', '-'),
            name + at,
            HOURLY,
            flag,
            (double) row[k + 1],
            values[k],
            tolerances[k]);
      }
    }
  }

  @Test
  void extremesOfThreeYears() {
    double[] low = {9e9, 9e9, 9e9};
    double[] high = {-9e9, -9e9, -9e9};
    MoonSky sky = new MoonSky();
    Instant end = Instant.parse("2023-01-01T00:00:00Z");
    for (Instant t = Instant.parse("2020-01-01T00:00:00Z");
        t.isBefore(end);
        t = t.plusSeconds(7200)) {
      SkyPosition p = sky.at(t);
      double[] v = {p.sunLatDeg(), p.earthLatDeg(), p.earthKm()};
      for (int k = 0; k < 3; k++) {
        low[k] = Math.min(low[k], v[k]);
        high[k] = Math.max(high[k], v[k]);
      }
    }
    String source = HOURLY + ", extremes of 2020 to 2022";
    Validation.near(
        "14.1-D9-low", "lowest sub-solar latitude (deg)", source, "V", -1.582, low[0], 0.005);
    Validation.near(
        "14.1-D9-high", "highest sub-solar latitude (deg)", source, "V", 1.569, high[0], 0.005);
    Validation.near(
        "14.1-D11-low", "lowest sub-Earth latitude (deg)", source, "V", -6.858, low[1], 0.01);
    Validation.near(
        "14.1-D11-high", "highest sub-Earth latitude (deg)", source, "V", 6.864, high[1], 0.01);
    Validation.near("14.1-D12-low", "least distance (km)", source, "V", 356_795, low[2], 60);
    Validation.near("14.1-D12-high", "greatest distance (km)", source, "V", 406_694, high[2], 60);
  }

  @Test
  void extremesOfTwentyYears() {
    double[] low = {9e9, 9e9, 9e9};
    double[] high = {-9e9, -9e9, -9e9};
    MoonSky sky = new MoonSky();
    Instant end = Instant.parse("2044-01-01T00:00:00Z");
    for (Instant t = Instant.parse("2024-01-01T00:00:00Z");
        t.isBefore(end);
        t = t.plusSeconds(4 * 3600)) {
      SkyPosition p = sky.at(t);
      double[] v = {p.sunLatDeg(), p.earthLatDeg(), p.earthLonDeg()};
      for (int k = 0; k < 3; k++) {
        low[k] = Math.min(low[k], v[k]);
        high[k] = Math.max(high[k], v[k]);
      }
    }
    String source = "an implementation of its own by the same series, hourly, 2024 to 2043";
    double[][] rows = {{-1.5863, 1.5867}, {-6.864, 6.867}, {-8.046, 8.079}};
    String[] names = {"sub-solar latitude", "sub-Earth latitude", "sub-Earth longitude"};
    for (int k = 0; k < 3; k++) {
      Validation.near(
          "14.1-D13-low-" + k,
          "lowest " + names[k] + " (deg)",
          source,
          "R",
          rows[k][0],
          low[k],
          0.01);
      Validation.near(
          "14.1-D13-high-" + k,
          "highest " + names[k] + " (deg)",
          source,
          "R",
          rows[k][1],
          high[k],
          0.01);
    }
  }

  @Test
  void seriesOfMoonAndSun() {
    double april = 2_448_724.5 - 2_451_545;
    double[] moon = MoonSeries.position(april / 36_525);
    String a47 = MEEUS + "47.a, 1992 April 12.0 TD";
    Validation.near(
        "14.2-D14-lon", "Moon's longitude (deg)", a47, "M", 133.162655, turn(moon[0]), 2e-6);
    Validation.near("14.2-D14-lat", "Moon's latitude (deg)", a47, "M", -3.229126, moon[1], 2e-6);
    Validation.near("14.2-D14-km", "Moon's distance (km)", a47, "M", 368_409.7, moon[2], 0.1);
    double[] sun = SunSeries.longitudeDistance((2_448_908.5 - 2_451_545) / 36_525);
    String a25 = MEEUS + "25.a, 1992 October 13.0 TD";
    Validation.near(
        "14.2-D15-lon", "Sun's true longitude (deg)", a25, "M", 199.90988, turn(sun[0]), 2e-5);
    Validation.near("14.2-D15-au", "Sun's distance (au)", a25, "M", 0.99766, sun[1], 1e-5);
    SkyPosition p = MoonSky.at(april);
    String a53 = MEEUS + "53.a, 1992 April 12.0 TD (axes of another sort: 0.03 degrees apart)";
    Validation.near(
        "14.2-D16-lon",
        "total libration in longitude (deg)",
        a53,
        "M",
        -1.23,
        p.earthLonDeg(),
        0.03);
    Validation.near(
        "14.2-D16-lat", "total libration in latitude (deg)", a53, "M", 4.20, p.earthLatDeg(), 0.03);
    Validation.near(
        "14.2-D17-lon", "sub-solar longitude (deg)", a53, "M", 67.89, p.sunLonDeg(), 0.03);
    Validation.near(
        "14.2-D17-lat", "sub-solar latitude (deg)", a53, "M", 1.46, p.sunLatDeg(), 0.03);
  }

  @Test
  void thePoleOfTheMoon() {
    String source = "JPL Horizons, MOON_ME of DE441, as kept in a public test set";
    double[][] rows = {{2_440_587.5, 270.94328, 68.05519}, {2_440_627.5, 271.21900, 68.01814}};
    for (double[] row : rows) {
      BodyAxes axes = BodyAxes.moon(row[0] - 2_451_545);
      Validation.near(
          "14.2-D18-ra-" + row[0],
          "right ascension of the Moon's pole (deg)",
          source,
          "V",
          row[1],
          axes.poleRaDeg(),
          0.008);
      Validation.near(
          "14.2-D18-dec-" + row[0],
          "declination of the Moon's pole (deg)",
          source,
          "V",
          row[2],
          axes.poleDecDeg(),
          0.008);
    }
  }

  @Test
  void leapSeconds() {
    String source = "IERS, UTC-TAI.history";
    Object[][] rows = {
      {"1972-01-01T00:00:00Z", 42.184}, {"1998-12-31T23:59:59Z", 63.184},
      {"1999-01-01T00:00:00Z", 64.184}, {"2016-12-31T23:59:59Z", 68.184},
      {"2017-01-01T00:00:00Z", 69.184}, {"2026-06-01T00:00:00Z", 69.184}
    };
    for (Object[] row : rows) {
      String time = (String) row[0];
      Validation.near(
          "14.2-D21-" + time,
          "TT - UTC (s) at " + time,
          source,
          "V",
          (double) row[1],
          TerrestrialTime.aheadOfUtcS(Instant.parse(time)),
          1e-9);
    }
  }

  @Test
  void mars() {
    double days = TerrestrialTime.daysSinceJ2000(Instant.parse("2000-01-06T00:00:00Z"));
    MarsSky.Season s = MarsSky.season(days);
    Validation.near("14.3-D25", "Ls of Mars (deg)", ALLISON, "Vs", 277.18758, s.lsDeg(), 1e-4);
    Validation.near(
        "14.3-D26",
        "equation of time of Mars (deg)",
        ALLISON,
        "Vs",
        -5.18774,
        s.timeEquationDeg(),
        1e-4);
    Validation.near(
        "14.3-D27-date", "Mars sol date", ALLISON, "Vs", 44_795.99976, MarsSky.solDate(days), 1e-5);
    Validation.near(
        "14.3-D27-time",
        "mean solar time at the prime meridian (h)",
        ALLISON,
        "Vs",
        23 + 59 / 60.0 + 39 / 3600.0,
        MarsSky.meanTimeH(days),
        1 / 3600.0);
    Validation.near(
        "14.3-D28-lat",
        "areographic latitude under the sun (deg)",
        "public test of the same recipe",
        "Vs",
        -25.2282,
        s.areographicLatDeg(),
        1e-3);
    Validation.near(
        "14.3-D28-au",
        "distance of Mars from the sun (au)",
        "public test of the same recipe",
        "Vs",
        1.3935,
        s.distanceAu(),
        2e-4);
    Validation.near(
        "14.3-D30",
        "west longitude under the sun of Mars (deg)",
        "Allison and McEwen 2000, by the formulae",
        "C",
        174.7260,
        MarsSky.sunWestDeg(days),
        1e-3);
  }

  /**
   * Two publications that share nothing but the planet: seasons by the recipe of Allison and
   * McEwen, and the mean orbit with the pole and the prime meridian of the IAU working group.
   */
  @Test
  void marsByItsOrbit() {
    double lon = 0;
    double lat = 0;
    double share = 0;
    Instant end = Instant.parse("2050-01-01T00:00:00Z");
    MarsSky sky = new MarsSky();
    for (Instant t = Instant.parse("2000-01-01T00:00:00Z");
        t.isBefore(end);
        t = t.plusSeconds(1_000_003)) {
      double days = TerrestrialTime.daysSinceJ2000(t);
      SkyPosition recipe = sky.at(t);
      SkyPosition orbit = SkyPosition.of(MarsSky.sunByOrbitKm(days), null);
      double apart = recipe.sunLonDeg() - orbit.sunLonDeg();
      lon = Math.max(lon, Math.abs(apart - 360 * Math.rint(apart / 360)));
      lat = Math.max(lat, Math.abs(recipe.sunLatDeg() - orbit.sunLatDeg()));
      share = Math.max(share, Math.abs(recipe.sunKm() / orbit.sunKm() - 1));
    }
    String source = "Standish, Keplerian elements (JPL) with the axes of Archinal et al. 2018";
    Validation.near(
        "14.3-orbit-lon",
        "worst longitude under the sun of Mars, 2000 to 2050 (deg)",
        source,
        "C",
        0,
        lon,
        0.06);
    Validation.near(
        "14.3-orbit-lat",
        "worst declination of the sun of Mars, 2000 to 2050 (deg)",
        source,
        "C",
        0,
        lat,
        0.03);
    Validation.near(
        "14.3-orbit-km",
        "worst relative distance of the sun of Mars, 2000 to 2050",
        source,
        "C",
        0,
        share,
        5e-4);
  }

  private static double turn(double deg) {
    double rest = deg % 360;
    return rest < 0 ? rest + 360 : rest;
  }
}
