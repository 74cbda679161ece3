package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.gdal.osr.SpatialReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIos;

/** Light, shadow and contact as whole jobs: on the Moon, and on the Earth. */
class LightFlowTest {
  @TempDir Path dir;

  private static final String SKY =
      """
      light: {from: "2031-04-01T00:00:00Z", to: "2031-04-30T00:00:00Z", step_min: 120, azimuths: 72, cell_m: 15, panel_m: 1,
              at: ["2031-04-05T01:00:00Z"], horizon_maps_deg: [0, 90]%s}
      contact: {earth_margin_deg: 1, masts: [{at: hearth, height_m: 6}, {at: corner, height_m: 3, relay: true}], frequency_mhz: 437}
      """;

  private static float[] cells(Path file) {
    RasterIos.best();
    Dataset d = gdal.Open(file.toString(), gdalconstConstants.GA_ReadOnly);
    try {
      float[] v = new float[d.getRasterXSize() * d.getRasterYSize()];
      d.GetRasterBand(1).ReadRaster(0, 0, d.getRasterXSize(), d.getRasterYSize(), v);
      return v;
    } finally {
      d.delete();
    }
  }

  @Test
  void aMonthOnTheMoon() throws IOException {
    Path job = SmallJob.write(dir.resolve("job.yaml"), "lit", 10, SKY.formatted(""));
    Flow.Outcome run =
        Flow.scarpway("run", job, "--out", dir.resolve("one"), "--threads", 1, "--quiet").ok();
    assertTrue(run.out().contains("not for navigation or life support decisions"), run.out());
    assertTrue(run.out().contains("without light.dem_far"), run.out());
    assertTrue(run.out().contains("a lunar eclipse lasts up to two"), run.out());
    Path out = dir.resolve("one/lit");
    String page = Files.readString(out.resolve("index.html"));
    for (String told :
        List.of(
            "When light and contact?",
            "Horizon and path of the sun",
            "Horizon and path of the Earth",
            "95 % of their sampling errors are below",
            "Antenna height that sees hearth",
            "Link to masts",
            "\"mean-share-cautious-map\"",
            "\"next-light-at0-map\"")) {
      assertTrue(page.contains(told), told);
    }
    float[] mean = cells(out.resolve("light/mean_share.tif"));
    float[] cautious = cells(out.resolve("light/mean_share_cautious.tif"));
    float[] dark = cells(out.resolve("light/longest_dark_h.tif"));
    float[] darker = cells(out.resolve("light/longest_dark_cautious_h.tif"));
    assertEquals(20 * 20, mean.length);
    for (int i = 0; i < mean.length; i++) {
      assertTrue(mean[i] >= 0 && mean[i] <= 1, "share " + mean[i]);
      assertTrue(cautious[i] <= mean[i] + 1e-6f && darker[i] >= dark[i] - 1e-3f);
      assertTrue(dark[i] <= 29 * 24 + 1e-3, "no longer than the window");
    }
    float[] next = cells(out.resolve("light/next_light_h_1.tif"));
    float[] left = cells(out.resolve("light/light_left_h_1.tif"));
    for (int i = 0; i < next.length; i++) {
      assertTrue(next[i] == 0 ^ left[i] == 0, "light or dark: " + next[i] + " " + left[i]);
    }
    // The mast's own cell and the cells about it see it.
    float[] antenna = cells(out.resolve("contact/antenna_m_hearth.tif"));
    assertTrue(antenna[10 * 20 + 10] <= 2, "beside the mast: " + antenna[10 * 20 + 10]);
    float[] link = cells(out.resolve("contact/link.tif"));
    assertEquals(1, link[10 * 20 + 10]);
    float[] silence = cells(out.resolve("contact/longest_silence_h.tif"));
    float[] share = cells(out.resolve("contact/earth_share.tif"));
    for (int i = 0; i < share.length; i++) {
      assertTrue(silence[i] <= (1 - share[i]) * 29 * 24 + 0.1, "the longest is part of all");
    }
    // A job asked again computes nothing; on two threads every byte is the same.
    Flow.Outcome again = Flow.scarpway("run", job, "--out", dir.resolve("one")).ok();
    assertTrue(again.out().contains("of them reused"), again.out());
    Flow.scarpway("run", job, "--out", dir.resolve("two"), "--threads", 2, "--quiet").ok();
    assertEquals(
        Flow.digests(out, n -> n.startsWith("light/") || n.startsWith("contact/")),
        Flow.digests(
            dir.resolve("two/lit"), n -> n.startsWith("light/") || n.startsWith("contact/")));
    // The positions used, brought back as the mission's own, give the same light.
    Files.copy(out.resolve("light/sky.csv"), dir.resolve("own.csv"));
    SmallJob.write(job, "own", 10, SKY.formatted(", ephemeris: own.csv"));
    Flow.scarpway("run", job, "--out", dir.resolve("one"), "--quiet").ok();
    float[] own = cells(dir.resolve("one/own/light/mean_share.tif"));
    for (int i = 0; i < own.length; i++) {
      assertEquals(mean[i], own[i], 1e-3);
    }
    Flow.Outcome plan = Flow.scarpway("plan", job, "--out", dir.resolve("none")).ok();
    assertTrue(plan.out().contains("light") && plan.out().contains("contact"), plan.out());
  }

