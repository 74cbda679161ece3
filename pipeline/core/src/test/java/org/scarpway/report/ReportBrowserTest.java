package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.StepCodes;

/** Opens the page in a real browser and uses it with mouse, fingers and keys. */
class ReportBrowserTest {
  private static final String READY = "document.documentElement.dataset.script === 'ready'";
  private static final String SHARED = "scarpway.shared";

  @TempDir static Path dir;
  private static Path page;
  private static Browser browser;
  private static ReportData data;

  private double left;
  private double top;
  private double width;
  private double height;

  @BeforeAll
  static void start() throws Exception {
    data = ReportFixture.full();
    page = dir.resolve("index.html");
    Report.write(page, data, ReportFixture.WORKERS);
    browser = new Browser(dir, 1300, 900);
  }

  @AfterAll
  static void end() {
    browser.close();
  }

  @BeforeEach
  void open() {
    browser.size(1300, 900);
    browser.open("about:blank");
    browser.open(page.toUri() + "#selftest");
    browser.until(READY);
    measure();
  }

  /** Notes where the map is on the screen. */
  private void measure() {
    JsonNode box =
        browser.eval(
            "(b => [b.left, b.top, b.width, b.height])"
                + "(document.getElementById('map-1').getBoundingClientRect())");
    left = box.get(0).asDouble();
    top = box.get(1).asDouble();
    width = box.get(2).asDouble();
    height = box.get(3).asDouble();
  }

  @Test
  void scriptRunsWithoutErrorsAndAsksNothingOfTheNetwork() {
    assertEquals("", root("errors"));
    assertEquals("", root("blocked"));
    assertEquals("0", root("requests"));
    for (String address : browser.requests) {
      assertTrue(address.startsWith("file:") || address.equals("about:blank"), address);
    }
  }

  @Test
  void everyImageDecodes() {
    browser.until(
        "document.documentElement.dataset.imagesDecoded =="
            + " document.querySelectorAll('image, img').length");
    assertEquals("0", root("imagesBroken"));
  }

  @Test
  void draggingMovesTheGroundWithTheHand() {
    double x = number(SHARED + ".x");
    double scale = number(SHARED + ".scale");
    browser.drag(left + width / 2, top + height / 2, 80, 40);
    assertEquals(x - 80 / scale, number(SHARED + ".x"), 1e-6 * x);
  }

  @Test
  void theWheelBelongsToThePageUntilTheMapIsHeld() {
    double scale = number(SHARED + ".scale");
    browser.wheel(left + 100, top + 100, 100);
    browser.until("document.getElementById('hint').textContent !== ''");
    assertEquals(scale, number(SHARED + ".scale"));
    // The page may still be scrolling.
    browser.until(
        "new Promise(done => { const y = scrollY; setTimeout(() => done(scrollY === y), 200); })");
    measure();
    browser.click(left + 150, top + 150);
    String at = SHARED + ".views[0].toGround(300, 200)";
    JsonNode before = browser.eval(at);
    browser.wheel(left + 300, top + 200, -300);
    browser.until(SHARED + ".scale > " + 1.9 * scale);
    // The ground under the pointer stays where it is.
    JsonNode after = browser.eval(at);
    double pixelM = 1 / scale;
    assertEquals(before.get(0).asDouble(), after.get(0).asDouble(), pixelM);
    assertEquals(before.get(1).asDouble(), after.get(1).asDouble(), pixelM);
  }

  @Test
  void aClickTellsTheCellUnderThePointer() {
    click(211.3, 40.2);
    browser.until("document.documentElement.dataset.picked === '40,211'");
    String told = browser.eval("document.getElementById('place').innerText").asText();
    assertTrue(told.contains("row 40, column 211"), told);
    assertTrue(told.contains("° S"), told);
    assertTrue(told.contains("slope"), told);
    assertTrue(told.contains("hauler"), told);
    assertTrue(told.contains("day-trip"), told);
  }

