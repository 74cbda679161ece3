package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class HeadingWindowTest {
  private static final double NONE = Double.POSITIVE_INFINITY;

  @Test
  void everythingOpenBelowAllBounds() {
    assertEquals(1, HeadingWindow.share(0.1, -0.3, 0.3, 0.2), 1e-12);
    assertEquals(1, HeadingWindow.share(0.1, -NONE, NONE, NONE), 1e-12);
    assertEquals(1, HeadingWindow.share(0, -0.3, 0.3, 0.2), 0);
  }

  @Test
  void sideLimitAloneLeavesFourArcsAroundTheFallLine() {
    // |sin psi| <= 1/2: 60 deg about uphill and 60 deg about downhill.
    assertEquals(120 / 360.0, HeadingWindow.share(0.4, -NONE, NONE, 0.2), 1e-12);
  }

  @Test
  void climbLimitAloneLeavesAllButTheUphillArc() {
    assertEquals(240 / 360.0, HeadingWindow.share(0.4, -NONE, 0.2, NONE), 1e-12);
  }

  @Test
  void shutExactlyBeyondTheCorner() {
    double corner = Math.sqrt(0.3 * 0.3 + 0.2 * 0.2);
    assertTrue(HeadingWindow.open(corner * (1 - 1e-9), -0.3, 0.3, 0.2));
    assertTrue(!HeadingWindow.open(corner * (1 + 1e-9), -0.3, 0.3, 0.2));
    assertTrue(HeadingWindow.share(corner * (1 - 1e-9), -0.3, 0.3, 0.2) > 0);
  }

  @Test
  void groundThatOnlyADescentLeavesOpen() {
    assertTrue(HeadingWindow.open(0.2, -0.3, -0.1, NONE));
    assertTrue(!HeadingWindow.open(0.05, -0.3, -0.1, NONE));
  }

  @Property(tries = 200, seed = "20260")
  void shareIsThatOfManyHeadings(
      @ForAll @DoubleRange(min = 0.01, max = 1) double t,
      @ForAll @DoubleRange(min = 0.01, max = 1) double up,
      @ForAll @DoubleRange(min = 0.01, max = 1) double down,
      @ForAll @DoubleRange(min = 0.01, max = 1) double side) {
    int n = 20_000;
    int open = 0;
    for (int i = 0; i < n; i++) {
      double psi = 2 * Math.PI * (i + 0.5) / n;
      double grade = t * Math.cos(psi);
      open += grade <= up && -grade <= down && Math.abs(t * Math.sin(psi)) <= side ? 1 : 0;
    }
    double share = HeadingWindow.share(t, -down, up, side);
    assertEquals(open / (double) n, share, 1e-3);
    assertTrue(open == 0 || HeadingWindow.open(t, -down, up, side));
  }

  /** 3 : 4 : 5: on a grade of 5 a cross grade of 3 leaves grades of 4 and more. */
  @Test
  void singleHeadingsAreOpen() {
    assertEquals(4, HeadingWindow.leastGrade(5, 3));
    assertEquals(5, HeadingWindow.leastGrade(5, 0));
    assertEquals(0, HeadingWindow.leastGrade(3, 3));
    assertEquals(Double.POSITIVE_INFINITY, HeadingWindow.leastGrade(5, -1));
    assertTrue(HeadingWindow.open(5, -1, 4, 3));
    assertTrue(HeadingWindow.open(5, -4, 1, 3));
    assertTrue(!HeadingWindow.open(5, -3.99, 3.99, 3));
    assertEquals(0, HeadingWindow.share(5, -1, 4, 3));
    assertEquals(1, HeadingWindow.share(0, 0, 1, 1));
    assertEquals(1, HeadingWindow.share(0, -1, 0, 1));
    assertEquals(0, HeadingWindow.share(0, 0.1, 1, 1));
    assertEquals(0, HeadingWindow.share(0, -1, -0.1, 1));
  }
}
