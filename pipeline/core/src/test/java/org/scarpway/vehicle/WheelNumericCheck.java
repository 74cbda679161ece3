package org.scarpway.vehicle;

import static org.scarpway.validation.Validation.holds;
import static org.scarpway.validation.Validation.near;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

/** Tyres on soil by cone index: published worked figures, and what is made of them. */
class WheelNumericCheck {
  private static final String GEE_CLOUGH =
      "Gee-Clough, McAllister, Pearson & Evernden 1978, J. Terramech. 15(2):81-94 and a table worked"
          + " by it";
  private static final String WISMER_LUTH = "Wismer & Luth 1974";

  @Test
  void geeClough() {
    double m = GeeClough.mobilityNumber(200, 0.24, 1.04, 7, 0.2);
    near(
        "5.5-gee-clough-m",
        "mobility number, 200 kPa, 0.24 x 1.04 m, 7 kN, deflection 0.2",
        GEE_CLOUGH,
        "Vs",
        2.859,
        m,
        5e-4);
    near("5.5-gee-clough-pull", "pull over load", GEE_CLOUGH, "Vs", 0.474, GeeClough.pull(m), 5e-4);
    near(
        "5.5-gee-clough-resistance",
        "resistance over load",
        GEE_CLOUGH,
        "M",
        0.149,
        GeeClough.resistance(m),
        5e-4);
    // The other rows of the table give pull and resistance alone, in two digits: one number for
    // both.
    double[][] rows = {{0.70, 0.08}, {0.75, 0.06}};
    for (double[] row : rows) {
      double number = 0.92 / (0.796 - row[0]);
      near(
          "5.5-gee-clough-row-" + row[0],
          "resistance of the row with pull " + row[0],
          GEE_CLOUGH,
          "M",
          row[1],
          GeeClough.resistance(number),
          0.005);
      near(
          "5.5-gee-clough-row-pull-" + row[0],
          "its pull by the number",
          GEE_CLOUGH,
          "Vs",
          row[0],
          GeeClough.pull(number),
          1e-12);
    }
  }

  @Test
  void wismerLuth() {
    double cn = WismerLuth.numeric(500, 0.3, 1.2, 15);
    near(
        "5.5-wismer-luth-numeric",
        "wheel numeric, 500 kPa, 0.3 x 1.2 m, 15 kN",
        WISMER_LUTH,
        "Vs",
        12,
        cn,
        1e-12);
    near(
        "5.5-wismer-luth-resistance",
        "resistance over load",
        WISMER_LUTH,
        "Vs",
        0.140,
        WismerLuth.resistance(cn),
        1e-12);
    near(
        "5.5-wismer-luth-gross",
        "thrust over load at slip 0.2",
        WISMER_LUTH,
        "M",
        0.385,
        WismerLuth.gross(cn, 0.2),
        5e-4);
    near(
        "5.5-wismer-luth-net",
        "pull over load at slip 0.2",
        WISMER_LUTH,
        "M",
        0.245,
        WismerLuth.gross(cn, 0.2) - WismerLuth.resistance(cn),
        5e-4);
  }

  /** A four-wheeled truck whose axles bear the same. */
  private static Vehicle truck(double rci, Double mobilityIndex) {
    return new Vehicle(
        "truck",
        "",
        2600.0,
        new Vehicle.Chassis(4.7, 1.9, 0.24, null, null, 0.8),
        VehicleParts.wheels(List.of(1.45, -1.45), 1.6, 0.39, 0.26),
        null,
        null,
        VehicleParts.drive(8, 1.0, null, null, null, null, 0.08, 0, 1, mobilityIndex, false),
        VehicleParts.soil("fine", null, null, rci),
        null,
        null);
  }

  @Test
  void speedOnGroundThatWearsOut() {
    near(
        "5.5-soil-speed-share",
        "share of the speed, RCI 35, mobility index 50",
        "(RCI - VCI1) / (VCI50 - VCI1): one public code, FM 5-33 from memory",
        "M",
        0.523,
        ConeBearing.of(truck(35, 50.0)).speedShare(),
        5e-4);
  }