  /** Everything by keys: reach the map, walk the cross, pick, zoom, next place, clear. */
  @Test
  void keysAloneDoEverything() {
    browser.eval("document.getElementById('two').focus()");
    browser.key("Tab", 0);
    assertEquals("map-1", browser.eval("document.activeElement.id").asText());
    double x = number(SHARED + ".x");
    browser.key("ArrowRight", 8);
    assertEquals(x + 12, number(SHARED + ".cursor[0]"), 1e-6);
    browser.key("ArrowDown", 8);
    browser.key("Enter", 0);
    browser.until("document.documentElement.dataset.picked === '109,129'");
    browser.until("document.getElementById('live').textContent.includes('day-trip')");
    double scale = number(SHARED + ".scale");
    browser.key("+", 0);
    assertEquals(1.5 * scale, number(SHARED + ".scale"), 1e-9);
    browser.key("0", 0);
    assertEquals(scale, number(SHARED + ".scale"), 1e-9);
    browser.key("n", 0);
    browser.until("document.querySelector('#place h3').textContent === 'alpha'");
    browser.key("Escape", 0);
    browser.until("document.querySelector('#place h3') === null");
    for (String id : List.of("nearer", "farther", "whole", "two", "go-east", "map-1")) {
      assertTrue(browser.eval("document.getElementById('" + id + "').tabIndex >= 0").asBoolean());
    }
  }

  @Test
  void fingersTapPanAndPinch() {
    browser.touch("touchStart", left + 200, top + 200);
    browser.touch("touchEnd");
    browser.until("document.documentElement.dataset.picked !== undefined");
    double x = number(SHARED + ".x");
    double scale = number(SHARED + ".scale");
    browser.touch("touchStart", left + 200, top + 200);
    browser.touch("touchMove", left + 230, top + 200);
    browser.touch("touchMove", left + 260, top + 200);
    browser.touch("touchEnd");
    assertTrue(number(SHARED + ".x") < x - 20 / scale, "one finger did not pan");
    browser.touch("touchStart", left + 200, top + 200, left + 260, top + 200);
    browser.touch("touchMove", left + 190, top + 200, left + 270, top + 200);
    browser.touch("touchMove", left + 170, top + 200, left + 290, top + 200);
    browser.touch("touchEnd");
    assertTrue(number(SHARED + ".scale") > 1.3 * scale, "two fingers did not zoom");
  }

  @Test
  void everyLayerCanBeDrawnAndFadesWithItsStrength() {
    JsonNode keys =
        browser.eval("[...document.querySelectorAll('[data-layer]')].map(i => i.dataset.layer)");
    assertTrue(keys.size() >= 10, keys.toString());
    for (JsonNode key : keys) {
      String tick = "document.querySelector('[data-layer=\"" + key.asText() + "\"]')";
      if (!browser.eval(tick + ".checked").asBoolean()) {
        long without = picture();
        browser.eval(tick + ".click()");
        long with = picture();
        assertNotEquals(without, with, key + " draws nothing");
        String range = "document.querySelector('[data-strength=\"" + key.asText() + "\"]')";
        browser.eval(range + ".value = 20; " + range + ".dispatchEvent(new Event('input'))");
        assertNotEquals(with, picture(), key + " does not fade");
        browser.eval(tick + ".click()");
        assertEquals(without, picture(), key + " does not go away");
      }
    }
  }

  /** Codes exactly; amounts within a step of the layer, never on the side that looks safer. */
  @Test
  void valuesAtAPlaceAreThoseOfTheRasters() {
    GridSpec spec = data.dem().heightM().spec();
    Random random = new Random(11);
    List<Integer> cells = new ArrayList<>();
    for (int i = 0; i < 150; i++) {
      cells.add(random.nextInt(spec.cells()));
    }
    var m = data.mobility().get(0);
    var r = data.reaches().get(0);
    codes("class-0", m.cls().values(), cells);
    codes("limit-0", m.limit().values(), cells);
    codes("ends-0", r.binding().values(), cells);
    amounts("height", data.dem().heightM(), 1, 0, cells);
    amounts("slope", data.terrain().slopeDeg(), 1, 1, cells);
    amounts("hazard", data.hazard().hazard01(), 1, 1, cells);
    amounts("headings-0", m.headingsPct(), 1, -1, cells);
    amounts("speed-0", m.speedMs(), 1, -1, cells);
    amounts("out-0", data.reachCells().floats("day-trip", "time_s"), 1 / 60.0, 1, cells);
    amounts("back-0", data.reachCells().floats("day-trip", "home_time_s"), 1 / 60.0, 1, cells);
    amounts("energy-0", data.reachCells().floats("day-trip", "energy_j"), 1 / 3.6e6, 1, cells);
    amounts("gap-0", r.gapWidthM(), 1, -1, cells);
  }

