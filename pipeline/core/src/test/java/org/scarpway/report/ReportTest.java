package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.StageFailure;

class ReportTest {
  private static final String HOSTILE = "<script>alert(1)</script>\" onload=\"x\" '{{job}}&";

  private static final String FULL = Report.html(ReportFixture.full(), ReportFixture.WORKERS);
  private static final String BARE = Report.html(ReportFixture.bare(), ReportFixture.WORKERS);

  @TempDir Path dir;

  @Test
  void writesTheSameBytesTwice() throws Exception {
    Path a = dir.resolve("a/index.html");
    Path b = dir.resolve("b/index.html");
    Locale before = Locale.getDefault();
    Report.write(a, ReportFixture.full(), ReportFixture.WORKERS);
    try {
      Locale.setDefault(Locale.GERMANY);
      Report.write(b, ReportFixture.full(), ReportFixture.WORKERS);
    } finally {
      Locale.setDefault(before);
    }
    assertEquals(-1, Files.mismatch(a, b));
    try (var left = Files.list(a.getParent())) {
      assertEquals(1, left.count(), "nothing half-written stays");
    }
  }

  @Test
  void answersInSentencesWithUnits() {
    String html = FULL;
    for (String part :
        List.of(
            "From alpha, hauler surely reaches ",
            "% of the ground with elevation) and drives home again within 6 h and 60 kWh.",
            "2 of 3 targets are reached; not reached: Rim overlook (no-go ground).",
            "Narrowest passage: 36 m wide at E ",
            "alpha ranks first",
            "smaller than about 24 m cannot be seen",
            "not clearance to drive",
            "height error of 0.4 m",
            "licensed or qualified")) {
      assertTrue(html.contains(part), "missing: " + part);
    }
  }

  @Test
  void cautionsAndVehicleTellWhatTheCellsDoNotShow() {
    String cautions = FULL.substring(FULL.indexOf("<section id=\"cautions\">"));
    assertTrue(
        cautions.substring(0, cautions.indexOf("</section>")).contains(ReportFixture.UNRESOLVED));
    String vehicle = FULL.substring(FULL.indexOf("<section id=\"where-not\">"));
    assertTrue(vehicle.contains("too coarse to show"));
    assertTrue(vehicle.contains("measured over"));
  }

  @Test
  void everySectionIsThereEvenWhereNothingWasAsked() {
    for (String html : List.of(FULL, BARE)) {
      for (String id :
          List.of(
              "answers",
              "cautions",
              "main-map",
              "where-not",
              "how-far",
              "which-corridor",
              "which-site",
              "places",
              "method",
              "settings",
              "warnings")) {
        assertTrue(html.contains("<section id=\"" + id + "\">"), "no section " + id);
        assertTrue(html.contains("href=\"#" + id + "\""), "no link to " + id);
      }
    }
    assertTrue(BARE.contains("The job does not ask this."));
  }

  /** Corner by corner: the ellipse of the candidate at its place, in its scale and direction. */
  @Test
  void everyMapDrawsTheLandingEllipse() {
    GridSpec spec = ReportFixture.full().dem().heightM().spec();
    List<String> drawn =
        Pattern.compile("<path class=\"ellipse\" d=\"([^\"]+)\"")
            .matcher(FULL)
            .results()
            .map(r -> r.group(1))
            .toList();
    assertEquals(1, drawn.size());
    assertEquals(
        count(FULL, "<use class=\"thematic\""), count(FULL, "<use href=\"#outline-ellipses\"/>"));
    assertTrue(FULL.contains("<span>landing ellipse, 99 %</span>"));
    assertFalse(BARE.contains("<span>landing ellipse"));
    double perM = 1000 / (spec.eastM() - spec.westM());
    double turn = Math.toRadians(124.4);
    int corners = 0;
    double longest = 0;
    for (String pair : drawn.get(0).replaceAll("[MLZ]+", ",").split(",")) {
      if (!pair.isBlank()) {
        String[] xy = pair.trim().split(" ");
        double east = Double.parseDouble(xy[0]) / perM + spec.westM() - 16_700;
        double north = spec.northM() - Double.parseDouble(xy[1]) / perM + 4_300;
        double along = (east * Math.sin(turn) + north * Math.cos(turn)) / 600;
        double across = (east * Math.cos(turn) - north * Math.sin(turn)) / 250;
        // A tenth of a drawing unit is the finest that the page states.
        assertEquals(1, Math.hypot(along, across), 0.11 / perM / 250);
        longest = Math.max(longest, Math.hypot(east, north));
        corners++;
      }
    }
    assertEquals(600, longest, 0.11 / perM);
    assertTrue(corners > 30, corners + " corners");
  }

  @Test
  void theHeadTellsNoDigestAndNoReferenceSystemWithoutAName() {
    for (String html : List.of(FULL, BARE)) {
      String head = html.substring(html.indexOf("<header>"), html.indexOf("</header>"));
      assertFalse(Pattern.compile("[0-9a-f]{16}").matcher(head).find(), head);
    }
    assertTrue(FULL.contains("<dt>Reference system</dt>"));
    assertFalse(BARE.contains("<dt>Reference system</dt>"));
  }

