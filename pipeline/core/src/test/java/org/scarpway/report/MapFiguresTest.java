package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.MapFigures.Print;
import org.scarpway.stage.Workers;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

class MapFiguresTest {
  private static final List<String> IDS =
      List.of("terrain", "mobility/hauler", "reach/day-trip", "corridor/to-rim");
  private static final int INK = 0x17202A;

  @TempDir Path dir;

  private static GridSpec spec(ReportData data) {
    return data.dem().heightM().spec();
  }

  private List<Path> draw(ReportData data, Print print) throws Exception {
    try (Workers workers = new Workers(2)) {
      MapFigures.write(dir, data, spec(data), print, workers);
    }
    try (Stream<Path> files = Files.list(dir.resolve(MapFigures.FOLDER))) {
      return files.sorted().toList();
    }
  }

  @Test
  void writesTheNamedFilesTheSameTwice() throws Exception {
    ReportData data = ReportFixture.full();
    for (Print print : List.of(new Print(Double.NaN, false), new Print(11_000, true))) {
      List<byte[]> first = new ArrayList<>();
      TreeSet<String> names = new TreeSet<>();
      for (Path p : draw(data, print)) {
        names.add("figures/" + p.getFileName());
        first.add(Files.readAllBytes(p));
      }
      assertEquals(new TreeSet<>(MapFigures.names(IDS, spec(data), print)), names);
      int i = 0;
      for (Path p : draw(ReportFixture.full(), print)) {
        assertArrayEquals(first.get(i++), Files.readAllBytes(p), p.toString());
        Files.delete(p);
      }
    }
  }

  /** The stated scale is that of the frame against its kilometres, and that of the scale bar. */
  @Test
  void scaleIsTrueOnPaper() throws Exception {
    ReportData data = ReportFixture.full();
    for (double scale : new double[] {Double.NaN, 12_000, 25_000}) {
      List<Path> files = draw(data, new Print(scale, false));
      for (Path p : files) {
        if (p.toString().endsWith(".svg")) {
          measure(p, scale);
        }
      }
      for (Path p : files) {
        Files.delete(p);
      }
    }
  }

  private static void measure(Path svg, double asked) throws Exception {
    Document page = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(svg.toFile());
    Element root = page.getDocumentElement();
    assertEquals(root.getAttribute("width"), root.getAttribute("viewBox").split(" ")[2] + "mm");
    double scale = Double.NaN;
    double barM = Double.NaN;
    List<double[]> kilometres = new ArrayList<>();
    NodeList texts = page.getElementsByTagName("text");
    for (int i = 0; i < texts.getLength(); i++) {
      Element text = (Element) texts.item(i);
      String words = text.getTextContent();
      Matcher stated = Pattern.compile("1 : ([0-9 ]+) on A4.*").matcher(words);
      if (stated.matches()) {
        scale = Double.parseDouble(stated.group(1).replace(" ", ""));
        String[] bar = ((Element) texts.item(i - 1)).getTextContent().split(" ");
        barM = Double.parseDouble(bar[0]) * (bar[1].equals("km") ? 1000 : 1);
      }
      if (words.matches("-?[0-9.]+") && text.getAttribute("text-anchor").equals("middle")) {
        kilometres.add(
            new double[] {
              Double.parseDouble(text.getAttribute("x")), 1000 * Double.parseDouble(words)
            });
      }
    }
    if (!Double.isNaN(asked)) {
      assertEquals(asked, scale);
    }
    double[] first = kilometres.get(0);
    double[] last = kilometres.get(kilometres.size() - 1);
    assertEquals((last[1] - first[1]) / scale, (last[0] - first[0]) / 1000, 2e-6, "axis of " + svg);
    // Its dark half ends within a pixel of where it should.
    assertEquals(barM / scale, barMm(svg) / 1000, 2 * 0.0254 / 150, "bar of " + svg);
    assertEquals(1000 * barM / scale, drawnMm(page), 1e-3, "bar of " + svg);
  }

  /** Length (mm) of the scale bar in the vector drawing: the outline of its height. */
  private static double drawnMm(Document page) {
    NodeList paths = page.getElementsByTagName("path");
    for (int i = 0; i < paths.getLength(); i++) {
      Element path = (Element) paths.item(i);
      if (path.getAttribute("stroke-width").equals("0.25")) {
        String[] at = path.getAttribute("d").substring(1).split("[ L]");
        return Double.parseDouble(at[2]) - Double.parseDouble(at[0]);
      }
    }
    return Double.NaN;
  }

  /** Length (mm) of the scale bar in the picture: the only ink whole over five rows of pixels. */
  private static double barMm(Path svg) throws Exception {
    Path png = Path.of(svg.toString().replace(".svg", ".png"));
    BufferedImage image = ImageIO.read(png.toFile());
    int best = 0;
    for (int y = image.getHeight() / 4; y < image.getHeight() - 100; y++) {
      int run = 0;
      for (int x = 0; x < image.getWidth() / 2; x++) {
        boolean ink = true;
        for (int k = 0; k < 5; k++) {
          ink &= (image.getRGB(x, y + k) & 0xFFFFFF) == INK;
        }
        run = ink ? run + 1 : 0;
        // The bar begins with its dark half at the left side of the map's frame.
        best = x - run < 120 * 2 ? Math.max(best, run) : best;
      }
    }
    return 2 * (best - 0.5) * 25.4 / 150;
  }

  @Test
  void svgAsksNothingOfANetworkAndSpellsNamesAsGiven() throws Exception {
    ReportData data = ReportFixture.full("a<b & \"c\"");
    boolean named = false;
    for (Path p : draw(data, new Print(Double.NaN, false))) {
      if (p.toString().endsWith(".svg")) {
        String text = Files.readString(p);
        assertFalse(text.contains("<script"));
        String bare = text.replace("http://www.w3.org/", "");
        assertFalse(bare.contains("http"), p.toString());
        Document page = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(p.toFile());
        named |= page.getDocumentElement().getTextContent().contains("a<b & \"c\"");
        assertTrue(page.getDocumentElement().getTextContent().contains("not clearance to drive"));
      }
    }
    assertTrue(named);
  }
}