  private void codes(String layer, byte[] raster, List<Integer> cells) {
    JsonNode numbers = read("number", layer, cells);
    for (int i = 0; i < cells.size(); i++) {
      assertEquals(raster[cells.get(i)] & 0xFF, numbers.get(i).asInt(), layer);
    }
  }

  private void amounts(
      String layer, FloatGrid raster, double factor, int side, List<Integer> cells) {
    JsonNode values = read("value", layer, cells);
    double step = number("scarpway.tiles.layers.get('" + layer + "').step");
    for (int i = 0; i < cells.size(); i++) {
      double exact = raster.values()[cells.get(i)] * factor;
      if (Double.isNaN(exact)) {
        assertTrue(values.get(i).isNull(), layer + " where there is no data: " + values.get(i));
        continue;
      }
      double off = (values.get(i).asDouble() - exact) / step;
      double least = side > 0 ? 0 : side < 0 ? -1 : -0.5;
      assertTrue(off >= least - 1e-4 && off <= least + 1 + 1e-4, layer + " is off by " + off);
    }
  }

  private JsonNode read(String what, String layer, List<Integer> cells) {
    int cols = data.dem().heightM().spec().cols();
    return browser.eval(
        "Promise.all("
            + cells
            + ".map(i => scarpway.tiles."
            + what
            + "('"
            + layer
            + "', i % "
            + cols
            + ", Math.floor(i / "
            + cols
            + ")))).then(v => v.map(x => Number.isNaN(x) ? null : x))");
  }

  /** Cell by cell the ways that the steps of the rasters make, in the page as outside of it. */
  @Test
  void theWaysOfAPickedPlaceAreThoseOfTheSteps() {
    GridSpec spec = data.dem().heightM().spec();
    byte[] steps = data.reachCells().steps("day-trip", "home_step").values();
    var q = data.reaches().get(0).request();
    int base = spec.cellOf(q.baseXM(), q.baseYM());
    Random random = new Random(23);
    for (int i = 0; i < 12; i++) {
      int cell = random.nextInt(spec.cells());
      int[] way = StepCodes.follow(spec, c -> steps[c], cell, base);
      JsonNode told =
          browser.eval(
              "scarpway.shared.pick(["
                  + 12 * (cell % spec.cols() + 0.5)
                  + ", "
                  + 12 * (Math.floorDiv(cell, spec.cols()) + 0.5)
                  + "], '-').then(() => [scarpway.trip.ways.out, scarpway.trip.ways.home])");
      for (JsonNode drawn : told) {
        assertEquals(way.length, drawn.size(), "cell " + cell);
        for (int k = 0; k < way.length; k++) {
          assertEquals(way[k] % spec.cols(), drawn.get(k).get(0).asInt());
          assertEquals(way[k] / spec.cols(), drawn.get(k).get(1).asInt());
        }
      }
      String words = browser.eval("document.getElementById('place').innerText").asText();
      String km = Figures.fixed(StepCodes.lengthM(spec, way) / 1000, 2);
      assertTrue(words.contains("quickest way out " + km + " km"), km + " in " + words);
    }
  }

  /**
   * The walk home and the vehicle that fetches the crew are drawn and told where a run has them.
   */
  @Test
  void theWalkHomeAndTheSecondVehicleAreDrawn() {
    Path other = dir.resolve("fetched.html");
    Report.write(
        other,
        ReportFixture.stepped(
            List.of(
                ReportData.ReachCells.OUT_STEP,
                ReportData.ReachCells.WALK_STEP,
                ReportData.ReachCells.FETCH_STEP,
                ReportData.ReachCells.RIDE_STEP)),
        ReportFixture.WORKERS);
    browser.open(other.toUri().toString());
    browser.until(READY);
    browser.eval(SHARED + ".pick([700, 1900]).then(() => 0)");
    browser.until("scarpway.trip.lines.length === 4");
    String told = browser.eval("document.getElementById('place').innerText").asText();
    for (String way : List.of("walk home ", "vehicle that fetches the crew ", "its ride home ")) {
      assertTrue(told.contains(way), told);
    }
    String plot = browser.eval("document.getElementById('plot-said').textContent").asText();
    assertTrue(plot.endsWith("and the walk home"), plot);
    String key = browser.eval("document.getElementById('map-legend').textContent").asText();
    assertTrue(key.contains("vehicle that fetches the crew"), key);
  }

