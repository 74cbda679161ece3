package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/** Points of a vehicle by plane geometry, and bounds on what they meet by trying every sign. */
class WheelLayoutTest {
  private static final GridSpec SPEC = new GridSpec(34, 150, 0.5, 0.4, 100, 200, "");

  private static Vehicle vehicle(
      List<Double> axlesM, List<Double> tracksM, Double frontM, Double rearM) {
    return new Vehicle(
        "any",
        "",
        null,
        new Vehicle.Chassis(5, 3.1, 0.4, frontM, rearM, 1.3),
        VehicleParts.wheels(axlesM, tracksM, 0.3, 0.3),
        new Vehicle.Limits(20.0, 18.0, 15.0, 0.3, 4.0),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  private static int poses(List<Double> axlesM, List<Double> tracksM, Double frontM, Double rearM) {
    return new WheelLayout(vehicle(axlesM, tracksM, frontM, rearM), SPEC).poses;
  }

  /** Turned about a vehicle stands as before only if every point has one across the centre. */
  @Test
  void onlyAVehicleThatIsTheSameTurnedAboutSharesItsPoses() {
    List<Double> even = List.of(1.6, -1.6);
    List<Double> wide = List.of(2.4, 2.4);
    assertEquals(16, poses(even, wide, 0.9, 0.9));
    assertEquals(16, poses(even, wide, null, null));
    // An end behind the circle of its wheel is no point of its own.
    assertEquals(16, poses(even, wide, 0.3, 0.2));
    assertEquals(16, poses(even, wide, 0.2, 0.3));
    assertEquals(16, poses(List.of(1.6, 0.0, -1.6), List.of(2.4, 2.0, 2.4), 0.9, 0.9));
    assertEquals(32, poses(List.of(1.6, -1.5), wide, 0.9, 0.9));
    assertEquals(32, poses(List.of(1.6, 0.1, -1.6), List.of(2.4, 2.4, 2.4), 0.9, 0.9));
    assertEquals(32, poses(even, List.of(2.4, 2.2), 0.9, 0.9));
    assertEquals(32, poses(even, wide, 0.9, 0.8));
    assertEquals(32, poses(even, wide, 0.9, null));
    assertEquals(32, poses(even, wide, 0.31, 0.3));
    assertEquals(32, poses(even, wide, null, 0.9));
  }

  /** What is shared is the pose of the reverse heading: the same ground under the same points. */
  @Test
  void everyPointLiesWhereItsHeadingPutsIt() {
    Random random = new Random(31);
    Headings headings = Headings.of(SPEC);
    for (int n = 0; n < 20; n++) {
      List<Double> axles = List.of(1.2 + random.nextDouble(), -1.2 - random.nextDouble());
      List<Double> tracks = List.of(2 + random.nextDouble(), 2 + random.nextDouble());
      WheelLayout layout = new WheelLayout(vehicle(axles, tracks, 0.9, 0.7), SPEC);
      boolean[][] needed = layout.needed();
      int rows = 0;
      int cols = 0;
      boolean[][] met = new boolean[needed.length][needed[0].length];
      for (int k = 0; k < layout.poses; k++) {
        double azimuth = Math.toRadians(headings.azimuthDeg(k));
        for (int i = 0; i < layout.pointCount; i++) {
          double x = layout.xM[i] * Math.sin(azimuth) + layout.yM[i] * Math.cos(azimuth);
          double y = layout.xM[i] * Math.cos(azimuth) - layout.yM[i] * Math.sin(azimuth);
          // Bilinear ground gives back a plane: its own place, east and south, and weights of 1.
          double[] sum = new double[3];
          for (int corner = 0; corner < 4; corner++) {
            double w = layout.weight(k, i, corner);
            int row = layout.row(k, i) + corner / 2;
            int col = layout.col(k, i) + corner % 2;
            assertTrue(w >= 0 && w <= 1);
            sum[0] += w;
            sum[1] += w * col * SPEC.cellXM();
            sum[2] -= w * row * SPEC.cellYM();
            rows = Math.max(rows, Math.abs(row));
            cols = Math.max(cols, Math.abs(col));
            met[row + layout.reachRows][col + layout.reachCols] = true;
          }
          assertEquals(1, sum[0], 1e-12);
          assertEquals(x, sum[1], 1e-9);
          assertEquals(y, sum[2], 1e-9);
        }
      }
      assertEquals(rows, layout.reachRows);
      assertEquals(cols, layout.reachCols);
      for (int row = 0; row < met.length; row++) {
        for (int col = 0; col < met[0].length; col++) {
          assertEquals(met[row][col], needed[row][col], row + ", " + col);
        }
      }
    }
  }

  /** Wheels a metre above or below some plane, each way in turn, and the ground as far off it. */
  @Test
  void theMostThatGroundCanStandOffThePlane() {
    Random random = new Random(32);
    for (int n = 0; n < 20; n++) {
      boolean six = n % 2 == 0;
      double front = 1.2 + random.nextDouble();
      double track = 2 + random.nextDouble();
      List<Double> axles = six ? List.of(front, 0.1, -1.4) : List.of(front, -1.4);
      List<Double> tracks = six ? List.of(track, 2.2, 2.6) : List.of(track, 2.5);
      WheelLayout layout = new WheelLayout(vehicle(axles, tracks, 0.9, 0.7), SPEC);
      int[][] ranges = {
        {0, layout.wheelCount},
        {layout.wheelCount, layout.bellyEnd},
        {layout.bellyEnd, layout.pointCount}
      };
      for (int[] range : ranges) {
        double most = 0;
        for (int signs = 0; signs < 1 << layout.wheelCount; signs++) {
          double[] z = new double[layout.wheelCount];
          for (int j = 0; j < z.length; j++) {
            z[j] = (signs >> j & 1) == 0 ? -1 : 1;
          }
          double[] p = PoseByHandTest.plane(firstOf(layout.xM, z), firstOf(layout.yM, z), z);
          for (int i = range[0]; i < range[1]; i++) {
            double heightM = p[0] + p[1] * layout.xM[i] + p[2] * layout.yM[i];
            most = Math.max(most, 1 + Math.abs(heightM));
          }
        }
        assertEquals(most, layout.mostOffPlane(range[0], range[1]), 1e-9);
      }
    }
  }

  private static double[] firstOf(double[] of, double[] asMany) {
    return java.util.Arrays.copyOf(of, asMany.length);
  }

  /** Cells of half the narrowest track tell wheels apart, longer ones do not. */
  @Test
  void cellsThatTellWheelsApart() {
    Vehicle v = vehicle(List.of(1.6, -1.5), List.of(2.5, 2.0), 0.9, 0.7);
    assertTrue(WheelLayout.resolves(v, new GridSpec(9, 9, 1, 1, 0, 9, "")));
    assertTrue(WheelLayout.resolves(v, new GridSpec(9, 9, 0.4, 1, 0, 9, "")));
    assertFalse(WheelLayout.resolves(v, new GridSpec(9, 9, 1.01, 0.4, 0, 9, "")));
    assertFalse(WheelLayout.resolves(v, new GridSpec(9, 9, 0.4, 1.01, 0, 9, "")));
    Vehicle noWheels =
        new Vehicle(
            "sled", "", null, v.body(), null, v.limits(), null, v.drive(), null, null, null);
    assertFalse(WheelLayout.resolves(noWheels, new GridSpec(9, 9, 1, 1, 0, 9, "")));
    Vehicle noBody =
        new Vehicle(
            "frame", "", null, null, v.wheels(), v.limits(), null, v.drive(), null, null, null);
    assertFalse(WheelLayout.resolves(noBody, new GridSpec(9, 9, 1, 1, 0, 9, "")));
  }
}
