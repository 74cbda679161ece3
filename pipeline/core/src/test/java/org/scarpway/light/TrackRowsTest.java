package org.scarpway.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

class TrackRowsTest {
  private static final Instant FROM = Instant.parse("2030-01-01T00:00:00Z");

  private static final GridSpec SPEC = new GridSpec(6, 9, 100, 100, 0, 600, "");

  private static Horizons level(double eyeM) {
    FloatGrid z = new FloatGrid(SPEC, new float[SPEC.cells()]);
    try (Workers workers = new Workers(1)) {
      return new HorizonSweep(
              SweepGround.of(HeightRows.of(z), null),
              null,
              1e12,
              ProductCells.of(SPEC, 1),
              new double[] {eyeM},
              36)
          .horizons(null, workers, Progress.NONE)
          .get(0);
    }
  }

  /** A place on the Moon's equator: sun up half of the month, as it turns by the day. */
  private static double[] equator(double x, double y) {
    return new double[] {Math.toDegrees(x / 1_737_400), Math.toDegrees(y / 1_737_400)};
  }

  @Test
  void halfOfAMonthOnTheEquator() {
    Duration month = Duration.ofSeconds(Math.round(29.530589 * 86_400));
    List<Instant> times = SkyTrack.times(FROM, FROM.plus(month), Duration.ofHours(1), List.of());
    SkyTrack track = SkyTrack.sun(new MoonSky(), times, SPEC, TrackRowsTest::equator, 1_737_400);
    TrackRows rows = TrackRows.of(level(0), track, new TrackRows.Question(0, 0, List.of()), 1, 3);
    for (int i = 0; i < 3 * 9; i++) {
      // Months differ by a quarter of a day from their mean.
      assertEquals(0.5, rows.meanShare(i), 0.006);
      // A little more than half: the upper limb comes first and goes last.
      assertEquals(0.5 + 2 * 0.2665 / 360, rows.aboveShare(i), 0.006);
    }
    TrackRows raised =
        TrackRows.of(level(0), track, new TrackRows.Question(10, 0, List.of()), 1, 3);
    assertEquals(0.5 - 20.0 / 360, raised.meanShare(5), 0.006);
    assertTrue(raised.longestH(5) > rows.longestH(5), "a higher horizon darkens for longer");
  }

  /** A higher horizon never gives more light, sooner light or a shorter night. */
  @Test
  void higherHorizonsAreDarker() {
    Random random = new Random(3);
    List<Instant> times =
        SkyTrack.times(FROM, FROM.plus(Duration.ofDays(35)), Duration.ofHours(3), List.of());
    SkyTrack track =
        SkyTrack.sun(
            new MoonSky(), times, SPEC, (x, y) -> new double[] {30, -88 + y / 30_000}, 1_737_400);
    List<Double> given = List.of(0.0, Math.floorDiv(times.size(), 2) * 3.0);
    for (int n = 0; n < 10; n++) {
      double low = random.nextDouble() * 3 - 1.5;
      double high = low + random.nextDouble();
      TrackRows a = TrackRows.of(level(1), track, new TrackRows.Question(low, 0, given), 0, 6);
      TrackRows b = TrackRows.of(level(1), track, new TrackRows.Question(high, 0, given), 0, 6);
      for (int i = 0; i < SPEC.cells(); i++) {
        assertTrue(b.meanShare(i) <= a.meanShare(i) + 1e-6);
        assertTrue(b.aboveShare(i) <= a.aboveShare(i) + 1e-6);
        assertTrue(b.longestH(i) >= a.longestH(i) - 1e-3);
        for (int g = 0; g < 2; g++) {
          assertTrue(b.toAboveH(g, i) >= a.toAboveH(g, i) - 1e-3);
          assertTrue(b.leftH(g, i) <= a.leftH(g, i) + 1e-3);
        }
      }
    }
  }

  /** Rows by themselves are the rows of the whole. */
  @Test
  void stripsChangeNothing() {
    List<Instant> times =
        SkyTrack.times(FROM, FROM.plus(Duration.ofDays(20)), Duration.ofHours(5), List.of());
    SkyTrack track = SkyTrack.sun(new MoonSky(), times, SPEC, TrackRowsTest::equator, 1_737_400);
    TrackRows.Question question = new TrackRows.Question(0.1, 0.3, List.of(0.0));
    TrackRows all = TrackRows.of(level(1), track, question, 0, 6);
    TrackRows some = TrackRows.of(level(1), track, question, 4, 2);
    for (int i = 0; i < 18; i++) {
      assertEquals(all.meanShare(36 + i), some.meanShare(i));
      assertEquals(all.longestH(36 + i), some.longestH(i));
      assertEquals(all.toAboveH(0, 36 + i), some.toAboveH(0, i));
    }
  }

  /** The Earth hides the sun over the Moon when the Moon is in the shadow of the Earth. */
  @Test
  void eclipses() {
    // Total lunar eclipse of 2029-06-26, greatest at 03:22 UT; seen from the Moon, the sun is gone.
    Instant middle = Instant.parse("2029-06-26T03:22:00Z");
    List<Instant> times =
        SkyTrack.times(
            middle.minus(Duration.ofHours(6)),
            middle.plus(Duration.ofHours(6)),
            Duration.ofHours(6),
            List.of());
    SkyTrack track = SkyTrack.sun(new MoonSky(), times, SPEC, TrackRowsTest::equator, 1_737_400);
    assertEquals(0, track.hidden(0), 0);
    assertEquals(1, track.hidden(1), 0);
    assertEquals(0, track.hidden(2), 0);
    assertEquals(0.5, DiskShare.hidden(1, 1000, 1000), 0.001);
    assertEquals(0.25, DiskShare.hidden(2, 1, 0.5), 1e-12);
  }
}
