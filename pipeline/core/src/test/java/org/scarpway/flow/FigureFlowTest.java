package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Maps of a run as files for a briefing: drawn, catalogued, left out, and bounded. */
class FigureFlowTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir Path dir;

  private static List<String> names(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> all = Files.list(folder)) {
      return all.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void mapsOfVehiclesAndQuestionsAreDrawnUntilTheJobLeavesThemOut() throws IOException {
    Path job = SmallJob.write(dir.resolve("job.yaml"), "small", 10);
    Flow.scarpway("run", job, "--out", dir, "--quiet").ok();
    Path figures = dir.resolve("small/figures");
    List<String> drawn = names(figures);
    assertEquals(
        List.of(
            "corridor-across.png",
            "corridor-across.svg",
            "mobility-open-buggy.png",
            "mobility-open-buggy.svg",
            "reach-day.png",
            "reach-day.svg"),
        drawn);
    for (String name : drawn) {
      if (name.endsWith(".png")) {
        BufferedImage image = ImageIO.read(figures.resolve(name).toFile());
        // A4 at 150 pixels per inch.
        assertEquals(Math.round(297 / 25.4 * 150), Math.max(image.getWidth(), image.getHeight()));
        assertEquals(Math.round(210 / 25.4 * 150), Math.min(image.getWidth(), image.getHeight()));
      }
    }
    JsonNode item = JSON.readTree(dir.resolve("small/stac/reach-day.json").toFile());
    JsonNode asset = item.path("assets").path("reach-day_svg");
    assertEquals("image/svg+xml", asset.path("type").asText());
    assertTrue(Files.exists(dir.resolve("small/stac").resolve(asset.path("href").asText())));

    Flow.scarpway("run", job, "--out", dir, "--quiet", "--set", "report.print_scale=1500").ok();
    List<String> sheets = names(figures);
    assertTrue(sheets.size() > drawn.size(), sheets::toString);
    assertTrue(sheets.stream().allMatch(n -> n.contains("_of_")), sheets::toString);

    Flow.scarpway("run", job, "--out", dir, "--quiet", "--set", "report.figures=false").ok();
    assertEquals(List.of(), names(figures));
  }

  /** A first look at a model without a job: the same twice, in both forms, over nothing. */
  @Test
  void probeDrawsTheSlopeWhereItIsAskedTo() throws IOException {
    Path dem = Flow.DATA.resolve("olinda.tif");
    for (String ending : List.of(".svg", ".png")) {
      Path first = dir.resolve("first" + ending);
      Path second = dir.resolve("second" + ending);
      Flow.Outcome o = Flow.scarpway("probe", dem, "--picture", first).ok();
      assertTrue(o.out().contains("slope drawn in " + first), o.out());
      Flow.scarpway("probe", dem, "--picture", second).ok();
      assertEquals(-1, Files.mismatch(first, second));
      assertEquals(2, Flow.scarpway("probe", dem, "--picture", first).code());
    }
    String svg = Files.readString(dir.resolve("first.svg"));
    // Cells of 90 m, and a slope by the heights on both sides.
    assertTrue(svg.contains("Measured over 180 m"), "length of the slope");
    assertEquals(List.of("first.png", "first.svg", "second.png", "second.svg"), names(dir));
    Flow.Outcome wrong = Flow.scarpway("probe", dem, "--picture", dir.resolve("a.jpg"));
    assertEquals(2, wrong.code());
    assertEquals(2, Flow.scarpway("probe", dem, "--picture", dir.resolve("no/a.png")).code());
  }

  @Test
  void aScaleOfTooManySheetsIsRefused() throws IOException {
    Path job = SmallJob.write(dir.resolve("job.yaml"), "small", 10);
    for (String command : List.of("run", "check", "plan")) {
      Flow.Outcome call = Flow.scarpway(command, job, "--set", "report.print_scale=10");
      assertEquals(2, call.code(), command);
      assertTrue(call.err().contains("print_scale 10 takes "), call.err());
      assertTrue(call.err().contains("at most 50"), call.err());
    }
    assertFalse(Files.exists(dir.resolve("reports")));
  }
}
