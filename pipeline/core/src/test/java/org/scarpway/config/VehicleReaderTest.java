package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.BekkerSinkage;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

class VehicleReaderTest {
  @TempDir Path dir;

  @Test
  void oneTrackForEveryAxleUnlessEachHasItsOwn() {
    JobFolder folder = new JobFolder(dir);
    Vehicle.Wheels one = VehicleReader.read(dir.resolve("rover.yaml")).wheels();
    assertEquals(List.of(2.6, 2.6, 2.6), one.tracksM());
    assertNull(one.contactM());
    assertEquals(0.15, one.deflectionShare());
    Path own =
        folder.spoil(
            "rover.yaml",
            "track_m: 2.6",
            "track_m: [2.4, 3, 2.6], contact_m: 0.4, deflection: 0.3");
    Vehicle.Wheels each = VehicleReader.read(own).wheels();
    assertEquals(List.of(2.4, 3.0, 2.6), each.tracksM());
    assertEquals(2.4, each.narrowestTrackM());
    assertEquals(3, each.widestTrackM());
    assertEquals(0.4, each.contactM());
    assertEquals(0.3, each.deflectionShare());
  }

  @Test
  void passesOnceUnlessToldOtherwise() {
    JobFolder folder = new JobFolder(dir);
    assertEquals(1, VehicleReader.read(dir.resolve("rover.yaml")).drive().passes());
    Path often = folder.spoil("rover.yaml", "rolling: 0.12", "rolling: 0.12, passes: 50");
    assertEquals(50, VehicleReader.read(often).drive().passes());
  }

  @Test
  void coneIndexRatedOrMeasured() {
    JobFolder folder = new JobFolder(dir);
    Path rated = folder.write("rated.yaml", "soil: rated\ncone: {rci: 47.6}\n");
    Path measured = folder.write("measured.yaml", "soil: measured\ncone: {ci: 56, ri: 0.85}\n");
    assertEquals(47.6, SoilReader.read(rated).ratingConeIndex());
    assertEquals(47.6, SoilReader.read(measured).ratingConeIndex(), 1e-12);
  }

  /** From the least exponent to the last one below 3, where 3 - n is not 0 but 4e-16. */
  @Test
  void wheelsSinkToAFiniteDepthByEveryExponentThatIsTaken() {
    JobFolder folder = new JobFolder(dir);
    for (double n : new double[] {0.1, 1, 2.5, 2.999, Math.nextDown(3.0)}) {
      Path file = folder.write("n.yaml", "soil: n\nbekker: {n: " + n + ", kc: 0, kphi: 0.001}\n");
      double m = BekkerSinkage.wheelM(SoilReader.read(file).bekker(), 0.35, 0.9, 1000);
      assertTrue(m > 0 && m < Double.POSITIVE_INFINITY, n + ": " + m);
    }
    Path three = folder.write("n.yaml", "soil: n\nbekker: {n: 3, kc: 0, kphi: 1000}\n");
    UserError e = assertThrows(UserError.class, () -> SoilReader.read(three));
    assertTrue(e.getMessage().contains("3)"), e.getMessage());
  }

  @Test
  void slowFromSoftGround() {
    JobFolder folder = new JobFolder(dir);
    String from = "slow_from: {slope_deg: 12, step_m: 0.15, roughness_m: 0.10";
    Vehicle.SlowFrom bare = VehicleReader.read(dir.resolve("rover.yaml")).slowFrom();
    assertEquals(VehicleParts.slowFrom(12.0, 0.15, 0.1), bare);
    Path soft =
        folder.spoil(
            "rover.yaml", from, from + ", slip_pct: 20, sinkage_m: 0.07, speed_loss_pct: 40");
    assertEquals(
        new Vehicle.SlowFrom(12.0, 0.15, 0.1, 20.0, 0.07, 40.0),
        VehicleReader.read(soft).slowFrom());
    Path deep = folder.spoil("rover.yaml", "slip_pct: 20, sinkage_m: 0.07", "sinkage_m: 0.42");
    UserError e = assertThrows(UserError.class, () -> VehicleReader.read(deep));
    assertTrue(
        e.getMessage().contains("sinkage_m = 0.42; expected less than body.clearance_m = 0.42"),
        e.getMessage());
  }
}
