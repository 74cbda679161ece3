package org.scarpway.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.Mobility;

class SiteSearchTest {
  private static final GridSpec SPEC = Fields.grid(200, 200, 5, 0, 0);

  private static SiteSearch.Result search(SearchParams params, Fields.SpeedAt speed, int threads) {
    Mobility mobility = Fields.mobility(Fields.level(SPEC, speed), Fields.vehicle(null, null));
    try (Workers workers = new Workers(threads)) {
      return SiteSearch.search(
          params, ClassRows.of(mobility.cls()), mobility.field(), workers, Progress.NONE);
    }
  }

  /** Seven by seven places 142 m apart on 1 km of flat ground: only the map's edge tells. */
  @Test
  void onFlatGroundTheMiddleComesFirst() {
    SiteSearch.Result r = search(new SearchParams(142, 700, 0, 49, 0), (x, y) -> 1, 2);
    assertEquals(49, r.places());
    assertEquals(49, r.fit());
    assertEquals(1e6, r.groundM2());
    FoundSite best = r.found().get(0);
    assertEquals(500, best.xM(), 5);
    assertEquals(500, best.yM(), 5);
    assertEquals(Double.POSITIVE_INFINITY, best.roomM());
    for (int i = 1; i < 49; i++) {
      FoundSite f = r.found().get(i);
      assertEquals(i + 1, f.rank());
      assertTrue(f.areaM2() <= r.found().get(i - 1).areaM2(), "rank " + i);
    }
    FoundSite last = r.found().get(48);
    assertEquals(426, Math.abs(last.xM() - 500), 5);
    assertEquals(426, Math.abs(last.yM() - 500), 5);
  }

  /** A lattice of floor(side / spacing) each way, at least one place. */
  @Test
  void placesAndSharesAreCounted() {
    GridSpec spec = new GridSpec(30, 50, 4, 10, 0, 300, "");
    // 200 m across and 300 m down.
    assertEquals(4 * 6, SiteSearch.places(spec, 50));
    assertEquals(3 * 5, SiteSearch.places(spec, 60));
    assertEquals(1, SiteSearch.places(spec, 1000));
    SiteSearch.Result r = new SiteSearch.Result(9, 4, 2000, List.of());
    assertEquals(12.5, r.groundPct(new FoundSite(1, 0, 0, 250, 3)));
  }

  @Test
  void placesKeepApartAndHaveRoom() {
    // No-go ground east of 800 m.
    Fields.SpeedAt speed = (x, y) -> x > 800 ? 0 : 1;
    SiteSearch.Result r = search(new SearchParams(50, 400, 120, 6, 300), speed, 2);
    assertEquals(400, r.places());
    // 13 columns from 25 m to 625 m and one at 675 m: 680 m is 120 m away.
    assertEquals(14 * 20, r.fit());
    assertEquals(6, r.found().size());
    for (FoundSite f : r.found()) {
      assertEquals(800, f.xM() + f.roomM(), 1e-6);
      assertTrue(f.roomM() >= 120);
      for (FoundSite other : r.found()) {
        assertTrue(
            other.rank() == f.rank() || Math.hypot(f.xM() - other.xM(), f.yM() - other.yM()) >= 300,
            f + " " + other);
      }
    }
  }

  @Test
  void threadsChangeNothing() {
    Fields.SpeedAt speed = (x, y) -> ((int) (x / 90)) * 7 % 5 == 1 && y > 60 ? 0 : 1 + x / 1000;
    SearchParams params = new SearchParams(60, 300, 20, 10, 100);
    assertEquals(search(params, speed, 1), search(params, speed, 2));
  }

  @Test
  void whereNoPlaceFitsNothingIsFound() {
    SiteSearch.Result r = search(new SearchParams(100, 300, 0, 3, 100), (x, y) -> 0, 1);
    assertEquals(100, r.places());
    assertEquals(0, r.fit());
    assertEquals(List.of(), r.found());
  }

  @Test
  void distanceIsToTheNearestEdgeOfNoGoGround() {
    Mobility m =
        Fields.mobility(
            Fields.level(SPEC, (x, y) -> x > 300 && x < 310 && y > 400 ? 0 : 1),
            Fields.vehicle(null, null));
    double far = Double.POSITIVE_INFINITY;
    assertEquals(60, NoGoDistance.ofM(m.cls().spec(), ClassRows.of(m.cls()), 240, 700, far), 1e-9);
    assertEquals(50, NoGoDistance.ofM(m.cls().spec(), ClassRows.of(m.cls()), 340, 360, far), 1e-9);
    assertEquals(0, NoGoDistance.ofM(m.cls().spec(), ClassRows.of(m.cls()), 305, 500, far), 1e-9);
    assertEquals(40, NoGoDistance.ofM(m.cls().spec(), ClassRows.of(m.cls()), 240, 700, 40), 1e-9);
    assertEquals(100, NoGoDistance.ofM(m.cls().spec(), ClassRows.of(m.cls()), 305, 300, far), 1e-9);
  }
}
