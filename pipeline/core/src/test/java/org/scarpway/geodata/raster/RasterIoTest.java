package org.scarpway.geodata.raster;

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
import java.util.Map;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.gdal.gdalconst.gdalconstConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/** Both paths: what one writes the other reads, and both see the same cells in any file. */
public class RasterIoTest {
  private static final GridSpec SPEC =
      new GridSpec(530, 700, 5, 2.5, -12345.5, 6789.25, GdalFixture.MOON_SOUTH);

  @TempDir Path dir;

  static List<RasterIo> both() {
    return List.of(RasterIos.gdal(), RasterIos.pureJava());
  }

  private static FloatGrid floats() {
    Random random = new Random(7);
    float[] v = new float[SPEC.cells()];
    for (int i = 0; i < v.length; i++) {
      v[i] = (float) (random.nextGaussian() * 300);
    }
    float[] odd = {Float.NaN, -0f, Float.MIN_VALUE, -3e38f, Float.POSITIVE_INFINITY, 1e-20f};
    System.arraycopy(odd, 0, v, 1000, odd.length);
    Arrays.fill(v, 5000, 90_000, Float.NaN);
    return new FloatGrid(SPEC, v);
  }

  @Test
  void whatOneWritesTheOtherReads() {
    FloatGrid floats = floats();
    byte[] codes = new byte[SPEC.cells()];
    int[] bits = new int[SPEC.cells()];
    Random random = new Random(8);
    for (int i = 0; i < codes.length; i++) {
      codes[i] = (byte) random.nextInt(256);
      bits[i] = random.nextInt();
    }
    for (RasterIo writer : both()) {
      Path f = dir.resolve("f.tif");
      Path b = dir.resolve("b.tif");
      Path n = dir.resolve("n.tif");
      writer.write(f, floats, BandInfo.of("height", "m"));
      writer.write(b, new ByteGrid(SPEC, codes), BandInfo.codes("class", Map.of("1", "go")));
      writer.write(n, new IntGrid(SPEC, bits), BandInfo.of("causes", "code"));
      for (RasterIo reader : both()) {
        String pair = writer.name() + " to " + reader.name();
        FloatGrid back = reader.readFloats(f);
        assertTrue(back.spec().sameCellsAs(SPEC), pair);
        for (int i = 0; i < codes.length; i++) {
          if (Float.floatToIntBits(floats.values()[i]) != Float.floatToIntBits(back.values()[i])) {
            throw new AssertionError(
                pair + ": cell " + i + " is " + back.values()[i] + ", not " + floats.values()[i]);
          }
        }
        assertArrayEquals(codes, reader.readBytes(b).values(), pair);
        assertArrayEquals(bits, reader.readInts(n).values(), pair);
        assertEquals("m", reader.header(f).verticalUnit(), pair);
        assertTrue(reader.header(f).nodata().isNaN(), pair);
        assertEquals(0.0, reader.header(b).nodata(), pair);
        assertEquals(null, reader.header(n).nodata(), pair);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("both")
  void writingTwiceGivesTheSameBytesOnAnyThread(RasterIo io) throws Exception {
    FloatGrid grid = floats();
    BandInfo info = new BandInfo("height", "m", 0, Map.of("b", "2", "a", "1"));
    ExecutorService two = Executors.newFixedThreadPool(2);
    try {
      List<Callable<Void>> writes = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        Path file = dir.resolve("w" + i + ".tif");
        writes.add(
            () -> {
              io.write(file, grid, info);
              return null;
            });
      }
      for (Future<Void> done : two.invokeAll(writes)) {
        done.get();
      }
    } finally {
      two.shutdownNow();
    }
    byte[] first = Files.readAllBytes(dir.resolve("w0.tif"));
    for (int i = 1; i < 4; i++) {
      assertArrayEquals(first, Files.readAllBytes(dir.resolve("w" + i + ".tif")));
    }
    try (var left = Files.list(dir)) {
      assertEquals(4, left.count(), "nothing but the four files is left");
    }
  }

  @ParameterizedTest
  @MethodSource("both")
  void offsetAndScaleAreHonouredInDoublePrecision(RasterIo io) {
    double[] stored = {-100, 7, 32767, -32768};
    Path file =
        GdalFixture.create(
            dir.resolve("scaled.tif"),
            gdalconstConstants.GDT_Int16,
            2,
            stored,
            List.of(),
            d -> {
              d.GetRasterBand(1).SetScale(0.001);
              d.GetRasterBand(1).SetOffset(1_737_400);
              d.GetRasterBand(1).SetNoDataValue(-32768);
              d.GetRasterBand(1).SetUnitType("m");
            });
    RasterHeader h = io.header(file);
    assertEquals(0.001, h.scale());
    assertEquals(1_737_400, h.offset());
    assertEquals("m", h.verticalUnit());
    float[] out = new float[4];
    io.read(h, 0, 0, 2, 2, 1_737_400, out);
    // With float32 at the body's radius, steps of 1 mm would be lost (spacing 0.125 m).
    assertArrayEquals(new float[] {-0.1f, 0.007f, 32.767f, Float.NaN}, out, 1e-6f);
  }

  @ParameterizedTest
  @MethodSource("both")
  void anOffsetWrittenIsReadBackWithTheCellsAsStored(RasterIo io) {
    GridSpec spec = new GridSpec(1, 2, 1, 1, 0, 0, GdalFixture.MOON_SOUTH);
    Path file = dir.resolve("offset.tif");
    io.write(
        file,
        new FloatGrid(spec, new float[] {1.5f, Float.NaN}),
        new BandInfo("height above datum", "m", 1_737_400.25, Map.of()));
    for (RasterIo reader : both()) {
      assertEquals(1_737_400.25, reader.header(file).offset());
      assertArrayEquals(new float[] {1.5f, Float.NaN}, reader.readFloats(file).values());
      float[] real = new float[2];
      reader.read(reader.header(file), 0, 0, 1, 2, 1_737_400, real);
      assertArrayEquals(new float[] {1.75f, Float.NaN}, real);
    }
  }

  @Test
  void bothPathsSeeTheSameCellsInEveryStorage() {
    int cols = 300;
    double[] cells = new double[cols * 280];
    Random random = new Random(3);
    for (int i = 0; i < cells.length; i++) {
      cells[i] = random.nextInt(250) + (i % 17 == 0 ? 0.25 : 0);
    }
    List<List<String>> storages =
        List.of(
            List.of(),
            List.of("ENDIANNESS=BIG"),
            List.of("TILED=YES", "COMPRESS=DEFLATE"),
            List.of("TILED=YES", "COMPRESS=DEFLATE", "PREDICTOR=2"),
            List.of("TILED=YES", "COMPRESS=LZW", "ENDIANNESS=BIG"),
            List.of("COMPRESS=PACKBITS"),
            List.of("BIGTIFF=YES", "TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=32"),
            List.of("COMPRESS=ZSTD", "TILED=YES"));
    int[] types = {
      gdalconstConstants.GDT_Byte,
      gdalconstConstants.GDT_UInt16,
      gdalconstConstants.GDT_Int16,
      gdalconstConstants.GDT_UInt32,
      gdalconstConstants.GDT_Int32,
      gdalconstConstants.GDT_Float32,
      gdalconstConstants.GDT_Float64
    };
    for (int type : types) {
      boolean real =
          type == gdalconstConstants.GDT_Float32 || type == gdalconstConstants.GDT_Float64;
      double[] given = Arrays.stream(cells).map(v -> real ? v : Math.floor(v)).toArray();
      for (List<String> storage : storages) {
        // Every storage for two types, every type for one storage.
        boolean often =
            type == gdalconstConstants.GDT_Float32 || type == gdalconstConstants.GDT_Int16;
        if (!often && storages.indexOf(storage) != 2) {
          continue;
        }
        Path file =
            GdalFixture.create(
                dir.resolve("s.tif"),
                type,
                cols,
                given,
                storage,
                d -> {
                  d.GetRasterBand(1).SetNoDataValue(7);
                });
        for (RasterIo io : both()) {
          String what = io.name() + ", type " + type + ", " + storage;
          RasterHeader h = io.header(file);
          float[] window = new float[101 * 53];
          io.read(h, 61, 99, 53, 101, 2, window);
          for (int i = 0; i < window.length; i++) {
            double v = given[(61 + i / 101) * cols + 99 + i % 101];
            assertEquals(v == 7 ? Float.NaN : (float) (v - 2), window[i], what);
          }
        }
      }
    }
  }

  @Test
  void textGridsKeepEveryDigitOnBothPaths() throws Exception {
    Path file = dir.resolve("grid.asc");
    Files.writeString(
        file,
        """
        NCOLS 3
        NROWS 2
        XLLCENTER 100.5
        YLLCENTER 20
        CELLSIZE 1
        NODATA_value -9999
        1737400.0625 2 -9999
        4 nan
        6e-2
        """);
    for (RasterIo io : both()) {
      RasterHeader h = io.header(file);
      assertEquals(new RasterHeader.Affine(100, 1, 0, 21.5, 0, -1), h.transform(), io.name());
      float[] out = new float[6];
      io.read(h, 0, 0, 2, 3, 1_737_400, out);
      assertEquals(0.0625f, out[0], io.name());
      assertTrue(Float.isNaN(out[2]) && Float.isNaN(out[4]), io.name());
      float[] one = new float[1];
      io.read(h, 1, 2, 1, 1, 0, one);
      assertEquals(0.06f, one[0], io.name());
    }
    Files.writeString(file, "ncols 3\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2 3 4 5");
    assertRefused(() -> RasterIos.pureJava().header(file), "it ends in row 1, column 2");
  }

  @ParameterizedTest
  @MethodSource("both")
  void southUpAndRotatedPlacesAreReportedAsTheyAre(RasterIo io) {
    double[] t = {1841001.75, 1.5, -5, 1144003.25, -5, -1.5};
    Path file =
        GdalFixture.create(
            dir.resolve("rotated.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2, 3, 4},
            List.of(),
            d -> d.SetGeoTransform(t));
    assertEquals(
        new RasterHeader.Affine(1841001.75, 1.5, -5, 1144003.25, -5, -1.5),
        io.header(file).transform());
    Path up =
        GdalFixture.create(
            dir.resolve("up.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2, 3, 4},
            List.of(),
            d -> d.SetGeoTransform(new double[] {0, 10, 0, 0, 0, 20}));
    assertEquals(new RasterHeader.Affine(0, 10, 0, 0, 0, 20), io.header(up).transform());
    assertRefused(() -> io.readFloats(up), "not north-up");
  }

  @ParameterizedTest
  @MethodSource("both")
  void tiePointsOfCellCentresAreMovedToCorners(RasterIo io) {
    Path file =
        GdalFixture.create(
            dir.resolve("point.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2, 3, 4},
            List.of(),
            d -> d.SetMetadataItem("AREA_OR_POINT", "Point"));
    assertEquals(new RasterHeader.Affine(1000, 5, 0, 2000, 0, -5), io.header(file).transform());
  }

  @ParameterizedTest
  @MethodSource("both")
  void whatIsNoWholeRasterIsRefusedInOneLine(RasterIo io) throws Exception {
    Path text = Files.writeString(dir.resolve("text.tif"), "not a raster at all\n");
    Path empty = Files.createFile(dir.resolve("empty.tif"));
    assertRefused(() -> io.header(dir.resolve("missing.tif")), "does not exist");
    assertRefused(() -> io.header(dir), "is a directory");
    assertRefused(() -> io.header(text), "is no raster");
    assertRefused(() -> io.header(empty), "is empty");
    assertRefused(() -> io.header(Path.of("/vsicurl/http://127.0.0.1/x.tif")), "not the name");
    assertRefused(() -> io.header(Path.of("http://127.0.0.1/x.tif")), "not the name");
    assertRefused(() -> io.header(Path.of("<VRTDataset/>")), "not the name");

    Path good =
        GdalFixture.create(
            dir.resolve("good.tif"),
            gdalconstConstants.GDT_Float32,
            64,
            new double[64 * 64],
            List.of(),
            d -> {});
    byte[] bytes = Files.readAllBytes(good);
    for (int n : new int[] {3, 8, 100, bytes.length / 2, bytes.length - 1}) {
      Path cut = dir.resolve("cut.tif");
      Files.write(cut, Arrays.copyOf(bytes, n));
      assertRefused(() -> io.header(cut), "cut.tif");
    }
    Path unplaced =
        GdalFixture.create(
            dir.resolve("unplaced.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[4],
            List.of("PROFILE=BASELINE"),
            d -> {});
    assertRefused(() -> io.header(unplaced), "does not say where its cells lie");
    Path sparse =
        GdalFixture.create(
            dir.resolve("sparse.tif"),
            gdalconstConstants.GDT_Float32,
            512,
            new double[512 * 512],
            List.of("SPARSE_OK=TRUE", "TILED=YES"),
            d -> {});
    assertRefused(() -> io.header(sparse), "was never written");
  }

  @ParameterizedTest
  @MethodSource("both")
  void fewBytesCannotClaimHugeBlocks(RasterIo io) throws Exception {
    // Width 100 000, one strip of 100 000 rows of float64, in a file of a few hundred bytes.
    Path bomb = dir.resolve("bomb.tif");
    var b = java.nio.ByteBuffer.allocate(200).order(java.nio.ByteOrder.LITTLE_ENDIAN);
    b.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(8).putShort((short) 8);
    int[][] tags = {
      {256, 100_000},
      {257, 100_000},
      {258, 64},
      {259, 8},
      {273, 150},
      {277, 1},
      {278, 100_000},
      {279, 20}
    };
    for (int[] t : tags) {
      b.putShort((short) t[0]).putShort((short) 4).putInt(1).putInt(t[1]);
    }
    b.putInt(0);
    Files.write(bomb, b.array());
    assertRefused(() -> io.header(bomb), "claims blocks of 100000 x 100000 cells in 200 bytes");
  }

  @ParameterizedTest
  @MethodSource("both")
  void aReplacedFileIsReadAnew(RasterIo io) {
    GridSpec spec = new GridSpec(1, 1, 1, 1, 0, 0, "");
    Path file = dir.resolve("again.tif");
    for (int i = 0; i < 3; i++) {
      io.write(file, new FloatGrid(spec, new float[] {i}), BandInfo.of("", ""));
      assertEquals(i, io.readFloats(file).values()[0]);
    }
  }

  @ParameterizedTest
  @MethodSource("both")
  void aWriteThatFailsLeavesTheOldFileAndNothingElse(RasterIo io) throws Exception {
    FloatGrid one = FloatGrid.empty(new GridSpec(1, 1, 1, 1, 0, 0, ""));
    assertThrows(
        StageFailure.class,
        () -> io.write(dir.resolve("no/such/dir.tif"), one, BandInfo.of("", "")));
    Path taken = Files.createDirectory(dir.resolve("taken.tif"));
    Files.writeString(taken.resolve("inside"), "x");
    assertThrows(StageFailure.class, () -> io.write(taken, one, BandInfo.of("", "")));
    assertTrue(Files.exists(taken.resolve("inside")));
    assertFalse(Files.exists(dir.resolve("taken.tif.part")));
  }

  @ParameterizedTest
  @MethodSource("both")
  void aSidecarThatChangesTheCellsIsRefusedAndStatisticsAreNot(RasterIo io) throws Exception {
    Path file =
        GdalFixture.create(
            dir.resolve("side.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2, 3, -9999},
            List.of(),
            d -> {});
    Path side = dir.resolve("side.tif.aux.xml");
    Files.writeString(
        side, "<PAMDataset><Metadata><MDI key=\"STATISTICS_MEAN\">2</MDI></Metadata>");
    assertEquals(2, io.header(file).rows());
    Files.writeString(side, "<PAMDataset><NoDataValue>-9999</NoDataValue></PAMDataset>");
    Path copy = Files.copy(file, dir.resolve("copy.tif"));
    Files.copy(side, dir.resolve("copy.tif.aux.xml"));
    assertRefused(() -> io.header(copy), "copy.tif.aux.xml");
  }

  @Test
  void theJavaPathSaysWhatItLacksAndHowToGetIt() throws Exception {
    assertTrue(RasterIos.gdal().reduced().isEmpty());
    String all = String.join("\n", RasterIos.pureJava().reduced());
    assertTrue(all.contains("only GeoTIFF and text grids are read"), all);
    assertTrue(all.contains("pipeline/bin/build-gdal-native"), all);
    Path cube = Files.writeString(dir.resolve("a.cub"), "Object = IsisCube\n");
    assertRefused(() -> RasterIos.pureJava().header(cube), "pipeline/bin/build-gdal-native");
  }

  public static void assertRefused(org.junit.jupiter.api.function.Executable call, String says) {
    UserError e = assertThrows(UserError.class, call);
    assertTrue(e.getMessage().contains(says), e.getMessage());
    assertFalse(e.getMessage().contains("\n"), e.getMessage());
  }
}
