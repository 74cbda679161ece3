package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Input that means harm: it is refused with exit code 2 in one clear line and nothing is written,
 * inside the output folder or outside of it.
 */
class HostileFlowTest {
  @TempDir Path dir;
  private Path job;
  private Path out;

  @BeforeEach
  void write() throws IOException {
    Path folder = Files.createDirectories(dir.resolve("job"));
    job = SmallJob.write(folder.resolve("job.yaml"), "small", 10);
    out = dir.resolve("out");
  }

  private void change(String from, String to) throws IOException {
    String text = Files.readString(job);
    assertTrue(text.contains(from), from);
    Files.writeString(job, text.replace(from, to));
  }

  private Flow.Outcome refused() {
    Flow.Outcome o = Flow.scarpway("run", job, "--out", out, "--quiet");
    assertEquals(2, o.code(), o.err());
    assertEquals(1, o.errLines().size(), o.err());
    assertFalse(o.err().contains("Exception"), o.err());
    assertEquals("", o.out());
    assertFalse(Files.exists(out));
    return o;
  }

  /** Links at every name that a run writes to: nothing is written where they lead. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "mobility",
        "reach",
        "corridor",
        ".lock",
        "stac",
        "index.html",
        "run.json",
        "prov.json",
        ".job.json"
      })
  void linksInTheOutputFolderAreNamed(String name) throws IOException {
    Path run = Files.createDirectories(out.resolve("small"));
    Path elsewhere = Files.createDirectories(dir.resolve("elsewhere"));
    for (Path target : List.of(elsewhere, dir.resolve("nowhere"), run.resolve(name))) {
      Path link = Files.createSymbolicLink(run.resolve(name), target);
      Flow.Outcome o = Flow.scarpway("run", job, "--out", out, "--quiet");
      assertEquals(2, o.code(), o.err());
      assertEquals(1, o.errLines().size(), o.err());
      assertTrue(o.err().contains(link + ": is a link"), o.err());
      assertTrue(o.err().contains("remove the link"), o.err());
      assertFalse(Files.exists(dir.resolve("nowhere")));
      try (var files = Files.list(elsewhere)) {
        assertEquals(0, files.count());
      }
      Files.delete(link);
      assertEquals(List.of(), Flow.files(out), "nothing was written, not even a lock");
    }
  }

  /** The store that nobody named stays in the output folder; one that is named may lie anywhere. */
  @Test
  void aLinkInPlaceOfTheStore() throws IOException {
    Path elsewhere = Files.createDirectories(dir.resolve("elsewhere"));
    Path link = Files.createSymbolicLink(Files.createDirectories(out).resolve(".store"), elsewhere);
    Flow.Outcome o = Flow.scarpway("run", job, "--out", out, "--quiet");
    assertEquals(2, o.code(), o.err());
    assertTrue(o.err().contains(link + ": is a link"), o.err());
    assertTrue(o.err().contains("--store"), o.err());
    assertEquals(List.of(), Flow.files(out));
    assertEquals(List.of(), Flow.files(elsewhere));
    Flow.scarpway("run", job, "--out", out, "--quiet", "--store", link).ok();
    assertFalse(Flow.files(elsewhere).isEmpty());
  }