  /** A page that has no ways says why, and by which command they are told. */
  @Test
  void aPageWithoutWaysSaysWhyAndWhatTellsThem() {
    Path other = dir.resolve("few.html");
    Report.write(other, ReportFixture.stepped(List.of()), ReportFixture.WORKERS);
    browser.open(other.toUri().toString());
    browser.until(READY);
    browser.eval(SHARED + ".next(1)");
    browser.until("document.querySelector('#place code') !== null");
    String command = browser.eval("document.querySelector('#place code').textContent").asText();
    assertEquals("scarpway explain configs/jobs/quiet-bench.yaml 'alpha'", command);
    String told = browser.eval("document.getElementById('place').innerText").asText();
    assertTrue(told.contains("shows but some of the cells"), told);
  }

  /** The hair line of the profile and the cross of the map are one place, by hand and by keys. */
  @Test
  void profileAndMapShareOneCursor() {
    browser.eval("document.getElementById('profile').focus()");
    browser.key("ArrowRight", 0);
    var tenth = data.corridors().get(0).centreline().get(10);
    GridSpec spec = data.dem().heightM().spec();
    assertEquals(tenth.xM() - spec.westM(), number(SHARED + ".cursor[0]"), 0.051);
    assertEquals(spec.northM() - tenth.yM(), number(SHARED + ".cursor[1]"), 0.051);
    String told = browser.eval("document.getElementById('plot-said').textContent").asText();
    assertTrue(told.contains(Figures.fixed(tenth.distanceM() / 1000, 2) + " km"), told);
    var later = data.corridors().get(0).centreline().get(120);
    double x = later.xM() - spec.westM();
    double y = spec.northM() - later.yM();
    browser.eval(SHARED + ".point([" + x + ", " + y + "])");
    told = browser.eval("document.getElementById('plot-said').textContent").asText();
    assertTrue(told.contains(Figures.fixed(later.distanceM() / 1000, 2) + " km"), told);
    assertFalse(
        browser
            .eval("document.querySelector('#profile .hair').getAttribute('d')")
            .asText()
            .isEmpty());
  }

  /** Times and energies along a picked way, at both of its ends and where it turns. */
  @Test
  void thePlotOfAPickedPlaceEndsWithItsWholeTrip() {
    GridSpec spec = data.dem().heightM().spec();
    var r = data.reaches().get(0).request();
    int cell = 150 * spec.cols() + 60;
    browser.eval(
        SHARED + ".pick([" + 12 * (60 + 0.5) + ", " + 12 * (150 + 0.5) + "]).then(() => 0)");
    browser.until("scarpway.plots.along.rows.length > 2");
    JsonNode rows = browser.eval("scarpway.plots.along.rows");
    JsonNode turn = rows.get(browser.eval("scarpway.plots.trip.turn").asInt());
    double out = data.reachCells().floats("day-trip", "time_s").values()[cell];
    double back = data.reachCells().floats("day-trip", "home_time_s").values()[cell];
    double outJ = data.reachCells().floats("day-trip", "way_energy_j").values()[cell];
    double backJ = data.reachCells().floats("day-trip", "way_home_energy_j").values()[cell];
    double hotelJ = 1800 * r.stayS();
    JsonNode last = rows.get(rows.size() - 1);
    // A step of the layers is 6 s and 0.01 kWh, and both ends are rounded up.
    assertEquals(out, turn.get(2).asDouble(), 6.1);
    assertEquals(outJ / 3.6e6, turn.get(3).asDouble(), 0.0101);
    assertEquals(out + r.stayS() + back, last.get(2).asDouble(), 12.2);
    assertEquals((outJ + hotelJ + backJ) / 3.6e6, last.get(3).asDouble(), 0.0202);
    String told = browser.eval("document.getElementById('place').innerText").asText();
    double left = 60 - (outJ + hotelJ + backJ) / 3.6e6;
    var m = Pattern.compile("after the quickest ways ([0-9.]+) of 60 kWh left").matcher(told);
    assertTrue(m.find(), told);
    double stated = Double.parseDouble(m.group(1));
    assertTrue(stated <= left && stated > left - 0.04, stated + " for " + left);
  }