  /** The soil needs 21.2 once: at 22 it hardly drives the truck uphill, and resists it. */
  @Test
  void littleExcessClimbsLittle() {
    ConeBearing bearing = ConeBearing.of(truck(22, null));
    near(
        "5.5-truck-vci1",
        "vehicle cone index of the truck, one pass, by hand from its index",
        "11.48 + 0.2 MI - 39.2 / (MI + 3.74), MI 52.05",
        "C",
        21.19,
        bearing.once(),
        5e-3);
    DriveModel model = new DriveModel(truck(22, null), Body.EARTH.gravityMs2());
    double deg = SlopeGeometry.deg(model.steepestDrivenGrade());
    holds(
        "5.5-little-excess",
        "RCI 22 where 21.2 suffices once opens no climb above 2 degrees",
        "definition of VCI: what just suffices on the level",
        "C",
        deg > 0 && deg < 2);
    double cn =
        WismerLuth.numeric(22 * 6894.757, 0.3 * 0.78, 0.78, 2600 * Body.EARTH.gravityMs2() / 4);
    holds(
        "5.5-little-excess-resistance",
        "motion resistance there is that of the wheel numeric, three times 0.08 of the weight and"
            + " more",
        WISMER_LUTH,
        "C",
        model.forceN(0) >= 2600 * Body.EARTH.gravityMs2() * WismerLuth.resistance(cn) * (1 - 1e-12)
            && WismerLuth.resistance(cn) > 0.24);
    DriveModel none = new DriveModel(truck(bearing.once(), null), Body.EARTH.gravityMs2());
    near(
        "5.5-no-excess",
        "climb where RCI is VCI1 (rise over run)",
        "definition of VCI: what just suffices on the level",
        "C",
        0,
        none.steepestDrivenGrade(),
        1e-9);
  }

  /** Needs so little that the relations count as they are: four wheels alike, forces on a slope. */
  @Test
  void gradesByTheRelationsAsTheyAre() {
    Vehicle v = truck(60, 5.0);
    Vehicle low =
        new Vehicle(
            v.name(),
            "",
            v.massKg(),
            new Vehicle.Chassis(4.7, 1.9, 0.24, null, null, null),
            v.wheels(),
            null,
            null,
            v.drive(),
            v.soil(),
            null,
            null);
    DriveModel model = new DriveModel(low, Body.EARTH.gravityMs2());
    double up = Math.atan(model.steepestDrivenGrade());
    double down = Math.atan(model.steepestHeldGrade());
    near(
        "5.5-wheel-numeric-climb",
        "steepest climb, RCI 60: sine, by thrust less resistance at slip 0.6",
        WISMER_LUTH,
        "C",
        Math.cos(up) * (gross(up) - resistance(up)),
        Math.sin(up),
        1e-9);
    near(
        "5.5-wheel-numeric-descent",
        "steepest descent, RCI 60: sine, by thrust and the rolling 0.08 alone",
        WISMER_LUTH,
        "C",
        Math.cos(down) * (gross(down) + 0.08),
        Math.sin(down),
        1e-9);
  }

  /** Tyres 0.26 m wide count as 0.3 of their diameter. */
  private static double numeric(double angle) {
    double wheelN = 2600 * Body.EARTH.gravityMs2() / 4 * Math.cos(angle);
    return Math.min(50, 60 * 6894.757 * 0.3 * 0.78 * 0.78 / wheelN);
  }

  private static double gross(double angle) {
    return 0.75 * (1 - Math.exp(-0.3 * numeric(angle) * 0.6));
  }

  private static double resistance(double angle) {
    double m = numeric(angle) * Math.sqrt(0.15) / (1 + 0.3 / 2);
    return Math.max(0.04 + 1.2 / numeric(angle), 0.049 + 0.287 / m);
  }
}