  /** What a reader acts on comes before how it was made, which is folded away. */
  @Test
  void methodSettingsAndInputsFollowAsAnAppendix() {
    int fold = FULL.indexOf("<details id=\"appendix\">");
    assertTrue(fold > FULL.indexOf("<section id=\"warnings\">"));
    assertTrue(fold < FULL.indexOf("<section id=\"method\">"));
    assertTrue(FULL.indexOf("<section id=\"settings\">") < FULL.indexOf("</details>", fold));
    assertTrue(FULL.indexOf(ReportFixture.full().facts().jobDigest()) > fold);
  }

  @Test
  void namesCannotInject() {
    String html = Report.html(ReportFixture.full(HOSTILE), ReportFixture.WORKERS);
    assertFalse(html.contains("<script>alert"));
    assertFalse(html.contains("\" onload="));
    assertTrue(html.contains("&lt;script&gt;alert(1)"));
    assertEquals(
        1,
        Pattern.compile("<script(?! type=\"text/plain\" id=\"[a-z0-9-]+\">)")
            .matcher(html)
            .results()
            .count());
  }

  @Test
  void nothingPointsOutside() {
    String html = FULL;
    assertTrue(html.contains("default-src 'none'"));
    assertFalse(Pattern.compile("(?:src|href)=\"(?!data:image/png|#)").matcher(html).find());
    // Textures of charts are parts of the page itself.
    assertFalse(Pattern.compile("url\\((?!#)").matcher(html).find());
    assertFalse(html.contains("@import"));
  }

  @Test
  void idsAreUniqueAndReferencesResolve() {
    String html = FULL;
    List<String> ids =
        Pattern.compile(" id=\"([^\"]+)\"").matcher(html).results().map(r -> r.group(1)).toList();
    assertEquals(ids.size(), ids.stream().distinct().count(), ids.toString());
    Pattern.compile("href=\"#([^\"]+)\"")
        .matcher(html)
        .results()
        .forEach(r -> assertTrue(ids.contains(r.group(1)), "no target for #" + r.group(1)));
  }

  @Test
  void everyTableHasACaptionAndEveryImageAnAlternative() {
    String html = FULL;
    assertEquals(count(html, "<table>"), count(html, "<caption>"));
    assertEquals(count(html, "<img "), count(html, "<img [^>]*alt=\"[^\"]*\""));
    assertEquals(
        count(html, "<svg viewBox"), count(html, "<svg viewBox[^>]*aria-label=\"[^\"]+\""));
  }

  /** The page keeps to its size as long as its images and its map allow, down to a picture each. */
  @Test
  void thePageIsNoLargerThanTheJobAllows() {
    for (double mb : new double[] {0.6, 0.7, 2}) {
      String html = Report.html(ReportFixture.of(mb), ReportFixture.WORKERS);
      assertTrue(
          html.getBytes(StandardCharsets.UTF_8).length <= 1e6 * mb, mb + ": " + html.length());
      assertTrue(html.contains("id=\"pack-class-0\""));
    }
  }

  /** A page that cannot be as small as asked says so, and one that is says nothing. */
  @Test
  void aPageThatIsTooLargeSaysSo() throws Exception {
    String html = Report.html(ReportFixture.of(0.1), ReportFixture.WORKERS);
    assertTrue(html.length() > 1e5);
    assertTrue(html.contains("MB, more than report.max_mb (0.1)"));
    assertFalse(FULL.contains("more than report.max_mb"));
    // Those who start the run hear of it as well, and of the ways that were dropped.
    int dropped = 0;
    for (double mb : new double[] {0.1, 0.38, 25}) {
      Path file = dir.resolve("sized.html");
      List<String> said = Report.write(file, ReportFixture.of(mb), ReportFixture.WORKERS);
      String page = Files.readString(file);
      boolean ways = page.contains("\"waysLeftOut\":true");
      boolean large = page.contains("MB, more than report.max_mb (");
      dropped += ways ? 1 : 0;
      assertEquals((ways ? 1 : 0) + (large ? 1 : 0), said.size(), mb + ": " + said);
      assertEquals(
          ways,
          said.stream().anyMatch(w -> w.contains("for the ways of day-trip (report.max_mb)")));
      assertEquals(large, said.stream().anyMatch(w -> w.contains("MB, more than report.max_mb")));
    }
    assertTrue(dropped > 0);
  }

  /** An answer without key figures stands there in words; the words of others are folded. */
  @Test
  void anAnswerWithoutKeyFiguresIsUnfolded() {
    String answers = FULL.substring(FULL.indexOf("<section id=\"answers\">"));
    answers = answers.substring(0, answers.indexOf("</section>"));
    assertEquals(4, count(answers, "<details class=\"words\">"));
    assertEquals(1, count(answers, "<details class=\"words\" open>"));
  }

  @Test
  void legendGivesAreaAndShare() {
    String html = FULL;
    assertTrue(
        Pattern.compile("<span>no-go</span> <span class=\"amount\">[0-9.]+ km² \\([0-9.]+ %\\)")
            .matcher(html)
            .find());
  }

  @Test
  void aFileThatCannotBeWrittenIsAFailedStage() throws Exception {
    Path file = dir.resolve("plain");
    Files.writeString(file, "x", StandardCharsets.UTF_8);
    assertThrows(
        StageFailure.class,
        () ->
            Report.write(file.resolve("index.html"), ReportFixture.bare(), ReportFixture.WORKERS));
  }

  private static long count(String html, String regex) {
    return Pattern.compile(regex).matcher(html).results().count();
  }
}