  @Test
  void aPlaceOutsideTheMapIsToldAndNotTaken() {
    browser.eval(
        "document.getElementById('go-east').value = 1; document.getElementById('go-north').value = 2;"
            + " document.getElementById('go').requestSubmit(); 0");
    browser.until("document.getElementById('hint').textContent.includes('outside the map')");
    assertTrue(browser.eval(SHARED + ".picked === null").asBoolean());
    browser.eval(
        "document.getElementById('go-east').value = 15006;"
            + " document.getElementById('go-north').value = -5501;"
            + " document.getElementById('go').requestSubmit(); 0");
    browser.until("document.querySelector('#place h3') !== null");
  }

  /** Areas that hold a place or shut its cell, measured by JTS. */
  @Test
  void aPickedPlaceTellsItsKeepOutArea() {
    GridSpec spec = data.dem().heightM().spec();
    var vehicle = data.mobility().get(0).vehicle();
    double keepsM = data.keepOuts().marginM() + vehicle.body().widthM() / 2;
    GeometryFactory jts = new GeometryFactory();
    Random random = new Random(41);
    int held = 0;
    int shut = 0;
    for (int i = 0; i < 120; i++) {
      double[] about = i % 2 == 0 ? new double[] {16_400, -6_000} : new double[] {15_100, -4_840};
      double x = about[0] + 250 * random.nextGaussian();
      double y = about[1] + 150 * random.nextGaussian();
      int col = (int) ((x - spec.westM()) / 12);
      int row = (int) ((spec.northM() - y) / 12);
      double west = spec.westM() + 12 * col;
      double north = spec.northM() - 12 * row;
      var cell = jts.toGeometry(new Envelope(west, west + 12, north - 12, north));
      var place = jts.createPoint(new Coordinate(x, y));
      List<String> expected = new ArrayList<>();
      boolean onTheEdge = false;
      for (KeepOutAreas.Area a : data.keepOuts().areas()) {
        double awayM = place.distance(a.area().getBoundary());
        double cellM = cell.distance(a.area());
        onTheEdge |= awayM < 0.01 || Math.abs(cellM - keepsM) < 0.01;
        if (a.area().contains(place)) {
          held++;
          expected.add("inside " + a.words());
        } else if (cellM <= keepsM) {
          shut++;
          expected.add("of " + a.words() + ": its margin closes this cell to " + vehicle.name());
        }
      }
      JsonNode told =
          browser.eval(
              "scarpway.read(["
                  + (x - spec.westM())
                  + ", "
                  + (spec.northM() - y)
                  + "]).then(rows => rows.filter(r => r[2] === 'keep-out').map(r => r[1]))");
      if (onTheEdge) {
        continue;
      }
      assertEquals(expected.size(), told.size(), told + " at " + x + ", " + y);
      for (int k = 0; k < expected.size(); k++) {
        assertTrue(told.get(k).asText().contains(expected.get(k)), told + " for " + expected);
      }
    }
    assertTrue(held > 10 && shut > 10, held + " held, " + shut + " shut");
    // The hole's northern side runs at N -5950.
    browser.eval(SHARED + ".pick([16425 - 14200, -3900 + 5945]).then(() => 0)");
    String words = browser.eval("document.getElementById('place').innerText").asText();
    assertTrue(words.contains("inside 'Soft pan' (sinkage), 5.0 m from its edge"), words);
  }

