package org.scarpway.geodata.raster;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.gdal.gdal.Band;
import org.gdal.gdal.GCP;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;
import org.scarpway.stage.UserError;

class GdalRasterIoTest {
  private static final GridSpec SPEC =
      new GridSpec(600, 1300, 5, 5, 1000, 2000, GdalFixture.MOON_SOUTH);

  /** A cube whose cells lie in another file. */
  private static final String LABEL =
      """
      Object = IsisCube
        Object = Core
          ^Core = "CELLS"
          StartByte = 1
          Format = LAYOUT
          Group = Dimensions
            Samples = 2
            Lines = 2
            Bands = 1
          End_Group
          Group = Pixels
            Type = Real
            ByteOrder = Lsb
            Base = 0.0
            Multiplier = 1.0
          End_Group
        End_Object
      End_Object
      End
      """;

  private final RasterIo io = RasterIos.gdal();

  @TempDir Path dir;

  @Test
  void productsAreCloudOptimisedAndDescribed() {
    float[] heights = new float[SPEC.cells()];
    for (int i = 0; i < heights.length; i++) {
      heights[i] = i % SPEC.cols() < 600 ? Float.NaN : i % SPEC.cols();
    }
    Path file = dir.resolve("p.tif");
    io.write(
        file,
        new FloatGrid(SPEC, heights),
        new BandInfo("slope along the fall line", "deg", 0, Map.of("METHOD", "Horn 1981")));
    GdalFixture.look(
        file,
        d -> {
          Band b = d.GetRasterBand(1);
          assertEquals("COG", d.GetMetadataItem("LAYOUT", "IMAGE_STRUCTURE"));
          assertEquals("DEFLATE", d.GetMetadataItem("COMPRESSION", "IMAGE_STRUCTURE"));
          assertEquals("3", d.GetMetadataItem("PREDICTOR", "IMAGE_STRUCTURE"));
          assertEquals(256, b.GetBlockXSize());
          assertEquals(3, b.GetOverviewCount());
          assertEquals("slope along the fall line", b.GetDescription());
          assertEquals("deg", b.GetUnitType());
          assertEquals("Horn 1981", b.GetMetadataItem("METHOD"));
          float[] half = new float[650];
          assertEquals(0, b.GetOverview(0).ReadRaster(0, 100, 650, 1, half));
          // Averages of two neighbours; cells without data spread nowhere.
          assertTrue(Float.isNaN(half[299]));
          assertEquals(600.5f, half[300]);
          return null;
        });
  }

  @Test
  void overviewsOfCodesHoldCodesOnly() {
    byte[] codes = new byte[SPEC.cells()];
    int[] bits = new int[SPEC.cells()];
    Random random = new Random(2);
    for (int i = 0; i < codes.length; i++) {
      codes[i] = (byte) (random.nextBoolean() ? 1 : 3);
      bits[i] = random.nextBoolean() ? 1 << 31 : 5;
    }
    Path c = dir.resolve("c.tif");
    Path n = dir.resolve("n.tif");
    io.write(
        c, new ByteGrid(SPEC, codes), BandInfo.codes("class", Map.of("1", "go", "3", "no-go")));
    io.write(n, new IntGrid(SPEC, bits), BandInfo.of("causes", "code"));
    for (Path file : List.of(c, n)) {
      GdalFixture.look(
          file,
          d -> {
            Band small = d.GetRasterBand(1).GetOverview(0);
            double[] v = new double[small.getXSize() * small.getYSize()];
            assertEquals(0, small.ReadRaster(0, 0, small.getXSize(), small.getYSize(), v));
            for (double x : v) {
              assertTrue(file == c ? x == 1 || x == 3 : x == 0x1p31 || x == 5, file + ": " + x);
            }
            return null;
          });
    }
  }

  @Test
  void missingCellsInAllTheirSpellingsBecomeNaN() {
    double max = Float.MAX_VALUE;
    Object[][] cases = {
      {gdalconstConstants.GDT_Float32, -9999.9, -9999.9},
      {gdalconstConstants.GDT_Float32, Double.NaN, Double.NaN},
      {gdalconstConstants.GDT_Float32, null, Double.NaN},
      {gdalconstConstants.GDT_Float32, null, -max},
      {gdalconstConstants.GDT_Float32, null, Double.POSITIVE_INFINITY},
      {gdalconstConstants.GDT_Float32, -3.4e38, -3.4028e38},
      {gdalconstConstants.GDT_Float32, 3.4028236e38, max},
      {gdalconstConstants.GDT_Float64, -1e300, -1e300},
      {gdalconstConstants.GDT_Float64, -9999.9, -9999.9},
      {gdalconstConstants.GDT_Int16, -32768.0, -32768.0},
      {gdalconstConstants.GDT_Byte, 0.0, 0.0},
      {gdalconstConstants.GDT_UInt32, 4294967295.0, 4294967295.0},
    };
    for (Object[] c : cases) {
      Path file =
          GdalFixture.create(
              dir.resolve("v.tif"),
              (Integer) c[0],
              2,
              new double[] {12, (Double) c[2]},
              List.of(),
              d -> {
                if (c[1] != null) {
                  d.GetRasterBand(1).SetNoDataValue((Double) c[1]);
                }
              });
      for (RasterIo path : RasterIoTest.both()) {
        float[] out = new float[2];
        path.read(path.header(file), 0, 0, 1, 2, 0, out);
        assertArrayEquals(new float[] {12, Float.NaN}, out, path.name() + " " + c[1] + " " + c[2]);
      }
    }
  }

