package org.scarpway.geodata.raster;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** A float has 16 million NaNs; cells without data are the same bytes whichever they have. */
class OneNanTest {
  @TempDir Path dir;

  @Test
  void bytesDoNotTellOneNanFromAnother() throws Exception {
    Random random = new Random(3);
    GridSpec spec = new GridSpec(300, 270, 2, 2, 0, 600, "");
    float[] plain = new float[spec.cells()];
    float[] odd = new float[spec.cells()];
    int others = 0;
    for (int i = 0; i < odd.length; i++) {
      int bits = (random.nextBoolean() ? 0x7f80_0000 : 0xff80_0000) | 1 + random.nextInt(0x7f_ffff);
      boolean none = random.nextInt(4) == 0;
      plain[i] = none ? Float.NaN : i;
      odd[i] = none ? Float.intBitsToFloat(bits) : i;
      others += none && Float.floatToRawIntBits(odd[i]) != 0x7fc0_0000 ? 1 : 0;
    }
    assertTrue(others > 1000, others + " other NaNs");
    assertArrayEquals(bytes("plain", spec, plain), bytes("odd", spec, odd));
  }

  private byte[] bytes(String name, GridSpec spec, float[] cells) throws Exception {
    Path file = dir.resolve(name + ".tif");
    RasterIos.pureJava().write(file, new FloatGrid(spec, cells), BandInfo.of("cells", "m"));
    return Files.readAllBytes(file);
  }
}