  /** Turning a phone shows all of the map again, unless the reader looks at a part of it. */
  @Test
  void theWholeMapStaysWholeOnAnotherScreen() {
    browser.size(700, 500);
    String fits =
        "(s => Math.abs(s.scale - Math.min(s.views[0].w / s.W, s.views[0].h / s.H)) < 1e-9)("
            + SHARED
            + ")";
    browser.until(fits);
    browser.eval(SHARED + ".zoom(3, [900, 900])");
    double scale = number(SHARED + ".scale");
    browser.size(1300, 900);
    browser.eval("new Promise(done => setTimeout(done, 300))");
    assertEquals(scale, number(SHARED + ".scale"));
  }

  /** Every line of the map is in its key under a name, and no two names look the same. */
  @Test
  void linesOfTheKeyAreApart() {
    JsonNode lines =
        browser.eval(
            "scarpway.shows[0].lines().map(l => [l.says || l.name, l.stroke + l.dash + l.width])");
    String key = browser.eval("document.getElementById('map-legend').textContent").asText();
    java.util.Map<String, String> looks = new java.util.HashMap<>();
    for (JsonNode l : lines) {
      String name = l.get(0).asText();
      assertFalse(name.isEmpty() || name.equals("null"), l.toString());
      assertTrue(key.contains(name), name + " is not in the key");
      String before = looks.put(l.get(1).asText(), name);
      assertTrue(before == null || before.equals(name), before + " and " + name);
    }
  }

  /** A reader who looks at another plot keeps it while picking places. */
  @Test
  void pickingKeepsThePlotThatWasChosen() {
    browser.eval("document.querySelector('[data-kind=slope]').click()");
    browser.eval(SHARED + ".pick([500, 500]).then(() => 0)");
    browser.until("document.querySelector('#place h3') !== null");
    assertEquals("slope", browser.eval("scarpway.plots.kind").asText());
  }

  /** A bar marks the ground of its slopes, no more and no less; the cross marks its bar. */
  @Test
  void slopeBarsAndMapShareTheGround() {
    browser.eval("document.querySelector('[data-kind=slope]').click()");
    browser.eval("document.querySelector('#plot svg').focus()");
    long before = picture();
    for (int i = 0; i < 13; i++) {
      browser.key("ArrowRight", 0);
    }
    String said = browser.eval("document.getElementById('plot-said').textContent").asText();
    assertTrue(said.startsWith("slope 12 to 13 deg: "), said);
    assertNotEquals(before, picture());
    GridSpec spec = data.dem().heightM().spec();
    float[] slope = data.terrain().slopeDeg().values();
    Random random = new Random(31);
    for (int i = 0; i < 60; i++) {
      int cell = random.nextInt(spec.cells());
      double step = number("scarpway.tiles.layers.get('slope').step");
      double shown = step * Math.ceil(slope[cell] / step - 1e-9);
      boolean marked =
          browser
              .eval(
                  "scarpway.tiles.number('slope', "
                      + cell % spec.cols()
                      + ", "
                      + Math.floorDiv(cell, spec.cols())
                      + ").then(n => n > 0 && scarpway.colours(scarpway.shows[0].brush)(n)[3] > 0)")
              .asBoolean();
      assertEquals(shown >= 12 && shown < 13, marked, "slope " + slope[cell]);
    }
    browser.key("Escape", 0);
    assertEquals(before, picture());
    click(130, 120);
    browser.eval(SHARED + ".point([" + 12 * 130.5 + ", " + 12 * 120.5 + "])");
    browser.until("document.querySelector('#plot .bar.at') !== null");
    double low = number("+document.querySelector('#plot .bar.at').dataset.low");
    float there = slope[120 * spec.cols() + 130];
    assertTrue(low <= there + 0.25 && there < low + 1, low + " for " + there);
  }

  @Test
  void theRankingLeadsToItsPlaces() {
    browser.eval("document.querySelector('[data-kind=sites]').click()");
    browser.eval("document.querySelector('#plot svg').focus()");
    browser.key("ArrowRight", 0);
    browser.key("ArrowRight", 0);
    browser.key("Enter", 0);
    browser.until("document.querySelector('#place h3')?.textContent === 'bravo'");
  }