  @Test
  void masksHideCellsAndTheJavaPathDoesNotPretend() {
    Path file =
        GdalFixture.create(
            dir.resolve("masked.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2, 3, 4},
            List.of(),
            d -> {
              gdal.SetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", "YES");
              assertEquals(0, d.CreateMaskBand(gdalconstConstants.GMF_PER_DATASET));
              gdal.SetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", null);
              byte[] mask = {(byte) 255, 0, (byte) 255, 0};
              assertEquals(0, d.GetRasterBand(1).GetMaskBand().WriteRaster(0, 0, 2, 2, mask));
            });
    assertFalse(Files.exists(dir.resolve("masked.tif.msk")));
    float[] out = new float[4];
    io.read(io.header(file), 0, 0, 2, 2, 0, out);
    assertArrayEquals(new float[] {1, Float.NaN, 3, Float.NaN}, out);
    RasterIoTest.assertRefused(() -> RasterIos.pureJava().header(file), "a mask band");
  }

  @Test
  void verticalPartOfASystemGivesTheUnitOnly() {
    Path file =
        GdalFixture.create(
            dir.resolve("compound.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2},
            List.of("GEOTIFF_VERSION=1.1"),
            d -> d.SetSpatialRef(GdalFixture.srs("EPSG:32717+6360")));
    RasterHeader h = io.header(file);
    assertTrue(h.crsWkt().startsWith("PROJCS[\"WGS 84 / UTM zone 17S\""), h.crsWkt());
    assertFalse(h.crsWkt().contains("AXIS"), h.crsWkt());
    assertTrue(
        h.verticalUnit().toLowerCase(java.util.Locale.ROOT).contains("foot"), h.verticalUnit());
  }

  @Test
  void controlPointsAloneAreNoPlace() {
    Path file =
        GdalFixture.create(
            dir.resolve("gcp.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2, 3, 4},
            List.of(),
            d -> {
              d.SetGeoTransform(new double[] {0, 1, 0, 0, 0, 1});
              GCP[] points = {
                new GCP(0, 0, 0, 0, 0, "", "1"),
                new GCP(9, 0, 0, 1, 0, "", "2"),
                new GCP(0, 9, 0, 0, 1, "", "3"),
                new GCP(8, 9, 0, 1, 1, "", "4")
              };
              d.SetGCPs(points, GdalFixture.MOON_SOUTH);
            });
    for (RasterIo path : RasterIoTest.both()) {
      RasterIoTest.assertRefused(() -> path.header(file), "ground control points only");
    }
  }

  @Test
  void aFileThatPointsElsewhereOpensNoConnection() throws Exception {
    AtomicInteger calls = new AtomicInteger();
    try (ServerSocket server = new ServerSocket(0, 10, InetAddress.getLoopbackAddress())) {
      Thread listener =
          new Thread(
              () -> {
                while (!server.isClosed()) {
                  try {
                    server.accept().close();
                    calls.incrementAndGet();
                  } catch (java.io.IOException e) {
                    return;
                  }
                }
              });
      listener.setDaemon(true);
      listener.start();
      String url = "/vsicurl/http://127.0.0.1:" + server.getLocalPort() + "/x.tif";
      Path vrt = dir.resolve("vrt.tif");
      Files.writeString(
          vrt,
          "<VRTDataset rasterXSize=\"2\" rasterYSize=\"2\"><VRTRasterBand dataType=\"Byte\""
              + " band=\"1\"><SimpleSource><SourceFilename>"
              + url
              + "</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand>"
              + "</VRTDataset>");
      Path cube = dir.resolve("cube.cub");
      Files.writeString(cube, LABEL.replace("CELLS", url).replace("LAYOUT", "GeoTIFF"));
      Path overview =
          GdalFixture.create(
              dir.resolve("ovr.tif"),
              gdalconstConstants.GDT_Float32,
              2,
              new double[] {1, 2, 3, 4},
              List.of(),
              d -> d.SetMetadataItem("OVERVIEW_FILE", url, "OVERVIEWS"));
      assertTrue(
          new String(Files.readAllBytes(overview), StandardCharsets.ISO_8859_1).contains(url));

      assertThrows(UserError.class, () -> io.header(vrt));
      RasterIoTest.assertRefused(() -> io.header(cube), "points to cells outside itself");
      assertThrows(UserError.class, () -> io.header(Path.of(url)));
      assertEquals(2, io.header(overview).cols());
      gdal.AllRegister();
      assertNull(gdal.GetDriverByName("VRT"));
      assertNull(gdal.GetDriverByName("WMS"));
      // Even asked directly, the library may not leave the machine.
      assertNull(gdal.OpenEx(url, gdalconstConstants.OF_RASTER));
      GdalFixture.look(overview, d -> d.GetRasterBand(1).GetOverviewCount());
    }
    assertEquals(0, calls.get());
  }

  @Test
  void labelsMayNameOnlyAPartnerInTheirFolder() throws Exception {
    Path elsewhere = Files.createDirectory(dir.resolve("elsewhere"));
    Path data = Files.write(elsewhere.resolve("cells.raw"), new byte[16]);
    Path label = dir.resolve("label.cub");
    Files.writeString(
        label,
        LABEL
            .replace("CELLS", "elsewhere/" + data.getFileName())
            .replace("LAYOUT", "BandSequential"));
    RasterIoTest.assertRefused(() -> io.header(label), "takes cells from");
  }

  @Test
  void plainCellsMustAllBeThereUnderAFittingName() throws Exception {
    Path tif =
        GdalFixture.create(
            dir.resolve("t.tif"),
            gdalconstConstants.GDT_Float32,
            20,
            new double[400],
            List.of(),
            d -> {});
    for (String format : List.of("ENVI", "EHdr", "ISIS3")) {
      Path raw = dir.resolve(format + ".img");
      GdalFixture.look(
          tif,
          d -> {
            gdal.GetDriverByName(format).CreateCopy(raw.toString(), d, 1, new String[0]).delete();
            return null;
          });
      Files.deleteIfExists(dir.resolve(format + ".img.aux.xml"));
      assertEquals(format, io.header(raw).format());
      byte[] bytes = Files.readAllBytes(raw);
      // A cube ends with its history; the cells of this one are the 1600 bytes from 65536 on.
      int cellsEnd = format.equals("ISIS3") ? 65_536 + 1600 : bytes.length;
      Files.write(raw, java.util.Arrays.copyOf(bytes, cellsEnd - 100));
      RasterIoTest.assertRefused(() -> io.header(raw), "is truncated");
      if (!format.equals("ISIS3")) {
        Path other = Files.write(dir.resolve(format + ".gpkg"), bytes);
        RasterIoTest.assertRefused(() -> io.header(other), "because of a .hdr file beside it");
      }
    }
  }

  @Test
  void afterClosingNothingReachesTheLibrary() {
    Path file =
        GdalFixture.create(
            dir.resolve("c.tif"),
            gdalconstConstants.GDT_Float32,
            2,
            new double[] {1, 2, 3, 4},
            List.of(),
            d -> {});
    GdalFile open = GdalFile.open(file);
    double[] out = new double[4];
    open.readStored(0, 0, 2, 2, out);
    assertArrayEquals(new double[] {1, 2, 3, 4}, out);
    open.close();
    open.close();
    assertNotNull(open.header());
    assertThrows(IllegalStateException.class, () -> open.readStored(0, 0, 2, 2, out));
  }

  @Test
  void threadsReadOneFileByHandlesOfTheirOwn() throws Exception {
    int cols = 900;
    double[] cells = new double[cols * 800];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = i * 0.5;
    }
    Path file =
        GdalFixture.create(
            dir.resolve("shared.tif"),
            gdalconstConstants.GDT_Float32,
            cols,
            cells,
            List.of("TILED=YES", "COMPRESS=DEFLATE"),
            d -> {});
    RasterHeader h = io.header(file);
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      List<Callable<Integer>> tasks = new ArrayList<>();
      for (int t = 0; t < 80; t++) {
        int row = t * 10;
        tasks.add(
            () -> {
              float[] out = new float[cols * 10];
              io.read(h, row, 0, 10, cols, 0, out);
              int wrong = 0;
              for (int i = 0; i < out.length; i++) {
                wrong += out[i] == (float) cells[row * cols + i] ? 0 : 1;
              }
              return wrong;
            });
      }
      for (Future<Integer> wrong : pool.invokeAll(tasks)) {
        assertEquals(0, wrong.get());
      }
    } finally {
      pool.shutdownNow();
    }
  }

  @Test
  void compressedCellsThatAreDamagedAreRefusedWithTheirRows() throws Exception {
    double[] cells = new double[512 * 512];
    Random random = new Random(1);
    for (int i = 0; i < cells.length; i++) {
      cells[i] = random.nextDouble();
    }
    Path file =
        GdalFixture.create(
            dir.resolve("damaged.tif"),
            gdalconstConstants.GDT_Float32,
            512,
            cells,
            List.of("COMPRESS=DEFLATE", "TILED=YES"),
            d -> {});
    byte[] bytes = Files.readAllBytes(file);
    random.nextBytes(bytes);
    byte[] whole = Files.readAllBytes(file);
    System.arraycopy(bytes, 4000, whole, 300_000, 200_000);
    Files.write(file, whole);
    for (RasterIo path : RasterIoTest.both()) {
      float[] out = new float[512 * 512];
      RasterIoTest.assertRefused(
          () -> path.read(path.header(file), 0, 0, 512, 512, 0, out), "damaged.tif");
    }
  }
}
