package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.TilePack.Halving;
import org.scarpway.stage.ContentStore;

class KeptTilesTest {
  /** Keeps everything in memory and counts what it is asked. */
  private static final class InMemory implements ContentStore {
    private final Map<String, byte[]> entries = new HashMap<>();
    private int written;

    @Override
    public boolean holds(String key) {
      return entries.containsKey(key);
    }

    @Override
    public <T> T read(String key, Reader<T> reader) {
      try {
        byte[] bytes = entries.get(key);
        return bytes == null ? null : reader.readFrom(new ByteArrayInputStream(bytes));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public void write(String key, long bytes, Writer writer) {
      try {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        writer.writeTo(out);
        entries.put(key, out.toByteArray());
        written++;
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  /** Whatever the cells, kept tiles are those that are packed anew, in all that a page reads. */
  @Test
  void keptTilesAreThoseThatArePackedAnew() {
    Random random = new Random(8);
    InMemory store = new InMemory();
    for (int trial = 0; trial < 12; trial++) {
      GridSpec spec =
          new GridSpec(1 + random.nextInt(600), 1 + random.nextInt(600), 5, 5, 0, 0, "");
      char[] cells = cells(spec, random, trial % 2 == 0 ? 5 : 60_000);
      Halving halving = Halving.values()[trial % 3];
      TilePack anew = new TilePack(spec, cells, halving);
      KeptTiles.of(spec, cells, halving, store);
      TilePack kept = KeptTiles.of(spec, cells, halving, store);
      assertEquals(trial + 1, store.written, "packed once");
      for (int coarser = 0; coarser < 3; coarser++) {
        same(anew, kept);
        assertEquals(anew.coarsen(), kept.coarsen());
      }
    }
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
    InMemory store = new InMemory();
    GridSpec spec = new GridSpec(300, 400, 5, 5, 0, 0, "");
    char[] cells = cells(spec, random, 300);
    String first = KeptTiles.of(spec, cells, Halving.MEAN, store).text();
    for (int trial = 0; trial < 10; trial++) {
      char[] other = cells.clone();
      int at = random.nextInt(other.length);
      other[at] = (char) (other[at] + 1);
      TilePack packed = KeptTiles.of(spec, other, Halving.MEAN, store);
      assertEquals(new TilePack(spec, other, Halving.MEAN).text(), packed.text());
      assertNotEquals(first, packed.text());
    }
    GridSpec turned = new GridSpec(400, 300, 5, 5, 0, 0, "");
    same(
        new TilePack(turned, cells, Halving.MEAN),
        KeptTiles.of(turned, cells, Halving.MEAN, store));
    same(new TilePack(spec, cells, Halving.NONE), KeptTiles.of(spec, cells, Halving.NONE, store));
  }

  private static char[] cells(GridSpec spec, Random random, int most) {
    char[] cells = new char[spec.cells()];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (char) (i % 7 == 0 ? random.nextInt(most) : (i % spec.cols() + i / 11) % most);
    }
    return cells;
  }
}
