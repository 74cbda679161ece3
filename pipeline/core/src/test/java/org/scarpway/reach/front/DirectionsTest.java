package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.corridor.Track;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.TraversalCost;

/** Functions of a direction on every one of the 32 headings, and a hair to either side of it. */
class DirectionsTest {
  private static final double[] HAIRS = {
    0, Double.MIN_VALUE, 1e-300, 1e-40, 1e-20, 1e-17, 1e-16, 1e-15, 1e-13, 1e-11
  };

  private static double row(int k, double hair) {
    return Headings.dRow(k) + hair * -Headings.dCol(k);
  }

  private static double col(int k, double hair) {
    return Headings.dCol(k) + hair * Headings.dRow(k);
  }

  @Test
  void directionsWithinRoundingOfAHeadingAreThatHeading() {
    for (int k = 0; k < Headings.COUNT; k++) {
      for (double size : new double[] {1e-9, 0.25, 1, 1000}) {
        for (double hair : HAIRS) {
          for (int side = -1; side <= 1; side += 2) {
            double r = size * row(k, side * hair);
            double c = size * col(k, side * hair);
            assertEquals(k, Line.headingOf(r, c), k + " " + side * hair);
          }
        }
      }
    }
    assertEquals(0, Line.headingOf(-1, -0.0));
    assertEquals(0, Line.headingOf(-1, 0.0));
    assertEquals(16, Line.headingOf(1, -0.0));
    assertEquals(24, Line.headingOf(-0.0, -1));
    assertEquals(8, Line.headingOf(-0.0, 1));
    assertEquals(0, Line.headingOf(0, 0));
  }

  @Test
  void everyDirectionLiesInTheRangeAndBesideItsNeighbours() {
    Random random = new Random(3);
    for (int n = 0; n < 200_000; n++) {
      double k = random.nextInt(Headings.COUNT) + Math.pow(10, -12 * random.nextDouble());
      int low = (int) k;
      int next = (low + 1) % Headings.COUNT;
      double share = k - low;
      double size = Math.exp(20 * random.nextDouble() - 10);
      double r = size * ((1 - share) * Headings.dRow(low % 32) + share * Headings.dRow(next));
      double c = size * ((1 - share) * Headings.dCol(low % 32) + share * Headings.dCol(next));
      double got = Line.headingOf(r, c);
      assertTrue(got >= 0 && got < Headings.COUNT, "heading " + got);
      double off = Math.abs(got - k);
      assertEquals(0, Math.min(off, Headings.COUNT - off), 2e-9);
      double back = Line.headingOf(-r, -c);
      assertEquals(16, Math.abs(back - got), 4e-9);
    }
  }

  /** Only one heading is open: a line on it may be driven however its ends are rounded. */
  @Test
  void aLineOnTheOnlyOpenHeadingIsOpenAndNoOtherIs() {
    Random random = new Random(5);
    for (double cellYM : new double[] {1, 2.5}) {
      GridSpec spec = new GridSpec(41, 41, 1, cellYM, 0, 41 * cellYM, "");
      Line line = new Line(spec);
      for (int k = 0; k < Headings.COUNT; k++) {
        int only = k;
        TraversalCost field = Fields.slope(spec, 0.1, 0.05, g -> 1, h -> h == only);
        Costs costs = new Costs(field, Quantity.TIME_S, Direction.HOME);
        for (int n = 0; n < 200; n++) {
          double r = 15 + 10 * random.nextDouble();
          double c = 15 + 10 * random.nextDouble();
          double far = 3 * random.nextDouble() + 0.1;
          double r1 = r + far * Headings.dRow(k);
          double c1 = c + far * Headings.dCol(k);
          double cost = line.through(r, c, r1, c1).cost(costs);
          assertEquals(line.lengthM() * costs.perM(0, k), cost, 1e-6 * cost, "heading " + k);
          double off = (n % 2 == 0 ? 1 : -1) * 1e-6;
          r1 -= far * off * Headings.dCol(k);
          c1 += far * off * Headings.dRow(k);
          assertEquals(Double.POSITIVE_INFINITY, line.through(r, c, r1, c1).cost(costs));
        }
      }
    }
  }

  /** Tracks end where and on which heading they are asked to, also a hair off a full turn. */
  @Test
  void tracksEndWhereTheyAreAskedTo() {
    Random random = new Random(6);
    for (int n = 0; n < 20_000; n++) {
      double hair = HAIRS[random.nextInt(HAIRS.length)] * (random.nextBoolean() ? 1 : -1);
      double from = random.nextInt(64) * Math.PI / 32 + hair;
      double to = random.nextInt(64) * Math.PI / 32 - hair;
      double away = random.nextInt(64) * Math.PI / 32;
      double farM = 50 * random.nextDouble();
      double x = farM * Math.cos(away);
      double y = farM * Math.sin(away);
      Track t = Track.between(6, 0.5, 0, 0, from, x, y, to);
      double radius = 6;
      assertEquals(x, t.x(t.size() - 1), 1e-6);
      assertEquals(y, t.y(t.size() - 1), 1e-6);
      assertEquals(1, Math.cos(t.heading() - to), 1e-12);
      assertTrue(lengthM(t) <= farM + 4 * Math.PI * radius + 1e-6, "length " + lengthM(t));
      Track open = Track.to(6, 0.5, 0, 0, from, x, y);
      if (open != null) {
        assertEquals(x, open.x(open.size() - 1), 1e-6);
        assertEquals(y, open.y(open.size() - 1), 1e-6);
      }
      // Straight ahead is no turn, whichever way the angle is rounded.
      Track ahead = Track.to(6, 0.5, 0, 0, away + hair, x, y);
      if (farM > 0.1) {
        assertEquals(farM, lengthM(ahead), 1e-6 * farM);
      }
    }
  }

  private static double lengthM(Track t) {
    double sum = 0;
    for (int i = 1; i < t.size(); i++) {
      sum += Math.hypot(t.x(i) - t.x(i - 1), t.y(i) - t.y(i - 1));
    }
    return sum;
  }
}
