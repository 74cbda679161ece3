package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Base64;
import java.util.Random;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.TilePack.Halving;

class TilePackTest {
  /** Whatever the cells, every tile of every level is read back from its part of the text alone. */
  @Test
  void everyTileIsReadBackFromItsPartOfTheText() throws DataFormatException {
    Random random = new Random(3);
    for (int trial = 0; trial < 12; trial++) {
      int rows = 1 + random.nextInt(700);
      int cols = 1 + random.nextInt(700);
      int most = trial % 3 == 0 ? 65_536 : trial % 3 == 1 ? 256 : 4;
      char[] cells = new char[rows * cols];
      for (int i = 0; i < cells.length; i++) {
        boolean smooth = trial % 2 == 0;
        cells[i] = (char) (smooth ? (i % cols + i / cols) % most : random.nextInt(most));
      }
      GridSpec spec = new GridSpec(rows, cols, 5, 5, 0, 0, "");
      TilePack pack = new TilePack(spec, cells, Halving.ANY_CAUSE);
      if (trial % 4 == 3) {
        pack.coarsen();
      }
      String text = pack.text();
      assertEquals(pack.chars(), text.length());
      char[] expected = cells;
      int w = cols;
      int h = rows;
      for (int k = 0; k < pack.levels(); k++) {
        if (k > 0) {
          expected = TilePack.halved(expected, w, h, Halving.ANY_CAUSE);
          w = (w + 1) / 2;
          h = (h + 1) / 2;
        }
        if (pack.level(k) != null) {
          compare(expected, w, h, pack, k, text);
        }
      }
    }
  }

  private static void compare(char[] expected, int w, int h, TilePack pack, int k, String text)
      throws DataFormatException {
    TilePack.Level level = pack.level(k);
    assertEquals(w, level.width);
    assertEquals(h, level.height);
    for (int t = 0; t < level.at.length / 2; t++) {
      int at = pack.offset(k) + level.at[2 * t];
      int n = level.at[2 * t + 1];
      byte[] packed = Base64.getDecoder().decode(text.substring(at / 3 * 4, (at + n + 2) / 3 * 4));
      int row = t / level.across * TilePack.TILE;
      int col = t % level.across * TilePack.TILE;
      int tw = Math.min(TilePack.TILE, w - col);
      int th = Math.min(TilePack.TILE, h - row);
      int[] tile = tile(Arrays.copyOf(packed, n), tw, th, pack.plain);
      for (int i = 0; i < tile.length; i++) {
        assertEquals(expected[(row + i / tw) * w + col + i % tw], tile[i]);
      }
    }
  }

  /** Reads a tile as the format says. */
  private static int[] tile(byte[] packed, int w, int h, boolean plain) throws DataFormatException {
    Inflater inflater = new Inflater(true);
    inflater.setInput(packed);
    byte[] raw = new byte[2 * w * h];
    int n = 0;
    while (!inflater.finished() && n < raw.length) {
      n += inflater.inflate(raw, n, raw.length - n);
    }
    inflater.end();
    assertTrue(n == w * h || n == 2 * w * h, n + " bytes");
    int[] cells = new int[w * h];
    for (int i = 0; i < cells.length; i++) {
      int number = (raw[i] & 0xFF) | (n > w * h ? (raw[w * h + i] & 0xFF) << 8 : 0);
      if (plain) {
        cells[i] = number;
        continue;
      }
      int x = i % w;
      int y = i / w;
      int[] guesses =
          x > 0 && y > 0
              ? new int[] {
                cells[i - 1], cells[i - w], cells[i - 1] + cells[i - w] - cells[i - w - 1]
              }
              : new int[] {0, x > 0 ? cells[i - 1] : y > 0 ? cells[i - w] : 0, 65_535};
      Arrays.sort(guesses);
      int off = (number & 1) == 0 ? number >> 1 : -((number + 1) >> 1);
      cells[i] = guesses[1] + off & 0xFFFF;
    }
    return cells;
  }

  /** Means are of the cells with data and rounded up; a cause is told where there is any. */
  @Test
  void fourCellsBecomeOne() {
    char[] cells = {1, 2, 0, 7, 2, 1, 0, 8};
    char[] mean = {2, 8};
    char[] cause = {2, 8};
    assertArrayEquals(mean, TilePack.halved(cells, 4, 2, Halving.MEAN));
    assertArrayEquals(cause, TilePack.halved(cells, 4, 2, Halving.ANY_CAUSE));
  }

  /** However often cells are merged, what stands for them is the worst of them, never better. */
  @Test
  void mergedCellsNeverLookSafer() {
    Random random = new Random(41);
    int[] badness = {2, 0, 1, 3};
    for (int trial = 0; trial < 40; trial++) {
      int w = 1 + random.nextInt(40);
      int h = 1 + random.nextInt(40);
      char[] cls = new char[w * h];
      char[] amount = new char[w * h];
      char[] band = new char[w * h];
      for (int i = 0; i < cls.length; i++) {
        cls[i] = (char) (random.nextInt(20) > 0 ? 1 : random.nextInt(4));
        amount[i] = (char) (random.nextInt(5) == 0 ? 0 : 1 + random.nextInt(900));
        band[i] = (char) (random.nextInt(9) == 0 ? 60 * random.nextInt(2) : 1 + random.nextInt(3));
      }
      int factor = 1;
      char[] classes = cls;
      char[] most = amount;
      char[] least = amount;
      char[] bands = band;
      int wide = w;
      for (int high = h; Math.max(wide, high) > 1; factor *= 2) {
        classes = TilePack.halved(classes, wide, high, Halving.WORST_CLASS);
        most = TilePack.halved(most, wide, high, Halving.AT_MOST);
        least = TilePack.halved(least, wide, high, Halving.AT_LEAST);
        bands = TilePack.halved(bands, wide, high, Halving.WORST_BAND);
        wide = (wide + 1) / 2;
        high = (high + 1) / 2;
        int half = 2 * factor;
        for (int i = 0; i < cls.length; i++) {
          int to = i / w / half * wide + i % w / half;
          assertTrue(badness[classes[to]] >= badness[cls[i]]);
          assertTrue(most[to] == 0 || (amount[i] > 0 && most[to] >= amount[i]));
          assertTrue(least[to] <= amount[i]);
          assertTrue(band[i] == 0 ? bands[to] == 0 : bands[to] == 0 || bands[to] >= band[i]);
        }
      }
    }
  }
}