  @Test
  void aDayOnTheEarth() throws IOException {
    RasterIos.best();
    int n = 40;
    Dataset d =
        gdal.GetDriverByName("GTiff")
            .Create(dir.resolve("plain.tif").toString(), n, n, 1, gdalconstConstants.GDT_Float32);
    SpatialReference utm = new SpatialReference();
    utm.ImportFromEPSG(32633);
    d.SetProjection(utm.ExportToWkt());
    d.SetGeoTransform(new double[] {500_000, 10, 0, 5_540_400, 0, -10});
    float[] z = new float[n * n];
    for (int i = 0; i < z.length; i++) {
      z[i] = i / n < 3 ? 160 : 100 + i % n * 0.01f;
    }
    d.GetRasterBand(1).WriteRaster(0, 0, n, n, z);
    d.delete();
    Path job =
        Files.writeString(
            dir.resolve("job.yaml"),
            """
            scarpway: 1
            job: day
            body: earth
            dem: {source: plain.tif}
            vehicles: [%s]
            bases: {camp: [500200, 5540200]}
            light: {from: "2026-06-21T00:00:00Z", to: "2026-06-22T00:00:00Z", cell_m: 10, azimuths: 120}
            """
                .formatted(Flow.ROOT.resolve("configs/vehicles/field-truck.yaml")));
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    // 50 N, 15 E at the solstice: day of 16 h 10 min without refraction (cos H = -tan lat tan dec),
    // upper limb to upper limb 5 min more, and noon at 11:02 UTC (equation of time -1.8 min).
    List<String> spells = Files.readAllLines(dir.resolve("out/day/light/spells.csv"));
    String light = spells.stream().filter(l -> l.contains(",light,")).findFirst().orElseThrow();
    double hours = Double.parseDouble(light.split(",")[4]);
    assertEquals(16.2, hours, 0.15, spells.toString());
    assertTrue(light.contains("2026-06-21T02:5") || light.contains("2026-06-21T03:0"), light);
  }

  @Test
  void mistakesAreOneLineEach() throws IOException {
    String[][] wrong = {
      {"light: {from: \"2031-04-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\"}", "not after from"},
      {
        "light: {from: \"1960-04-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\"}",
        "for which sun and Earth are known"
      },
      {
        "light: {from: \"2031-13-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\"}",
        "date and time of UTC"
      },
      {"light: {from: tomorrow, to: \"2031-03-01T00:00:00Z\"}", "rewrite it"},
      {
        "light: {from: \"2031-01-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\", at: [\"2032-01-01T00:00:00Z\"]}",
        "outside the window"
      },
      {
        "light: {from: \"2031-01-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\", dem_far: none.tif}",
        "does not exist"
      },
      {"contact: {earth_margin_deg: 1}", "contact without light"},
      {
        "light: {from: \"2031-01-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\"}\ncontact: {masts: [{at: nowhere, height_m: 3}]}",
        "nowhere"
      },
      {
        "light: {from: \"2031-01-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\"}\ncontact: {masts: [{at: hearth, height_m: 3, relay: true}]}",
        "relays and no mast"
      },
      {
        "light: {from: \"2031-01-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\"}\ncontact: {masts: [{at: hearth, height_m: 3}, {at: hearth, height_m: 5}]}",
        "a second mast at hearth"
      },
      {
        "light: {from: \"2031-01-01T00:00:00Z\", to: \"2031-03-01T00:00:00Z\", step_min: 473}",
        "at most 472 min"
      },
    };
    for (String[] w : wrong) {
      Path job = SmallJob.write(dir.resolve("wrong.yaml"), "wrong", 10, w[0]);
      Flow.Outcome check = Flow.scarpway("check", job);
      assertEquals(2, check.code(), w[0]);
      assertEquals(1, check.errLines().size(), check.err());
      assertTrue(check.err().contains(w[1]), check.err());
    }
    Files.writeString(
        dir.resolve("sky.csv"),
        "utc,sun_lon_deg,sun_lat_deg,sun_km\n2031-01-01T00:00:00Z,1,2,150000000\n2031-01-02T00:00:00Z,1,2,150000000\n");
    Path job =
        SmallJob.write(
            dir.resolve("wrong.yaml"),
            "wrong",
            10,
            "light: {from: \"2031-01-01T00:00:00Z\", to: \"2031-01-02T00:00:00Z\", ephemeris: sky.csv}");
    Flow.Outcome check = Flow.scarpway("check", job);
    assertTrue(check.code() == 2 && check.err().contains("within 6 h"), check.err());
  }
}
