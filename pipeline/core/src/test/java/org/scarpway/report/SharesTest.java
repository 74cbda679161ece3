package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.Base64;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.scarpway.vehicle.ShownMobility;

/** All figures of a vehicle's classes on a page are of one whole, which stands beside them. */
class SharesTest {
  private static final int PIXELS = 1024;

  private final ReportData data = ReportFixture.full();
  private final Ground ground = new Ground(data, PIXELS);
  private final ShownMobility mobility = data.mobility().get(0);
  private final Section section = MobilitySection.of(ground, mobility, 1);

  /** Counted here, cell by cell. */
  private double areaM2(int cls) {
    double m2 = 0;
    for (byte c : mobility.cls().values()) {
      m2 += c == cls ? ground.spec.cellAreaM2() : 0;
    }
    return m2;
  }

  private Layer layer(String id) {
    return ground.all.stream().filter(l -> l.id().equals(id)).findFirst().orElseThrow();
  }

  @Test
  void textBarTableAndLegendSayTheSame() {
    double judged = areaM2(1) + areaM2(2) + areaM2(3);
    assertTrue(areaM2(0) > 0 && areaM2(0) + judged > ground.groundM2, "some ground has no class");
    Layer.Legend legend = layer("class-1").legend();
    List<ClassStyle> styles = ClassStyle.mobility();
    assertEquals(styles.size() + 1, legend.classes().size());
    for (int i = 0; i < styles.size(); i++) {
      double m2 = areaM2(styles.get(i).code());
      String percent = Figures.percent(m2, judged);
      assertEquals(Figures.area(m2) + " (" + percent + " %)", legend.classes().get(i).amount());
      assertTrue(section.sharesText().contains(styles.get(i).label() + " " + percent + " %"));
      TableView.Row row = section.tables().get(0).rows().get(i);
      assertEquals(Figures.km2(m2), row.cells().get(0).text());
      assertEquals(percent, row.cells().get(1).text());
    }
    assertTrue(legend.note().endsWith("Shares are of the ground that is judged."), legend.note());
  }

  /** As areas.csv counts them: all cells without a class, those without elevation too. */
  @Test
  void groundWithoutAVerdictIsInTheLegendWithAllItsCells() {
    String m2 = Figures.area(areaM2(0));
    Layer.Entry last = layer("class-1").legend().classes().get(3);
    assertTrue(last.label().startsWith("no verdict"), last.label());
    assertEquals(m2, last.amount());
    assertTrue(
        section
            .sharesText()
            .contains(m2 + " without a verdict (no elevation there, beside it or beyond the edge"),
        section.sharesText());
  }

  /** Every layer of classes names the whole that its shares are of. */
  @Test
  void noShareWithoutItsWhole() {
    data.reaches().forEach(r -> ReachSection.of(ground, r, 1));
    data.corridors().forEach(c -> CorridorSection.of(ground, c, 1));
    int shares = 0;
    for (Layer l : ground.all) {
      if (l.legend().classes().stream().anyMatch(e -> e.amount().contains("%"))) {
        assertTrue(l.legend().note().contains("Shares are of the ground "), l.title());
        shares++;
      }
    }
    assertTrue(shares >= 3, "layers with shares: " + shares);
  }

  /** No layer of classes colours ground without elevation, which the page says is white. */
  @Test
  void groundWithoutElevationIsLeftBare() throws Exception {
    float[] heightM = data.dem().heightM().values();
    ReachSection.of(ground, data.reaches().get(0), 1);
    for (String id : List.of("class-1", "reach-1")) {
      BufferedImage image = image(layer(id));
      int grow = ground.pixels.grow;
      int bare = 0;
      for (int i = 0; i < heightM.length; i++) {
        if (Float.isNaN(heightM[i])) {
          int x = i % ground.spec.cols() * grow;
          int y = i / ground.spec.cols() * grow;
          assertEquals(0, image.getRGB(x, y) >>> 24, id + " at " + x + ", " + y);
          bare++;
        }
      }
      assertTrue(bare > 100);
    }
  }

  private static BufferedImage image(Layer layer) throws Exception {
    String uri = layer.image().uri();
    byte[] png = Base64.getDecoder().decode(uri.substring(uri.indexOf(',') + 1));
    return ImageIO.read(new ByteArrayInputStream(png));
  }
}