  @Test
  void namesNeverCoverEachOtherWhereverTheMapIs() {
    Random random = new Random(5);
    for (int i = 0; i < 30; i++) {
      browser.eval(
          "(s => { s.scale *= "
              + Math.exp(random.nextDouble() - 0.4)
              + "; s.x = s.W * "
              + random.nextDouble()
              + "; s.y = s.H * "
              + random.nextDouble()
              + "; s.changed(); s.views[0].draw(); })(scarpway.shared)");
      JsonNode boxes = browser.eval(SHARED + ".views[0].boxes.map(b => b.box)");
      for (int a = 0; a < boxes.size(); a++) {
        for (int b = 0; b < a; b++) {
          assertFalse(cover(boxes.get(a), boxes.get(b)), boxes.toString());
        }
      }
    }
  }

  private static boolean cover(JsonNode a, JsonNode b) {
    return overlap(a, b, 0) && overlap(a, b, 1);
  }

  private static boolean overlap(JsonNode a, JsonNode b, int axis) {
    double a0 = a.get(axis).asDouble();
    double b0 = b.get(axis).asDouble();
    return a0 < b0 + b.get(axis + 2).asDouble() && b0 < a0 + a.get(axis + 2).asDouble();
  }

  @Test
  void twoMapsMoveTogether() {
    browser.eval("document.getElementById('two').click()");
    browser.until(SHARED + ".views.length === 2 && " + SHARED + ".views[1].ready === true");
    browser.eval("document.getElementById('map-1').focus()");
    browser.key("+", 0);
    browser.drag(left + 100, top + 100, -50, 0);
    String middle = SHARED + ".views.map(v => v.toGround(v.w / 2, v.h / 2))";
    JsonNode at = browser.eval(middle);
    assertEquals(at.get(0), at.get(1));
  }

  @Test
  void fitsNarrowScreens() {
    for (int narrow : new int[] {400, 500, 1000, 1300}) {
      browser.size(narrow, 900);
      assertTrue(
          browser
              .eval("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
              .asBoolean(),
          "wider than a screen of " + narrow);
    }
  }

  @Test
  void printsTheMapAndEveryPart() {
    byte[] pdf = browser.pdf();
    assertArrayEquals("%PDF".getBytes(StandardCharsets.US_ASCII), java.util.Arrays.copyOf(pdf, 4));
    String text = new String(pdf, StandardCharsets.ISO_8859_1);
    long pages = Pattern.compile("/Type\\s*/Page\\b").matcher(text).results().count();
    // One page at least for the first screen, cautions, each of four questions and the appendix.
    assertTrue(pages >= 7 && pages < 40, pages + " pages");
    assertTrue(pdf.length < 25_000_000, pdf.length + " bytes");
  }

  /**
   * Paper shows the layers, at the resolution of paper: those of the screen, or the still picture
   * where the map is not drawn yet.
   */
  @Test
  void paperHasGroundUnderTheLines() {
    String inked =
        "(v => { const c = v.canvas; const d = v.g.getImageData(0, 0, c.width, c.height).data;"
            + " let n = 0; for (let i = 0; i < d.length; i += 4)"
            + " n += d[i] + d[i + 1] + d[i + 2] < 720 ? 1 : 0; return n / (d.length / 4); })"
            + "(scarpway.views[0])";
    String still = "getComputedStyle(document.querySelector('.still')).display";
    double screen = number(inked);
    assertTrue(screen > 0.4, "the screen is bare: " + screen);
    browser.eval(SHARED + ".zoom(2.3, [900, 1200]); dispatchEvent(new Event('beforeprint')); 0");
    boolean drawn =
        browser.eval("document.documentElement.classList.contains('mapped')").asBoolean();
    assertTrue(!drawn || number(inked) > 0.4, "lines alone on paper: " + number(inked));
    assertEquals(drawn ? "none" : "block", browser.eval(still).asText());
    browser.eval("dispatchEvent(new Event('afterprint')); 0");
    picture();
    browser.eval("dispatchEvent(new Event('beforeprint')); 0");
    assertTrue(number(inked) > 0.4);
    assertEquals(2, number("scarpway.views[0].px"));
    assertEquals("none", browser.eval(still).asText());
    browser.eval("dispatchEvent(new Event('afterprint')); 0");
    assertEquals(1, number("scarpway.views[0].px"));
    // A page that is printed before its map is drawn.
    browser.eval(
        "scarpway.views[0].painted.clear(); scarpway.views[0].back = null;"
            + " dispatchEvent(new Event('beforeprint')); 0");
    assertEquals("block", browser.eval(still).asText());
    browser.eval("dispatchEvent(new Event('afterprint')); 0");
  }

  /** The scale bar of a printed map holds in both directions, however wide the screen was. */
  @Test
  void paperDoesNotStretchTheMap() {
    for (int wide : new int[] {400, 1300}) {
      browser.size(wide, 900);
      browser.call("Emulation.setEmulatedMedia", "media", "print");
      String fit =
          browser
              .eval("getComputedStyle(document.querySelector('#map-1 canvas')).objectFit")
              .asText();
      browser.call("Emulation.setEmulatedMedia", "media", "");
      assertEquals("contain", fit, "a picture that fills its box is stretched");
    }
  }

  /** Where the page has no room for all cells, no place is told better than its own cell is. */
  @Test
  void noPlaceLooksSaferWhereCellsAreMerged() {
    Path small = dir.resolve("small.html");
    Report.write(small, ReportFixture.of(0.45), ReportFixture.WORKERS);
    browser.open(small.toUri().toString());
    browser.until(READY);
    assertTrue(number("scarpway.tiles.layers.get('slope').shrink") > 1, "nothing was merged");
    GridSpec spec = data.dem().heightM().spec();
    Random random = new Random(19);
    List<Integer> cells = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      cells.add(random.nextInt(spec.cells()));
    }
    float[] slope = data.terrain().slopeDeg().values();
    float[] out = data.reachCells().floats("day-trip", "time_s").values();
    JsonNode slopes = read("value", "slope", cells);
    JsonNode outs = read("value", "out-0", cells);
    JsonNode classes = read("number", "class-0", cells);
    int[] badness = {2, 0, 1, 3};
    for (int i = 0; i < cells.size(); i++) {
      int cell = cells.get(i);
      assertTrue(slopes.get(i).isNull() || slopes.get(i).asDouble() >= slope[cell] - 1e-4);
      assertTrue(outs.get(i).isNull() || 60 * outs.get(i).asDouble() >= out[cell] - 1e-2);
      int told = badness[classes.get(i).asInt()];
      assertTrue(told >= badness[data.mobility().get(0).cls().values()[cell]], "cell " + cell);
    }
    browser.eval(SHARED + ".pick([1000, 1000]).then(() => 0)");
    String told = browser.eval("document.getElementById('place').innerText").asText();
    assertTrue(told.contains("cells there: report.max_mb"), told);
  }

