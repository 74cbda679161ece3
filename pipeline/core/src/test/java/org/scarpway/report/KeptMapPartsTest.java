package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.report.ReportData.ReachCells;
import org.scarpway.stage.Workers;

/** Parts of the map that are kept between runs are those made anew, and are made once. */
class KeptMapPartsTest {
  private final InMemoryStore store = new InMemoryStore();
  private final AtomicInteger read = new AtomicInteger();

  /** Counts the rasters that are read. */
  private final class Counted implements ReachCells {
    private final ReachCells cells;

    private Counted(ReachCells cells) {
      this.cells = cells;
    }

    @Override
    public FloatGrid floats(String reach, String raster) {
      read.incrementAndGet();
      return cells.floats(reach, raster);
    }

    @Override
    public ByteGrid steps(String reach, String raster) {
      read.incrementAndGet();
      return cells.steps(reach, raster);
    }
  }

  private static Map<String, String> keys(ReportData d) {
    Map<String, String> keys = new HashMap<>();
    d.mobility().forEach(m -> keys.put("mobility/" + m.vehicle().name(), "m"));
    d.reaches().forEach(r -> keys.put("reach/" + r.request().name(), "r"));
    d.corridors().forEach(c -> keys.put("corridor/" + c.request().name(), "c"));
    return keys;
  }

  private ReportData with(ReportData d, Map<String, String> keys) {
    return new ReportData(
        d.facts(),
        d.dem(),
        d.terrain(),
        d.hazard(),
        d.mobility(),
        d.reaches(),
        d.corridors(),
        d.sorties(),
        d.light(),
        d.places(),
        d.sites(),
        d.warnings(),
        d.sources(),
        d.settings(),
        d.lonLat(),
        d.atPlaces(),
        d.more(),
        new Counted(d.reachCells()),
        d.unanswered(),
        keys,
        d.keepOuts(),
        d.maxWalkKm());
  }

  private String drawn(ReportData d) {
    try (Workers workers = new Workers(2)) {
      workers.memory().keepIn(store);
      return Report.html(d, workers);
    }
  }

  @Test
  void aPageOfKeptPartsIsThePageAnew() {
    ReportData d = ReportFixture.full();
    String anew = Report.html(with(d, Map.of()), ReportFixture.WORKERS);
    int each = read.getAndSet(0);
    assertTrue(each > 0);
    assertEquals(anew, drawn(with(d, keys(d))));
    assertEquals(each, read.getAndSet(0));
    int written = store.written();
    assertTrue(written > 0);
    assertEquals(anew, drawn(with(d, keys(d))));
    assertEquals(0, read.get(), "rasters read for kept parts");
    assertEquals(written, store.written());
  }

  /** Each stage in turn has another key: its part alone is made anew. */
  @Test
  void aStageThatRanAgainMakesItsPartAnew() {
    ReportData d = ReportFixture.full();
    String anew = drawn(with(d, keys(d)));
    List<String> stages = new ArrayList<>(keys(d).keySet());
    for (String stage : stages) {
      Map<String, String> keys = keys(d);
      keys.put(stage, "another");
      int before = store.written();
      assertEquals(anew, drawn(with(d, keys)));
      assertEquals(before + 1, store.written(), stage);
    }
  }

  /** Where the page is too large, kept parts lose cells as those made anew do. */
  @Test
  void keptPartsLoseCellsAsOthersDo() {
    for (double mb : new double[] {0.6, 0.7, 2}) {
      ReportData d = ReportFixture.of(mb);
      String anew = Report.html(d, ReportFixture.WORKERS);
      drawn(with(d, keys(d)));
      assertEquals(anew, drawn(with(d, keys(d))));
    }
    assertNotEquals(0, store.written());
  }
}
