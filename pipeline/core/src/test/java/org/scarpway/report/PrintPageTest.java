package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.PrintPage.Paper;

class PrintPageTest {
  private static GridSpec random(Random random) {
    return new GridSpec(
        1 + random.nextInt(900),
        1 + random.nextInt(900),
        0.2 + 60 * random.nextDouble(),
        0.2 + 60 * random.nextDouble(),
        1e5 * random.nextGaussian(),
        1e5 * random.nextGaussian(),
        "");
  }

  private static void fits(PrintPage p) {
    assertTrue(p.map().x() >= PrintPage.MARGIN && p.map().y() >= PrintPage.MARGIN);
    assertTrue(p.legendX() + PrintPage.LEGEND - 4 <= p.paper().w() - PrintPage.MARGIN + 2.01);
    assertTrue(
        p.map().y() + p.map().h() + PrintPage.FOOT <= p.paper().h() - PrintPage.MARGIN + 1e-6);
    // The definition of a scale: ground over paper.
    assertEquals(p.scale(), (p.eastM() - p.westM()) / (p.map().w() / 1000), 1e-6 * p.scale());
    assertEquals(p.scale(), (p.northM() - p.southM()) / (p.map().h() / 1000), 1e-6 * p.scale());
  }

  @Test
  void oneSheetHasAllGroundAtARoundScale() {
    Random random = new Random(11);
    for (int k = 0; k < 500; k++) {
      GridSpec spec = random(random);
      List<PrintPage> pages = PrintPage.whole(spec, k % 2 == 0 ? Paper.A4 : Paper.A3);
      assertEquals(1, pages.size());
      PrintPage p = pages.get(0);
      fits(p);
      assertEquals(spec.westM(), p.westM(), 1e-6);
      assertEquals(spec.eastM(), p.eastM(), 1e-3);
      assertEquals(spec.northM(), p.northM(), 1e-6);
      assertEquals(spec.southM(), p.southM(), 1e-3);
      double digits = p.scale() / Math.pow(10, Math.floor(Math.log10(p.scale()) + 1e-9) - 2);
      assertEquals(Math.rint(digits), digits, 1e-6, "scale " + p.scale());
    }
  }

  @Test
  void sheetsTileTheGround() {
    Random random = new Random(12);
    int several = 0;
    for (int k = 0; k < 500; k++) {
      GridSpec spec = random(random);
      double scale = PrintPage.whole(spec, Paper.A4).get(0).scale() * (0.2 + random.nextDouble());
      List<PrintPage> pages = PrintPage.atScale(spec, Paper.A4, scale);
      assertEquals(PrintPage.count(spec, Paper.A4, scale), pages.size());
      double area = 0;
      for (PrintPage p : pages) {
        fits(p);
        assertEquals(scale, p.scale());
        area += (p.eastM() - p.westM()) * (p.northM() - p.southM());
        several += p.of() > 1 ? 1 : 0;
      }
      PrintPage first = pages.get(0);
      PrintPage last = pages.get(pages.size() - 1);
      assertEquals(spec.westM(), first.westM(), 1e-6);
      assertEquals(spec.northM(), first.northM(), 1e-6);
      assertEquals(spec.eastM(), last.eastM(), 1e-3);
      assertEquals(spec.southM(), last.southM(), 1e-3);
      double all = spec.cells() * spec.cellAreaM2();
      assertEquals(all, area, 1e-9 * all);
    }
    assertTrue(several > 100);
  }
}