  @Test
  void aJobThatAsksNothingHasAMapAsWell() {
    Path bare = dir.resolve("bare.html");
    Report.write(bare, ReportFixture.bare(), ReportFixture.WORKERS);
    browser.open(bare.toUri().toString());
    browser.until(READY);
    assertEquals("", root("errors"));
    browser.eval("scarpway.shared.pick([1000, 1000])");
    browser.until("document.documentElement.dataset.picked !== undefined");
    assertEquals("", root("errors"));
  }

  /** Clicks the middle of the map's cell at a place given in columns and rows. */
  private void click(double col, double row) {
    JsonNode at = browser.eval(SHARED + ".views[0].toScreen(" + 12 * col + ", " + 12 * row + ")");
    browser.click(left + at.get(0).asDouble(), top + at.get(1).asDouble());
  }

  /** A number that tells pictures of the map apart, once it is complete. */
  private static long picture() {
    return browser
        .eval(
            "new Promise(done => { const v = scarpway.shared.views[0]; const look = () => {"
                + " v.stirred = -1e9; v.draw(); if (v.missing) { setTimeout(look, 20); return; }"
                + " const d = v.g.getImageData(0, 0, v.canvas.width, v.canvas.height).data;"
                + " let h = 17; for (let i = 0; i < d.length; i += 4)"
                + " h = (h * 31 + d[i] + 7 * d[i + 1] + 13 * d[i + 2]) % 2147483647; done(h); };"
                + " look(); })")
        .asLong();
  }

  private static double number(String expression) {
    return browser.eval(expression).asDouble();
  }

  private static String root(String name) {
    return browser.eval("document.documentElement.dataset." + name + " || ''").asText();
  }
}
