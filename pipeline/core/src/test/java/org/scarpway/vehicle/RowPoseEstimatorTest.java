package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

class RowPoseEstimatorTest {
  private static final GridSpec SPEC = new GridSpec(31, 41, 0.5, 0.4, 100, 200, "");
  private static final int CELL = 15 * 41 + 20;

  private static RowPoseEstimator pose(Terrain t, int row, int col) {
    RowPoseEstimator pose =
        new RowPoseEstimator(
            new WheelLayout(Vehicles.full(), SPEC),
            new MoveLimits(Vehicles.full(), Body.MOON),
            SPEC,
            t.heightM().values(),
            t.gradEast().values(),
            t.gradNorth().values(),
            Allowances.NONE);
    pose.at(row, col);
    pose.requireBody();
    return pose;
  }

  @Test
  void planeGivesItsGradeOnEveryHeadingAndNoGap() {
    Terrain t = Grounds.of(SPEC, (x, y) -> 0.2 * (x - 110) - 0.13 * (y - 194), 0, 0, 0);
    RowPoseEstimator pose = pose(t, 15, 20);
    Headings h = Headings.of(SPEC);
    for (int k = 0; k < Headings.COUNT; k++) {
      assertEquals(0.2 * h.east(k) - 0.13 * h.north(k), pose.grade(k), 1e-6);
      assertEquals(0.2 * h.north(k) + 0.13 * h.east(k), pose.cross(k), 1e-6);
      assertEquals(0, pose.offPlaneM(k), 1e-6);
      assertEquals(0, pose.bellyGroundM(k), 1e-6);
      assertEquals(0, pose.endsGroundM(k), 1e-6);
    }
  }

  @Test
  void boulderUnderTheBellyTakesClearance() {
    double x0 = SPEC.xM(20);
    double y0 = SPEC.yM(15);
    Terrain t = Grounds.of(SPEC, (x, y) -> Math.hypot(x - x0, y - y0) < 0.3 ? 0.3 : 0, 0, 0, 0);
    RowPoseEstimator pose = pose(t, 15, 20);
    assertEquals(0.3, pose.bellyGroundM(0), 1e-6);
    assertEquals(0, pose.offPlaneM(0), 1e-6);
  }

  @Test
  void roundCrestRaisesTheBellyGroundByTheSagitta() {
    double x0 = SPEC.xM(20);
    double radius = 8;
    Terrain t =
        Grounds.of(
            SPEC,
            (x, y) -> Math.sqrt(radius * radius - Math.min(50, (x - x0) * (x - x0))),
            0,
            0,
            0);
    RowPoseEstimator pose = pose(t, 15, 20);
    // Three axles: plane at the mean of the heights at -1.7, 0 and 1.7 m; bilinear chords round off
    // at most cell2 / 8R = 4 mm.
    double drop = radius - Math.sqrt(radius * radius - 1.7 * 1.7);
    assertEquals(2 * drop / 3, pose.bellyGroundM(8), 0.005);
    assertEquals(2 * drop / 3, pose.offPlaneM(8), 0.005);
  }

  @Test
  void voidUnderAWheelIsSeen() {
    Terrain t = Grounds.of(SPEC, (x, y) -> 0, 0, 0, 0);
    t.heightM().values()[CELL - 4 * 41 + 3] = Float.NaN;
    assertTrue(!pose(t, 15, 20).known());
    assertTrue(pose(t, 20, 25).known());
    assertTrue(!pose(t, 3, 20).known(), "off the grid");
  }

  @Test
  void stageUsesThePoseWhereCellsResolveTheWheels() {
    double x0 = SPEC.xM(20);
    double y0 = SPEC.yM(15);
    Terrain t = Grounds.of(SPEC, (x, y) -> Math.hypot(x - x0, y - y0) < 0.3 ? 0.5 : 0, 0, 0, 0);
    t.gradEast().values()[CELL] = 0;
    t.gradNorth().values()[CELL] = 0;
    try (Workers w = new Workers(1)) {
      Mobility m =
          MobilityStage.compute(
              t, Grounds.noHazard(SPEC), Vehicles.full(), Body.MOON, w, Progress.NONE);
      assertTrue(m.notes().get(0).startsWith("Wheels set on the ground"), m.notes().toString());
      assertEquals(Mobility.NO_GO, m.cls().values()[CELL]);
      assertEquals(Limit.CLEARANCE, Limit.ofCode(m.limit().values()[CELL]));
      assertEquals(0, m.cls().values()[0]);
    }
  }
}
