package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class SkyPlotTest {
  private static LightData.At at(
      List<Double> horizon, List<Boolean> edge, List<LightData.Point> path) {
    return new LightData.At("a", horizon, edge, path, 0.5, 0.5, 10, false);
  }

  private static List<double[]> points(String d) {
    List<double[]> all = new ArrayList<>();
    Matcher m = Pattern.compile("[ML](-?[0-9.]+) (-?[0-9.]+)").matcher(d);
    while (m.find()) {
      all.add(new double[] {Double.parseDouble(m.group(1)), Double.parseDouble(m.group(2))});
    }
    return all;
  }

  /** Whatever the sky, every point lies in the picture and is a number. */
  @Test
  void everythingLiesWithinTheRim() {
    Random random = new Random(8);
    for (int n = 0; n < 100; n++) {
      int azimuths = 36 + random.nextInt(400);
      List<Double> horizon = new ArrayList<>();
      List<Boolean> edge = new ArrayList<>();
      List<LightData.Point> path = new ArrayList<>();
      double wide = random.nextInt(2) == 0 ? 3 : 60;
      for (int a = 0; a < azimuths; a++) {
        horizon.add(wide * (random.nextDouble() - 0.3));
        edge.add(random.nextInt(5) == 0);
      }
      for (int k = 0; k < 50; k++) {
        path.add(new LightData.Point(360 * random.nextDouble(), 180 * random.nextDouble() - 90));
      }
      String svg = SkyPlot.svg(at(horizon, edge, path));
      assertFalse(svg.contains("NaN") || svg.contains("Infinity"), svg);
      for (double[] p : points(svg)) {
        assertTrue(Math.hypot(p[0] - 78, p[1] - 78) < 66, "within the rim and its marks");
      }
      assertEquals(edge.contains(true), svg.contains("stroke-width=\"2.5\""));
    }
  }

  /** North is up, east is right, and what stands higher lies nearer to the centre. */
  @Test
  void directions() {
    List<LightData.Point> path =
        List.of(
            new LightData.Point(0, 1),
            new LightData.Point(30, 2),
            new LightData.Point(60, 3),
            new LightData.Point(90, 4));
    String svg =
        SkyPlot.svg(at(Collections.nCopies(36, 0.0), Collections.nCopies(36, false), path));
    String d = svg.substring(svg.indexOf("stroke-width=\"1.2\" d=\""));
    List<double[]> p = points(d.substring(0, d.indexOf("/>")));
    assertEquals(4, p.size());
    assertEquals(78, p.get(0)[0], 0.06);
    assertTrue(p.get(0)[1] < 78, "north is up");
    assertTrue(p.get(3)[0] > 78, "east is right");
    assertEquals(78, p.get(3)[1], 0.06);
    for (int i = 1; i < 4; i++) {
      assertTrue(
          Math.hypot(p.get(i)[0] - 78, p.get(i)[1] - 78)
              < Math.hypot(p.get(i - 1)[0] - 78, p.get(i - 1)[1] - 78));
    }
  }
}
