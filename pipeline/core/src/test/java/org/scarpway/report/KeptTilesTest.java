package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.TilePack.Halving;
import org.scarpway.stage.ContentStore;

class KeptTilesTest {
  /** Whatever the cells, kept tiles are those that are packed anew, in all that a page reads. */
  @Test
  void keptTilesAreThoseThatArePackedAnew() {
    Random random = new Random(8);
    InMemoryStore store = new InMemoryStore();
    for (int trial = 0; trial < 12; trial++) {
      GridSpec spec =
          new GridSpec(1 + random.nextInt(600), 1 + random.nextInt(600), 5, 5, 0, 0, "");
      char[] cells = cells(spec, random, trial % 2 == 0 ? 5 : 60_000);
      Halving halving = Halving.values()[trial % 3];
      TilePack anew = new TilePack(spec, cells, halving);
      of(spec, cells, halving, store);
      TilePack kept = of(spec, cells, halving, store);
      assertEquals(trial + 1, store.written(), "packed once");
      for (int coarser = 0; coarser < 3; coarser++) {
        same(anew, kept);
        assertEquals(anew.coarsen(), kept.coarsen());
      }
    }
  }

  private static TilePack of(GridSpec spec, char[] cells, Halving halving, ContentStore store) {
    return KeptTiles.of(KeptTiles.key(spec, cells, halving), spec, cells, halving, store);
  }

  private static void same(TilePack a, TilePack b) {
    assertEquals(a.plain, b.plain);
    assertEquals(a.shrink(), b.shrink());
    assertEquals(a.levels(), b.levels());
    assertEquals(a.chars(), b.chars());
    assertEquals(a.text(), b.text());
    for (int k = 0; k < a.levels(); k++) {
      assertEquals(a.level(k) == null, b.level(k) == null);
      if (a.level(k) != null) {
        assertEquals(a.level(k).width, b.level(k).width);
        assertEquals(a.level(k).height, b.level(k).height);
        assertEquals(a.level(k).across, b.level(k).across);
        assertEquals(a.offset(k), b.offset(k));
        assertArrayEquals(a.level(k).at, b.level(k).at);
      }
    }
  }

  /** One changed cell, another shape or another halving finds no tiles of before. */
  @Test
  void otherCellsShapesAndHalvingsArePackedAnew() {
    Random random = new Random(9);
    InMemoryStore store = new InMemoryStore();
    GridSpec spec = new GridSpec(300, 400, 5, 5, 0, 0, "");
    char[] cells = cells(spec, random, 300);
    String first = of(spec, cells, Halving.MEAN, store).text();
    for (int trial = 0; trial < 10; trial++) {
      char[] other = cells.clone();
      int at = random.nextInt(other.length);
      other[at] = (char) (other[at] + 1);
      TilePack packed = of(spec, other, Halving.MEAN, store);
      assertEquals(new TilePack(spec, other, Halving.MEAN).text(), packed.text());
      assertNotEquals(first, packed.text());
    }
    GridSpec turned = new GridSpec(400, 300, 5, 5, 0, 0, "");
    same(new TilePack(turned, cells, Halving.MEAN), of(turned, cells, Halving.MEAN, store));
    same(new TilePack(spec, cells, Halving.NONE), of(spec, cells, Halving.NONE, store));
  }

  private static char[] cells(GridSpec spec, Random random, int most) {
    char[] cells = new char[spec.cells()];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (char) (i % 7 == 0 ? random.nextInt(most) : (i % spec.cols() + i / 11) % most);
    }
    return cells;
  }
}
