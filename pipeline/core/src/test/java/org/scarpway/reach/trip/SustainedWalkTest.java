package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.WalkSpeeds;
import org.scarpway.vehicle.Walker;
import org.scarpway.vehicle.Walkers;
import org.scarpway.vehicle.Walking;

/** The peak rate is held to its time and the rest to what can be kept up, on one way home. */
class SustainedWalkTest {
  private static final GridSpec LANE = Fields.grid(1, 101, 50, -25, -25);

  /**
   * @param limits peak_w, peak_min, mean_w and supply_mj; NaN where not given
   */
  private static Walker walker(String equation, double wantedMs, double loadKg, double... limits) {
    List<Walker.SpeedAt> table =
        List.of(new Walker.SpeedAt(-20, wantedMs), new Walker.SpeedAt(20, wantedMs));
    return Walkers.walker(
        "w",
        null,
        table,
        1,
        20,
        0.5,
        3,
        0,
        loadKg,
        80.0,
        equation,
        given(limits[0]),
        given(limits[2]),
        limits[1],
        given(limits[3]),
        null);
  }

  private static Double given(double limit) {
    return Double.isNaN(limit) ? null : Double.valueOf(limit);
  }

  private static WalksHome walks(Walker walker, Body body, float[] gradEast) {
    WalkSpeeds speeds = new WalkSpeeds(walker, body);
    int n = LANE.cells();
    int[] allowed = new int[n];
    Arrays.fill(allowed, -1);
    float[] height = new float[n];
    for (int i = 1; i < n; i++) {
      height[i] = height[i - 1] + 25 * (gradEast[i - 1] + gradEast[i]);
    }
    TraversalCost field =
        new TraversalCost(LANE, allowed, gradEast, new float[n], null, null, speeds.table());
    Walking ground =
        new Walking(field, n, 0, 0.5, 1, speeds.peakSeconds(), speeds.sustained(), true);
    try (Workers workers = new Workers(1)) {
      WalkHome rules = WalkHome.of(walker, ground, List.of());
      return WalksHome.of(rules, Floats.of(height), new int[] {0}, workers, Progress.NONE);
    }
  }

  private static int furthest(WalksHome walks) {
    int cell = 0;
    while (cell + 1 < LANE.cells() && !Float.isNaN(walks.timeS().get(cell + 1))) {
      cell++;
    }
    return cell;
  }

  /**
   * Suited at 1.15 m/s with 180 kg, 579 W: whatever the peak, more than 15 minutes of it are never
   * walked, and the rest of three hours at no more than half of the peak.
   */
  @Test
  void justBelowThePeakIsNotKeptUp() {
    double no = Double.NaN;
    for (double supplyMj : new double[] {no, 7.4}) {
      for (double peakW : new double[] {700, 610, 590, 586, 580, 579, 578}) {
        Walker w = walker("suited-lunar", 1.15, 100, peakW, 15, no, supplyMj);
        WalksHome walks = walks(w, Body.MOON, new float[LANE.cells()]);
        double keptUpMs = (Math.max(288.3, peakW / 2) / 661.5 - 0.115) / 0.661;
        double quickM = Math.min(1.15, (peakW / 661.5 - 0.115) / 0.661) * 900;
        double slowM = peakW / 2 < 288.3 ? 0 : keptUpMs * 3 * 3600;
        double farM = 50 * furthest(walks);
        double wantM = Math.min(5000, Math.max(quickM, slowM));
        assertEquals(wantM, farM, 50, peakW + " W, " + supplyMj + " MJ");
        for (int cell = 1; cell <= furthest(walks); cell++) {
          double s = walks.timeS().get(cell);
          double w1 = walks.energyJ().get(cell) / s;
          assertTrue(s <= 900.1 || w1 <= peakW / 2 + 0.1, s + " s at " + w1 + " W");
        }
      }
    }
  }

  /** On one way home over random ground no tighter limit reaches further or is quicker. */
  @Test
  void noTighterLimitEverReachesFurther() {
    Random random = new Random(17);
    int shorter = 0;
    for (int k = 0; k < 300; k++) {
      boolean suited = k % 2 == 0;
      float[] grad = new float[LANE.cells()];
      for (int i = 0; i < grad.length; i++) {
        grad[i] = (float) (0.15 * Math.sin(0.2 * i + k) * random.nextDouble());
      }
      String equation = suited ? "suited-lunar" : k % 4 == 1 ? "pandolf" : "minetti";
      double load = suited ? 100 : 15 * random.nextDouble();
      double wantedMs = 0.4 + 1.5 * random.nextDouble();
      double[] limits = {
        650 + 500 * random.nextDouble(),
        40 * random.nextDouble(),
        k % 3 == 0 ? 340 + 300 * random.nextDouble() : Double.NaN,
        k % 5 == 0 ? Double.NaN : 1 + 6 * random.nextDouble()
      };
      Body body = suited ? Body.MOON : Body.EARTH;
      WalksHome wide = walks(walker(equation, wantedMs, load, limits), body, grad);
      for (int tighter = 0; tighter < 4; tighter++) {
        double[] less = limits.clone();
        less[tighter] *= tighter == 1 ? random.nextDouble() : 0.9 + 0.1 * random.nextDouble();
        WalksHome tight = walks(walker(equation, wantedMs, load, less), body, grad);
        for (int cell = 0; cell < LANE.cells(); cell++) {
          double s = tight.timeS().get(cell);
          double before = wide.timeS().get(cell);
          if (!Double.isNaN(s)) {
            assertTrue(
                before <= s * (1 + 1e-5),
                k + ", limit " + tighter + ", cell " + cell + ": " + before + " then " + s);
          } else if (!Double.isNaN(before)) {
            shorter++;
          }
        }
      }
    }
    assertTrue(shorter > 500, "shorter " + shorter);
  }
}