  /** Names of raster drivers, their file systems and their sub-datasets in place of a file. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "NETCDF:ground.nc:height",
        "HDF5:ground.h5://height",
        "HDF4_SDS:UNKNOWN:ground.hdf:0",
        "GTIFF_DIR:1:ground.tif",
        "GPKG:ground.gpkg:heights",
        "/vsicurl/http://127.0.0.1:9/ground.tif",
        "/vsizip/ground.zip/ground.tif",
        "/vsis3/bucket/ground.tif",
        "vrt://ground.tif?bands=1",
        "http://127.0.0.1:9/ground.tif",
        "file:///etc/passwd",
        "WMS:http://127.0.0.1:9/?",
        "<VRTDataset/>",
        "/dev/zero",
        "/dev/stdin",
        "/proc/self/mem"
      })
  void aDriverOrDeviceInPlaceOfAFile(String name) throws IOException {
    change(Flow.ROOT.resolve("sample-dem/orrel-bench.tif").toString(), "\"" + name + "\"");
    String told = refused().err();
    // The last one stands under the number of the process.
    boolean named = told.startsWith(name) || told.matches("(?s)/proc/\\d+/mem: .*");
    assertTrue(told.contains("job.yaml:") || named, told);
  }

  /** Files of other formats under the name of a GeoTIFF. */
  @ParameterizedTest
  @CsvSource({
    "CDF\\u0001, netCDF",
    "\\u0089HDF\\r\\n\\u001a\\n, HDF5",
    "\\u000e\\u0003\\u0013\\u0001, HDF4",
    "PK\\u0003\\u0004, zip",
    "<VRTDataset rasterXSize='9' rasterYSize='9'/>, VRT",
    "<GDAL_WMS><Service name='TMS'/></GDAL_WMS>, web map",
    "SQLite format 3\\u0000, database"
  })
  void anotherFormatUnderTheName(String start, String kind) throws IOException {
    byte[] bytes = new byte[4096];
    byte[] plain = unicode(start).getBytes(StandardCharsets.ISO_8859_1);
    System.arraycopy(plain, 0, bytes, 0, plain.length);
    Path file = Files.write(dir.resolve("ground.tif"), bytes);
    change(Flow.ROOT.resolve("sample-dem/orrel-bench.tif").toString(), file.toString());
    assertTrue(refused().err().contains("ground.tif"), kind);
  }

  private static String unicode(String text) {
    StringBuilder s = new StringBuilder();
    for (int i = 0; i < text.length(); i++) {
      if (text.startsWith("\\u", i)) {
        s.append((char) Integer.parseInt(text.substring(i + 2, i + 6), 16));
        i += 5;
      } else if (text.startsWith("\\r", i) || text.startsWith("\\n", i)) {
        s.append(text.charAt(i + 1) == 'r' ? '\r' : '\n');
        i++;
      } else {
        s.append(text.charAt(i));
      }
    }
    return s.toString();
  }

  /** Names that become names of folders. */
  @ParameterizedTest
  @CsvSource({
    "job: small, job: ../small",
    "job: small, job: /tmp/small",
    "job: small, job: .",
    "job: small, job: 'a/b'",
    "name: day, name: ../day",
    "name: day, name: '..'",
    "name: across, name: /across"
  })
  void aNameThatLeadsOutOfTheFolder(String from, String to) throws IOException {
    change(from, to);
    assertTrue(refused().err().contains("job.yaml:"));
  }

  @Test
  void aVehicleWhoseNameLeadsOut() throws IOException {
    Path vehicle = job.resolveSibling("open-buggy.yaml");
    Files.writeString(
        vehicle,
        Files.readString(vehicle).replace("vehicle: open-buggy", "vehicle: ../../open-buggy"));
    assertTrue(refused().err().contains("open-buggy.yaml:"));
  }

  @Test
  void linksInTheOutputFolderAreNotFollowedWhenProductsAreReplaced() throws IOException {
    Flow.scarpway("run", job, "--out", out, "--quiet", "--no-store").ok();
    Path treasure = Files.createDirectories(dir.resolve("treasure"));
    Files.writeString(treasure.resolve("kept.txt"), "kept");
    Path run = out.resolve("small");
    List<String> names =
        List.of(".hazard.part", ".terrain.old", "mobility/.open-buggy.part", "index.html.part");
    for (Path target : List.of(treasure, dir.resolve("nowhere"), run.resolve("hazard"))) {
      for (String name : names) {
        Files.createSymbolicLink(run.resolve(name), target);
      }
      // A stage whose folder itself is a link, or is gone while a link stands for the old one.
      Files.move(run.resolve("terrain"), dir.resolve("terrain-" + target.getFileName()));
      Files.move(run.resolve("reach/day"), dir.resolve("day-" + target.getFileName()));
      Files.createSymbolicLink(run.resolve("reach/day"), target);
      Flow.scarpway("run", job, "--out", out, "--quiet", "--no-store", "--fresh").ok();
      assertEquals(List.of("kept.txt"), Flow.files(treasure));
      assertFalse(Files.exists(dir.resolve("nowhere")));
      for (String name : names) {
        assertFalse(Files.exists(run.resolve(name), LinkOption.NOFOLLOW_LINKS), name);
      }
      assertFalse(Files.isSymbolicLink(run.resolve("terrain")));
      assertFalse(Files.isSymbolicLink(run.resolve("reach/day")));
    }
  }

