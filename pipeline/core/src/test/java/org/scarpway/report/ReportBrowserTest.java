package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Opens the page in a real browser, without a network, and reads back what its script noted. */
class ReportBrowserTest {
  private static final Path CHROMIUM =
      Path.of(System.getProperty("scarpway.chromium", "/usr/bin/chromium"));

  @TempDir static Path dir;
  private static Path page;
  private static String dom;

  @BeforeAll
  static void open() throws Exception {
    assertTrue(
        Files.isExecutable(CHROMIUM),
        "no browser at " + CHROMIUM + ": install chromium or set -Dscarpway.chromium");
    page = dir.resolve("index.html");
    Report.write(page, ReportFixture.full());
    dom = browse("--dump-dom", "--window-size=1300,900", page.toUri() + "#selftest");
  }

  @Test
  void scriptRunsWithoutErrorsAndAsksNothingOfTheNetwork() {
    assertEquals("ready", root("script"));
    assertEquals("", root("errors"));
    assertEquals("", root("blocked"));
    assertEquals("0", root("requests"));
  }

  @Test
  void everyImageDecodes() {
    assertEquals("0", root("images-broken"));
    Matcher images = Pattern.compile("<(?:image|img) ").matcher(dom);
    assertEquals(images.results().count(), Long.parseLong(root("images-decoded")));
    assertFalse(dom.contains("data-width=\"0\""));
  }

  @Test
  void layersAndReadOutAnswer() {
    assertEquals("#corridor-1", root("chosen"));
    Matcher at =
        Pattern.compile("E ([0-9.]+) m, N (-[0-9.]+) m; row (\\d+), column (\\d+)")
            .matcher(root("read-out"));
    assertTrue(at.find(), root("read-out"));
    // Centre of the window plus one key step of 2 % to the east.
    assertEquals(14_200 + 0.52 * 256 * 12, Double.parseDouble(at.group(1)), 0.06);
    assertEquals(-3_900 - 0.5 * 216 * 12, Double.parseDouble(at.group(2)), 0.06);
    assertEquals("108", at.group(3));
    assertEquals("133", at.group(4));
    assertTrue(root("read-out").contains("° S"), root("read-out"));
  }

  @Test
  void fitsNarrowScreens() throws Exception {
    String narrow = browse("--dump-dom", "--window-size=500,900", page.toUri() + "#selftest");
    assertTrue(narrow.contains("data-overflow=\"false\""), "the page is wider than the screen");
    assertTrue(dom.contains("data-overflow=\"false\""), "the page is wider than the screen");
  }

  @Test
  void paintsMapsNotBlanks() throws Exception {
    Path shot = dir.resolve("shot.png");
    browse("--screenshot=" + shot, "--window-size=1300,6000", page.toUri().toString());
    var image = ImageIO.read(shot.toFile());
    java.util.Set<Integer> colours = new java.util.HashSet<>();
    for (int y = 0; y < image.getHeight(); y += 3) {
      for (int x = 0; x < image.getWidth(); x += 3) {
        colours.add(image.getRGB(x, y));
      }
    }
    assertTrue(colours.size() > 2000, "only " + colours.size() + " colours: maps did not paint");
  }

  private static String root(String name) {
    Matcher m = Pattern.compile("<html[^>]* data-" + name + "=\"([^\"]*)\"").matcher(dom);
    return m.find() ? m.group(1) : "";
  }

  private static String browse(String... args) throws Exception {
    List<String> command =
        new ArrayList<>(
            List.of(
                CHROMIUM.toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--hide-scrollbars",
                "--virtual-time-budget=10000",
                "--user-data-dir=" + Files.createTempDirectory(dir, "profile")));
    command.addAll(List.of(args));
    Path out = Files.createTempFile(dir, "out", ".txt");
    Process browser =
        new ProcessBuilder(command)
            .redirectOutput(out.toFile())
            .redirectError(Files.createTempFile(dir, "err", ".txt").toFile())
            .start();
    if (!browser.waitFor(90, TimeUnit.SECONDS)) {
      browser.destroyForcibly();
      throw new AssertionError("the browser did not finish in 90 s");
    }
    assertEquals(0, browser.exitValue(), "exit code of the browser");
    return Files.readString(out, StandardCharsets.UTF_8);
  }
}
