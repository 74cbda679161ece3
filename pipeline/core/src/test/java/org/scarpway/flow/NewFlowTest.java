package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What {@code new} writes for an elevation model runs as it is. */
class NewFlowTest {
  @TempDir Path dir;

  private void runsAsItIs(String body, Path dem, List<String> set, Object... more)
      throws Exception {
    Path home = dir.resolve("First Place");
    Object[] args = new Object[4 + more.length];
    System.arraycopy(new Object[] {"new", home, "--dem", dem}, 0, args, 0, 4);
    System.arraycopy(more, 0, args, 4, more.length);
    Flow.Outcome said = Flow.scarpway(args).ok();
    assertTrue(said.out().contains(": " + body + ", "), said.out());
    Path job = home.resolve("job.yaml");
    assertTrue(Files.readString(job).contains("body: " + body + " "), Files.readString(job));
    Flow.Outcome checked = Flow.scarpway("check", job).ok();
    assertFalse(checked.out().contains("joined"), "a base without ground: " + checked.out());
    Object[] run = new Object[] {"run", job, "--out", dir.resolve("out"), "--quiet"};
    Object[] all = new Object[run.length + 2 * set.size()];
    System.arraycopy(run, 0, all, 0, run.length);
    for (int i = 0; i < set.size(); i++) {
      all[run.length + 2 * i] = "--set";
      all[run.length + 2 * i + 1] = set.get(i);
    }
    Flow.scarpway(all).ok();
    for (String question : List.of("drive-back", "walk-back")) {
      Path reach = dir.resolve("out/first-place/reach/" + question);
      assertTrue(Files.size(reach.resolve("summary.csv")) > 0, question);
    }
    refusesToOverwrite(home, dem);
  }

  private static void refusesToOverwrite(Path home, Path dem) throws Exception {
    var before = Flow.digests(home, n -> true);
    Flow.Outcome again = Flow.scarpway("new", home, "--dem", dem, "--body", "earth");
    assertEquals(2, again.code());
    assertEquals(1, again.errLines().size(), again.err());
    assertEquals(before, Flow.digests(home, n -> true));
  }

  @Test
  void onTheSampleGround() throws Exception {
    runsAsItIs(
        "moon", Flow.ROOT.resolve("sample-dem/orrel-bench.tif"), List.of("dem.cell_size_m=30"));
  }

  @Test
  void onARasterInDegrees() throws Exception {
    runsAsItIs("earth", RegistryDems.jacksboro(dir), List.of());
  }

  @Test
  void onATownInMetres() throws Exception {
    runsAsItIs("earth", Flow.DATA.resolve("olinda.tif"), List.of());
  }

  @Test
  void onACraterThatIsTiedToNoBody() throws Exception {
    Path dem = RegistryDems.volcano(dir);
    Flow.Outcome without = Flow.scarpway("new", dir.resolve("x"), "--dem", dem);
    assertEquals(2, without.code());
    assertTrue(without.err().contains("--body"), without.err());
    assertFalse(Files.exists(dir.resolve("x")));
    runsAsItIs("earth", dem, List.of(), "--body", "earth", "--at", "265,445");
  }

  /** A raster of too few cells is told with the size that does, which then does. */
  @Test
  void smallRastersAreToldWhatSizeTheyNeed() throws Exception {
    String told = "";
    for (int side : new int[] {3, 5}) {
      Path dem = dir.resolve("flat" + side + ".asc");
      String head = "ncols %d\nnrows %d\nxllcorner 0\nyllcorner 0\ncellsize 5\n";
      String row = "100 ".repeat(side).strip() + "\n";
      Files.writeString(dem, head.formatted(side, side) + row.repeat(side));
      Flow.Outcome o =
          Flow.scarpway("new", dir.resolve("home" + side), "--dem", dem, "--body", "moon");
      assertEquals(side == 3 ? 2 : 0, o.code(), o.err());
      told += o.err();
    }
    assertTrue(told.contains("of 3 x 3 cells of 5 m none"), told);
    assertTrue(told.contains("at least 5 x 5 cells"), told);
  }

  /** What is wrong with the job that was begun is told of the folder that was asked for. */
  @Test
  void messagesNameNoHiddenFolder() throws Exception {
    Path dem = dir.resolve("far.asc");
    String head = "ncols 9\nnrows 9\nxllcorner 1e12\nyllcorner 1e12\ncellsize 5\n";
    Files.writeString(dem, head + ("100 ".repeat(9).strip() + "\n").repeat(9));
    Flow.Outcome o = Flow.scarpway("new", dir.resolve("home"), "--dem", dem, "--body", "moon");
    assertEquals(2, o.code(), o.err());
    assertFalse(o.err().contains(".part"), o.err());
  }

  @Test
  void whatCannotBeIsRefusedAndNothingIsLeft() throws Exception {
    Path dem = Flow.DATA.resolve("olinda.tif");
    Path home = dir.resolve("home");
    Files.writeString(dir.resolve("file"), "x");
    Files.writeString(dir.resolve("text.tif"), "no raster");
    Object[][] calls = {
      {"new", dir.resolve("file"), "--dem", dem},
      {"new", home, "--dem", dir.resolve("none.tif")},
      {"new", home, "--dem", dir.resolve("text.tif")},
      {"new", home, "--dem", dem, "--body", "moon"},
      {"new", home, "--dem", dem, "--body", "none.yaml"},
      {"new", home, "--dem", dem, "--at", "1,1"},
      {"new", home, "--dem", dem, "--at", "NaN,1"},
      {"new", home, "--dem", dem, "--body", "venus"},
      {"new", home}
    };
    for (Object[] call : calls) {
      Flow.Outcome o = Flow.scarpway(call);
      assertEquals(2, o.code(), o.err());
      assertFalse(o.err().matches("(?s).*(Exception|java\\.).*"), o.err());
      assertEquals(List.of("file", "text.tif"), Flow.files(dir), o.err());
    }
  }
}