  @Test
  void linksThatGoInCirclesOrNowhere() throws IOException {
    Path circle = dir.resolve("circle.tif");
    Files.createSymbolicLink(circle, circle);
    change(Flow.ROOT.resolve("sample-dem/orrel-bench.tif").toString(), circle.toString());
    assertTrue(refused().err().contains("circle.tif"));
    Files.delete(circle);
    Files.createSymbolicLink(circle, dir.resolve("nowhere"));
    assertTrue(refused().err().contains("circle.tif"));
  }

  @Test
  void polygonsOfMillionsOfVerticesAndCrossingOnes() throws IOException {
    Path areas = dir.resolve("areas.geojson");
    StringBuilder ring = new StringBuilder("[[0,0]");
    for (int i = 0; i < 2_100_000; i++) {
      ring.append(",[").append(i % 1000).append(",1]");
    }
    Files.writeString(
        areas, "{\"type\":\"Polygon\",\"coordinates\":[" + ring.append(",[0,0]]") + "]}");
    change(Flow.ROOT.resolve("sample-dem/keep-out.gpkg").toString(), areas.toString());
    assertTrue(refused().err().contains("vertices"));

    // One that crosses itself is mended, and the run says so.
    Files.writeString(
        areas,
        "{\"type\":\"Polygon\",\"coordinates\":[[[72100,93900],[72120,93920],[72120,93900],"
            + "[72100,93920],[72100,93900]]]}");
    Flow.Outcome mended = Flow.scarpway("check", job);
    assertTrue(mended.code() == 0 || mended.errLines().size() == 1, mended.err());
  }

  /** Limits are built once for a vehicle and ground once for a block, not for every target. */
  @Test
  void manyTargetsAreChecked() throws IOException {
    StringBuilder table = new StringBuilder("name,x,y\n");
    for (int i = 0; i < 20_000; i++) {
      table.append("t").append(i).append(',').append(72_010 + i % 280).append(',');
      table.append(93_810 + Math.floorDiv(i, 280) * 3.9).append('\n');
    }
    Path targets = Files.writeString(dir.resolve("targets.csv"), table);
    Files.writeString(job, Files.readString(job) + "targets: " + targets + "\n");
    Flow.Outcome o = Flow.scarpway("check", job).ok();
    assertTrue(o.out().contains("small: ok"), o.out());
  }

  @Test
  void aTableWithAHugeField() throws IOException {
    Path targets = dir.resolve("targets.csv");
    Files.writeString(targets, "name,x,y\n\"" + "a".repeat(3_000_000) + "\",72150,93950\n");
    Files.writeString(job, Files.readString(job) + "targets: " + targets + "\n");
    assertTrue(refused().err().contains("targets.csv:"));
  }

  @Test
  void aTemporaryFolderThatIsFull() throws Exception {
    Path full = Files.createDirectories(dir.resolve("full"));
    Flow.tool("mount", "-t", "tmpfs", "-o", "size=100k", "tmpfs", full).ok();
    try {
      Flow.Outcome o =
          Flow.scarpwayApart(
              List.of("env", "JAVA_TOOL_OPTIONS=-Djava.io.tmpdir=" + full),
              List.of(),
              "run",
              job,
              "--out",
              out,
              "--quiet");
      assertEquals(3, o.code(), o.err());
      assertTrue(o.err().contains("cannot be unpacked into " + full), o.err());
    } finally {
      Flow.tool("umount", full).ok();
    }
  }
}
