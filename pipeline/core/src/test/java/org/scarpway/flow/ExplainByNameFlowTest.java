package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A place asked for by its name is answered as the same place asked for by its coordinates. */
class ExplainByNameFlowTest {
  @TempDir static Path dir;

  private static Path job() throws Exception {
    Files.writeString(dir.resolve("targets.csv"), "name,x,y\nfar rim,72180,93980\n");
    return SmallJob.write(dir.resolve("named.yaml"), "named", 10, "targets: targets.csv");
  }

  private static String explain(Object... place) {
    Object[] args = new Object[4 + place.length];
    args[0] = "explain";
    args[1] = dir.resolve("named.yaml");
    System.arraycopy(place, 0, args, 2, place.length);
    args[args.length - 2] = "--out";
    args[args.length - 1] = dir.resolve("out");
    return Flow.scarpway(args).ok().out();
  }

  @Test
  void namesAreBasesStopsAndTargets() throws Exception {
    Flow.scarpway("run", job(), "--out", dir.resolve("out")).ok();
    assertEquals(explain("72150", "93950"), explain("hearth"));
    assertEquals(explain("hearth"), explain("72150,93950"));
    assertTrue(explain("corner").contains(" out by the quickest way"), explain("corner"));
    assertEquals(explain("72200", "94000"), explain("corner"));
    String told = explain("far rim");
    assertEquals(explain("72180", "93980"), told);
    int answer = told.indexOf("\nday ");
    assertTrue(answer > 0 && answer < told.indexOf("\nslope"), told);
  }

  @Test
  void whatIsNoPlaceIsRefusedWithTheNamesThereAre() throws Exception {
    Path job = job();
    Flow.Outcome unknown = Flow.scarpway("explain", job, "hearht");
    assertEquals(2, unknown.code(), unknown.err());
    assertTrue(unknown.err().contains("hearth, corner, far rim"), unknown.err());
    Flow.Outcome parted = Flow.scarpway("explain", job, "far", "rim");
    assertEquals(2, parted.code(), parted.err());
    assertTrue(parted.err().contains("quotes"), parted.err());
    assertEquals(2, Flow.scarpway("explain", job, "hearth", "--lonlat").code());
  }
}
