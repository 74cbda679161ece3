package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A place that is not reached is told with what would reach it, and that reaches it. */
class WhyNotFlowTest {
  @TempDir static Path dir;

  private static Table.Row target(Path out) throws Exception {
    return Table.read(out.resolve("why/reach/day/targets.csv")).rows().stream()
        .filter(r -> r.text("name").equals("far"))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void theBudgetThatIsNamedReachesTheTarget() throws Exception {
    Files.writeString(dir.resolve("targets.csv"), "name,x,y,stay_min\nfar,72210,94010,30\n");
    Path job = SmallJob.write(dir.resolve("why.yaml"), "why", 10, "targets: targets.csv");
    Path out = dir.resolve("out");
    String[] set = {"reach.day.budget={drive_h: 0.4}", "reach.day.bands=[10min]"};
    Flow.Outcome run =
        Flow.scarpway("run", job, "--out", out, "--set", set[0], "--set", set[1]).ok();
    Table.Row missed = target(out);
    assertEquals("no", missed.text("reached"), run.out());
    assertEquals("time budget", missed.text("what_ends_it"));
    assertTrue(Double.parseDouble(missed.text("time_short_h")) > 0.1);
    Matcher enough =
        Pattern.compile("a time budget of ([0-9.]+) h instead of 0.4 h")
            .matcher(missed.text("would_reach_it"));
    assertTrue(enough.find(), missed.text("would_reach_it"));
    String told =
        Flow.scarpway("explain", job, "far", "--out", out, "--set", set[0], "--set", set[1])
            .ok()
            .out();
    assertTrue(told.contains("would be reached with " + missed.text("would_reach_it")), told);
    String page = Files.readString(out.resolve("why/index.html"));
    assertTrue(page.contains(missed.text("would_reach_it")), "the report says it too");
    Path more = dir.resolve("more");
    String budget = "reach.day.budget={drive_h: " + enough.group(1) + "}";
    Flow.scarpway("run", job, "--out", more, "--set", budget, "--set", set[1]).ok();
    assertEquals("yes", target(more).text("reached"));
  }
}
