package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Windows between the 32 headings against the convex hull of the polar speed curve, worked out from
 * 7200 headings: no faster than the hull anywhere, not much slower, and nothing lost but windows
 * about the fall line itself.
 */
class TacksTest {
  private static final GridSpec SPEC = Grounds.square(3, 5);
  private static final int MIDDLE = 4;
  private static final int FINE = 7200;
  private static final double SPEED_MS = 3;

  private final double[] speed = new double[FINE];

  /** Plan speed on every fine heading, 0 where a limit takes it. */
  private void polar(double ge, double gn, double climb, double side) {
    for (int i = 0; i < FINE; i++) {
      double a = 2 * Math.PI * i / FINE;
      double grade = ge * Math.sin(a) + gn * Math.cos(a);
      double cross = ge * Math.cos(a) - gn * Math.sin(a);
      boolean open = Math.abs(grade) <= climb && Math.abs(cross) <= side;
      speed[i] = open ? SPEED_MS / Math.sqrt(1 + grade * grade) : 0;
    }
  }

  /** Plan speed made good along a direction by the best two open headings about it. */
  private double hull(double azimuth) {
    double best = 0;
    for (int i = 0; i < FINE; i++) {
      if (speed[i] == 0 || !edge(i)) {
        continue;
      }
      double a = turn(azimuth - 2 * Math.PI * i / FINE);
      for (int j = 0; j < FINE; j++) {
        if (speed[j] == 0 || !edge(j)) {
          continue;
        }
        double b = turn(2 * Math.PI * j / FINE - azimuth);
        if (a + b < Math.PI - 1e-9) {
          // The chord between the ends of both, where the direction meets it.
          double chord =
              speed[i]
                  * speed[j]
                  * Math.sin(a + b)
                  / (speed[i] * Math.sin(a) + speed[j] * Math.sin(b));
          best = Math.max(best, a + b == 0 ? speed[i] : chord);
        }
      }
    }
    return best;
  }

  /** The middle and the ends of the windows are enough to span the hull of narrow windows. */
  private boolean edge(int i) {
    return speed[(i + 1) % FINE] == 0 || speed[(i + FINE - 1) % FINE] == 0 || i % 20 == 0;
  }

  private static double turn(double angle) {
    double a = angle % (2 * Math.PI);
    return a < 0 ? a + 2 * Math.PI : a;
  }

  @Test
  void neverFasterThanTheHullAndNothingLost() {
    Random random = new Random(4);
    Hazard none = Grounds.noHazard(SPEC);
    int tacked = 0;
    int lost = 0;
    try (Workers workers = new Workers(1)) {
      for (int i = 0; i < 400; i++) {
        double climbDeg = 8 + 14 * random.nextDouble();
        double sideDeg = 4 + 14 * random.nextDouble();
        double climb = SlopeGeometry.tan(climbDeg);
        double side = SlopeGeometry.tan(sideDeg);
        double corner = Math.hypot(climb, side);
        double t = corner * (1 - 0.002 - 0.04 * random.nextDouble());
        double fall = 2 * Math.PI * random.nextDouble();
        double ge = t * Math.sin(fall);
        double gn = t * Math.cos(fall);
        Mobility m =
            MobilityStage.compute(
                Grounds.plane(SPEC, ge, gn),
                none,
                Vehicles.plain(climbDeg, climbDeg, sideDeg),
                Body.MOON,
                workers,
                Progress.NONE);
        polar(ge, gn, climb, side);
        assertEquals(Mobility.SLOW, m.cls().values()[MIDDLE]);
        Headings headings = Headings.of(SPEC);
        for (int k = 0; k < Headings.COUNT; k++) {
          if (m.field().allows(MIDDLE, k)) {
            double got = 1 / m.field().timeSPerM(MIDDLE, k);
            double hull = hull(Math.toRadians(headings.azimuthDeg(k)));
            String what = climbDeg + " " + sideDeg + " " + t + " heading " + k;
            assertTrue(got <= hull * 1.001, what + ": " + got + " over " + hull);
            assertTrue(got >= hull * 0.9, what + ": " + got + " under " + hull);
            tacked++;
          }
        }
        if (m.field().allowed(MIDDLE) == 0) {
          lost++;
          double psi = Math.toDegrees(Math.acos(Math.min(1, climb / t)));
          double off = Math.toDegrees(Math.acos(Math.min(1, Math.sqrt(t * t - side * side) / t)));
          assertTrue(psi < 7.1 || 1 / Math.cos(Math.toRadians(off)) > 2.5, psi + " " + off);
        }
      }
    }
    assertTrue(tacked > 800, "way made good on " + tacked);
    assertTrue(lost < 5, "lost " + lost);
  }

  /** Fall lines on the 32 headings and a hair to either side: one answer, whatever is rounded. */
  @Test
  void aHairOffAHeadingChangesNothing() {
    Random random = new Random(9);
    Headings headings = Headings.of(SPEC);
    Tacks tacks = new Tacks(SPEC);
    int tacked = 0;
    for (int i = 0; i < 300; i++) {
      double climbDeg = 8 + 14 * random.nextDouble();
      double sideDeg = 4 + 14 * random.nextDouble();
      SlopeBounds bounds =
          new SlopeBounds(new MoveLimits(Vehicles.plain(climbDeg, climbDeg, sideDeg), Body.MOON));
      double t =
          Math.hypot(SlopeGeometry.tan(climbDeg), SlopeGeometry.tan(sideDeg))
              * (1 - 0.002 - 0.04 * random.nextDouble());
      bounds.at(t);
      for (int k = 0; k < Headings.COUNT; k++) {
        double east = t * headings.east(k);
        double north = t * headings.north(k);
        tacks.find(east, north, t, bounds);
        int bits = tacks.bits;
        double[] longer = tacks.pathRatio.clone();
        tacked += Integer.bitCount(bits);
        for (double hair : new double[] {1e-300, 1e-18, 1e-16, 1e-14, 1e-12}) {
          for (int side = -1; side <= 1; side += 2) {
            tacks.find(east + side * hair * north, north - side * hair * east, t, bounds);
            assertEquals(bits, tacks.bits, "fall line " + k + ", " + side * hair);
            for (int h = 0; h < Headings.COUNT; h++) {
              if ((bits >>> h & 1) != 0) {
                assertEquals(longer[h], tacks.pathRatio[h], 1e-9);
              }
            }
          }
        }
        // The other side of the hill: the same windows, turned by half a turn.
        tacks.find(-east, -north, t, bounds);
        assertEquals(Integer.rotateLeft(bits, 16), tacks.bits, "fall line " + k);
      }
    }
    assertTrue(tacked > 1000, "headings " + tacked);
  }
}
