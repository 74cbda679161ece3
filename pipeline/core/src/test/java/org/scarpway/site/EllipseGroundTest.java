package org.scarpway.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/**
 * Landing ellipses of any axes and azimuth, anywhere on cells that are not square, against sums
 * over all cells: distances to the two foci say what lies inside, their own way.
 */
class EllipseGroundTest {
  private static final GridSpec SPEC = new GridSpec(60, 70, 4, 3, 1000, 2000, "");

  private static FloatGrid layer(Random random, double most) {
    FloatGrid grid = FloatGrid.empty(SPEC);
    for (int i = 0; i < SPEC.cells(); i++) {
      boolean unknown = random.nextInt(30) == 0;
      grid.values()[i] = unknown ? Float.NaN : (float) (most * random.nextDouble());
    }
    return grid;
  }

  @Test
  void figuresAreThoseOfTheCellsInside() {
    Random random = new Random(3);
    FloatGrid slope = layer(random, 20);
    FloatGrid hazard = layer(random, 1);
    SiteGround ground = SiteGround.of(slope, hazard, ByteGrid.empty(SPEC));
    int beyond = 0;
    for (int n = 0; n < 300; n++) {
      double a = 6 + 60 * random.nextDouble();
      double b = 5 + (a - 5) * random.nextDouble();
      double azimuth = 360 * random.nextDouble();
      boolean near = n % 2 == 0;
      double x = near ? 1140 + 20 * random.nextGaussian() : 1000 + 280 * random.nextDouble();
      double y = near ? 1910 + 15 * random.nextGaussian() : 1820 + 180 * random.nextDouble();
      beyond += same(ground, slope, hazard, a, b, azimuth, x, y) ? 1 : 0;
    }
    assertTrue(beyond > 50 && beyond < 250, beyond + " lie partly beyond the grid");
  }

  /** Whether the ellipse lies partly beyond the grid. */
  private static boolean same(
      SiteGround ground,
      FloatGrid slope,
      FloatGrid hazard,
      double a,
      double b,
      double azimuth,
      double x,
      double y) {
    double east = Math.sin(Math.toRadians(azimuth));
    double north = Math.cos(Math.toRadians(azimuth));
    double focus = Math.sqrt(a * a - b * b);
    float[] slopes = new float[SPEC.cells()];
    int n = 0;
    int inside = 0;
    double slopeSum = 0;
    double hazardSum = 0;
    double weight = 0;
    double safe = 0;
    boolean close = false;
    for (int i = 0; i < SPEC.cells(); i++) {
      double dx = SPEC.xM(i % SPEC.cols()) - x;
      double dy = SPEC.yM(Math.floorDiv(i, SPEC.cols())) - y;
      double twoFoci =
          Math.hypot(dx - focus * east, dy - focus * north)
              + Math.hypot(dx + focus * east, dy + focus * north);
      close |= Math.abs(twoFoci - 2 * a) < 1e-9;
      if (twoFoci > 2 * a) {
        continue;
      }
      inside++;
      // 1 % of touchdowns lie beyond the contour: 100 to the minus square of the scaled radius.
      double along = (dx * east + dy * north) / a;
      double across = (dx * north - dy * east) / b;
      double density = Math.pow(100, -(along * along + across * across));
      weight += density;
      float s = slope.values()[i];
      float h = hazard.values()[i];
      if (Float.isNaN(s) || Float.isNaN(h)) {
        hazardSum += 1;
      } else {
        slopes[n++] = s;
        slopeSum += s;
        hazardSum += h;
        safe += density * (1 - h);
      }
    }
    assertTrue(!close, "too close to tell");
    EllipseGround got =
        new EllipseGround(new LandingEllipse(x, y, 2 * a, 2 * b, azimuth, Double.NaN), ground);
    String where = a + " x " + b + " m towards " + azimuth + " at " + x + ", " + y;
    // The farthest points of an ellipse towards the four sides.
    double halfX = Math.hypot(a * east, b * north);
    double halfY = Math.hypot(a * north, b * east);
    boolean beyond =
        x - halfX < 1000 || x + halfX > 1000 + 280 || y - halfY < 1820 || y + halfY > 2000;
    long all = beyond ? Math.max(inside, Math.round(Math.PI * a * b / 12)) : inside;
    if (inside == 0 || n == 0) {
      return beyond;
    }
    if (beyond) {
      // The whole ellipse weighs its area times 0.99 / ln 100 in units of its densest cell.
      weight = Math.max(weight, Math.PI * a * b / 12 * 0.99 / Math.log(100));
    }
    assertEquals(slopeSum / n, got.meanSlopeDeg(), 1e-9, where);
    assertEquals((hazardSum + all - inside) / all, got.meanHazard01(), 1e-9, where);
    assertEquals(safe / weight, got.noHazard01(), 1e-9, where);
    assertEquals(100.0 * (all - n) / all, got.voidPct(), 1e-9, where);
    Arrays.sort(slopes, 0, n);
    for (double share : new double[] {0.01, 0.5, 0.95, 1}) {
      // The smallest that at least this share of them do not exceed.
      int k = 0;
      while ((k + 1) < share * n) {
        k++;
      }
      assertEquals(slopes[k], got.slopeDegOf(share), where);
    }
    return beyond;
  }

  @Test
  void groundThatIsNotKnownIsNoGround() {
    FloatGrid none = FloatGrid.empty(SPEC);
    Arrays.fill(none.values(), Float.NaN);
    EllipseGround e =
        new EllipseGround(
            new LandingEllipse(1140, 1910, 30, 20, 0, Double.NaN),
            SiteGround.of(none, none, ByteGrid.empty(SPEC)));
    assertTrue(Double.isNaN(e.meanSlopeDeg()) && Double.isNaN(e.slopeDegOf(0.5)));
    assertEquals(1, e.meanHazard01());
    assertEquals(0, e.noHazard01());
    assertEquals(100, e.voidPct());
  }
}
