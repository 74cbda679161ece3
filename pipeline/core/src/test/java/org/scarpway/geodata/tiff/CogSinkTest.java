package org.scarpway.geodata.tiff;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.gdal.gdal.Band;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.scarpway.geodata.raster.GdalFixture;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIoTest;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

class CogSinkTest {
  @TempDir Path dir;

  static List<RasterIo> both() {
    return List.of(RasterIos.gdal(), RasterIos.pureJava());
  }

  private static GridSpec spec(int rows, int cols) {
    return new GridSpec(rows, cols, 5, 4, 1000, 2000, GdalFixture.MOON_SOUTH);
  }

  private static float[] floats(int n, int seed) {
    Random random = new Random(seed);
    float[] v = new float[n];
    for (int i = 0; i < n; i++) {
      v[i] = random.nextInt(5) == 0 ? Float.NaN : (float) random.nextGaussian();
    }
    return v;
  }

  @ParameterizedTest
  @CsvSource({"1,1", "255,257", "256,256", "513,300", "700,3", "777,1030"})
  void anyNumberOfRowsAtATimeGivesTheSameBytes(int rows, int cols) throws Exception {
    GridSpec spec = spec(rows, cols);
    float[] cells = floats(spec.cells(), 3);
    byte[] codes = new byte[spec.cells()];
    int[] bits = new int[spec.cells()];
    for (int i = 0; i < codes.length; i++) {
      codes[i] = (byte) (i * 31 / 7 % 4);
      bits[i] = i * 0x9E3779B9;
    }
    for (RasterIo io : both()) {
      assertSame(io, spec, CellKind.FLOAT32, cells);
      assertSame(io, spec, CellKind.UINT8, codes);
      assertSame(io, spec, CellKind.UINT32, bits);
    }
  }

  private <A> void assertSame(RasterIo io, GridSpec spec, CellKind<A> kind, A cells)
      throws Exception {
    List<byte[]> files = new ArrayList<>();
    for (int step : new int[] {1, 7, 64, 256, 300, spec.rows()}) {
      Path file = dir.resolve("s" + step + ".tif");
      try (RasterSink<A> sink = io.sink(file, spec, kind, BandInfo.of("what", "m"))) {
        for (int row = 0; row < spec.rows(); row += step) {
          sink.append(cells, row * spec.cols(), Math.min(step, spec.rows() - row));
        }
        sink.finish();
      }
      files.add(Files.readAllBytes(file));
      try (RasterRows<A> back = RasterRows.open(file, kind)) {
        A out = kind.array(step * spec.cols());
        for (int row = 0; row < spec.rows(); row += step) {
          int n = Math.min(step, spec.rows() - row);
          back.read(row, n, out);
          int[] wanted = new int[n * spec.cols()];
          int[] got = new int[n * spec.cols()];
          kind.bits(cells, row * spec.cols(), wanted.length, wanted);
          kind.bits(out, 0, got.length, got);
          assertArrayEquals(wanted, got);
        }
      }
    }
    for (byte[] file : files) {
      assertArrayEquals(files.get(0), file);
    }
  }

  /** Overviews as an independent reader sees them, against means worked out cell by cell. */
  @Test
  void overviewsAreMeansOfTheCellsWithData() {
    GridSpec spec = spec(513, 771);
    float[] cells = floats(spec.cells(), 5);
    Path file = dir.resolve("o.tif");
    RasterIos.pureJava().write(file, new FloatGrid(spec, cells), BandInfo.of("what", "m"));
    GdalFixture.look(
        file,
        d -> {
          Band half = d.GetRasterBand(1).GetOverview(0);
          assertEquals(386, half.getXSize());
          assertEquals(257, half.getYSize());
          float[] got = new float[386 * 257];
          assertEquals(0, half.ReadRaster(0, 0, 386, 257, got));
          for (int i = 0; i < got.length; i++) {
            assertEquals(mean(spec, cells, 2 * (i / 386), 2 * (i % 386)), got[i], "cell " + i);
          }
          return null;
        });
  }

  private static float mean(GridSpec spec, float[] cells, int row, int col) {
    double sum = 0;
    int n = 0;
    for (int r = row; r < Math.min(row + 2, spec.rows()); r++) {
      for (int c = col; c < Math.min(col + 2, spec.cols()); c++) {
        float v = cells[r * spec.cols() + c];
        sum += Float.isNaN(v) ? 0 : v;
        n += Float.isNaN(v) ? 0 : 1;
      }
    }
    return n == 0 ? Float.NaN : (float) (sum / n);
  }

  @Test
  void overviewsOfCodesShowTheCommonest() {
    CellKind<byte[]> kind = CellKind.UINT8;
    byte[] upper = {1, 2, 0, 0, 3, 1, 2, 2, 9};
    byte[] lower = {2, 3, 0, 7, 1, 3, 1, 1, 9};
    byte[] out = new byte[5];
    kind.halve(upper, 0, lower, 0, 9, out);
    assertArrayEquals(new byte[] {2, 7, 3, 2, 9}, out);
    kind.halve(upper, 0, null, 0, 9, out);
    assertArrayEquals(new byte[] {1, 0, 3, 2, 9}, out);
  }

  @ParameterizedTest
  @MethodSource("both")
  void whatIsNotFinishedLeavesNothing(RasterIo io) throws Exception {
    GridSpec spec = spec(600, 20);
    float[] cells = new float[spec.cells()];
    Path file = dir.resolve("half.tif");
    try (RasterSink<float[]> sink =
        io.sink(file, spec, CellKind.FLOAT32, BandInfo.of("what", "m"))) {
      sink.append(cells, 0, 300);
      assertThrows(IllegalStateException.class, sink::finish);
      assertThrows(IllegalArgumentException.class, () -> sink.append(cells, 0, 301));
    }
    assertFalse(Files.exists(file));
    try (var left = Files.list(dir)) {
      assertEquals(0, left.count());
    }
  }

  @Test
  void aRasterThatIsNotOursOrIsDamagedIsRefused() throws Exception {
    GridSpec spec = spec(40, 50);
    Path file = dir.resolve("d.tif");
    float[] cells = floats(spec.cells(), 9);
    RasterIos.pureJava().write(file, new FloatGrid(spec, cells), BandInfo.of("what", "m"));
    RasterIoTest.assertRefused(() -> RasterRows.open(file, CellKind.UINT8), "that Scarpway wrote");
    byte[] bytes = Files.readAllBytes(file);
    Arrays.fill(bytes, bytes.length - 3000, bytes.length - 100, (byte) 0x55);
    Files.write(file, bytes);
    try (RasterRows<float[]> rows = RasterRows.open(file, CellKind.FLOAT32)) {
      RasterIoTest.assertRefused(() -> rows.read(0, 40, new float[spec.cells()]), "is damaged");
    }
    assertTrue(Files.exists(file));
  }
}
