package org.scarpway.validation;

import static org.scarpway.validation.Validation.holds;
import static org.scarpway.validation.Validation.near;
import static org.scarpway.validation.Validation.nearRel;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.vehicle.BekkerSinkage;
import org.scarpway.vehicle.CompactionResistance;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.JanosiShear;
import org.scarpway.vehicle.Slip;
import org.scarpway.vehicle.SlipSinkage;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Soil under a wheel, and published rovers as bounds. */
class TerramechanicsCheck {
  private static final String BEKKER =
      "Bekker 1969; Wong 2008 ch. 2; lunar parameters n=1, kc=1400, kphi=820000 (course script)";
  private static final String SHEAR =
      "Janosi & Hanamoto 1961; lunar parameters c=170 Pa, phi=35 deg, K=0.0178 m";
  private static final String ROVER =
      "crewed lunar rover 1971-72 as published: 700 kg laden, flexible wheels 0.23 x 0.818 m";

  private static final Soil LUNAR =
      VehicleParts.soil(
          "lunar", new Soil.Bekker(1, 1400, 820_000), new Soil.Shear(170, 35, 0.0178), null);

  private static final double WIDTH = 0.23;
  private static final double DIAMETER = 0.818;
  private static final double LENGTH = 0.30;
  private static final double LOAD = 283.5;

  /** Drive of a vehicle on four flexible wheels of the example, each with the same load. */
  private static DriveModel fourWheels(double loadN) {
    return new DriveModel(
        new Vehicle(
            "example",
            "",
            4 * loadN / 1.62,
            null,
            new Vehicle.Wheels(
                List.of(1.0, -1.0), List.of(1.8, 1.8), DIAMETER / 2, WIDTH, LENGTH, 0.15),
            null,
            null,
            VehicleParts.drive(1, null, null, null, null, null, null),
            LUNAR,
            null,
            null),
        1.62);
  }

  @Test
  void plate() {
    nearRel(
        "5.1-plate-pressure-pa",
        "pressure under a plate 0.23 m wide at 0.05 m (Pa)",
        BEKKER,
        "Vs",
        41304.35,
        platePa(0.05),
        1e-5);
    // Half of the last digit of the published sinkage.
    nearRel(
        "5.1-plate-sinkage-pa",
        "pressure at its published sinkage of 0.008474 m under 7000 Pa (Pa)",
        BEKKER,
        "Vs",
        7000,
        platePa(0.008474),
        5e-7 / 0.008474);
  }

  /** What presses a rut one m2 wide and long deeper: the work of compaction by depth and width. */
  private static double platePa(double sinkageM) {
    double step = 1e-6;
    return (CompactionResistance.newtons(LUNAR.bekker(), WIDTH, sinkageM + step)
            - CompactionResistance.newtons(LUNAR.bekker(), WIDTH, sinkageM - step))
        / (2 * step * WIDTH);
  }

  @Test
  void wheel() {
    double z = BekkerSinkage.wheelM(LUNAR.bekker(), WIDTH, DIAMETER, LOAD);
    near("5.1-wheel-sinkage-m", "rigid wheel, 283.5 N (m)", BEKKER, "Vs", 0.018295, z, 5e-7);
    double rc = CompactionResistance.newtons(LUNAR.bekker(), WIDTH, z);
    nearRel(
        "5.1-wheel-compaction-n", "compaction resistance (N)", BEKKER, "Vs", 31.79868, rc, 1e-5);
    near(
        "5.1-wheel-compaction-over-load",
        "resistance over load",
        BEKKER,
        "Vs",
        0.112165,
        rc / LOAD,
        1e-6);
    // The other algebraic form for n = 1: Rc = [3W / ((3-n) sqrt(D))]^((2n+2)/(2n+1)) / ((n+1)(kc +
    // b kphi)^(1/(2n+1))).
    double other =
        Math.pow(3 * LOAD / (2 * Math.sqrt(DIAMETER)), 4.0 / 3)
            / (2 * Math.pow(1400 + WIDTH * 820_000, 1.0 / 3));
    nearRel(
        "5.1-wheel-compaction-closed-n",
        "compaction, closed form (N)",
        BEKKER,
        "C",
        other,
        rc,
        1e-9);
    double lighter = BekkerSinkage.wheelM(LUNAR.bekker(), WIDTH, DIAMETER, 253);
    near(
        "5.1-wheel-253-sinkage-m", "rigid wheel, 253 N (m)", BEKKER, "Vs", 0.016959, lighter, 5e-7);
    nearRel(
        "5.1-wheel-253-compaction-n",
        "compaction resistance, 253 N (N)",
        BEKKER,
        "Vs",
        27.32115,
        CompactionResistance.newtons(LUNAR.bekker(), WIDTH, lighter),
        1e-5);
  }

  @Test
  void thrustAndPull() {
    double[][] rows = {
      {0.05, 68.1700, 36.3713},
      {0.2, 150.0112, 118.2125},
      {0.5, 185.2960, 153.4973},
      {1, 197.7647, 165.9660}
    };
    for (double[] row : rows) {
      String s = String.format(Locale.ROOT, "%.2f", row[0]);
      nearRel(
          "5.1-thrust-slip-" + s + "-n",
          "thrust at slip " + s + " (N)",
          SHEAR,
          "Vs",
          row[1],
          JanosiShear.fullN(LUNAR.shear(), WIDTH * LENGTH, LOAD)
              * JanosiShear.share(row[0], LENGTH, LUNAR.shear().kM()),
          1e-5);
      nearRel(
          "5.1-pull-slip-" + s + "-n",
          "drawbar pull at slip " + s + " (N)",
          SHEAR,
          "Vs",
          row[2],
          pullAtRestN(row[0]),
          1e-5);
    }
    nearRel(
        "5.1-thrust-full-n",
        "thrust at full shear (N)",
        SHEAR,
        "Vs",
        210.2388,
        JanosiShear.fullN(LUNAR.shear(), WIDTH * LENGTH, LOAD),
        1e-5);
    near(
        "5.1-slope-equivalent-0.2-deg",
        "slope equal to the pull at slip 0.2 (deg)",
        SHEAR,
        "C",
        22.635,
        Math.toDegrees(Math.atan(pullAtRestN(0.2) / LOAD)),
        1e-3);
    near(
        "5.1-slope-equivalent-1.0-deg",
        "slope equal to the pull at slip 1 (deg)",
        SHEAR,
        "C",
        30.346,
        Math.toDegrees(Math.atan(pullAtRestN(1) / LOAD)),
        1e-3);
  }

  /** As published: no deeper by the slip. */
  private static double pullAtRestN(double slip) {
    return thrustN(LOAD, slip) - rutN(LOAD);
  }

  private static double thrustN(double loadN, double slip) {
    return JanosiShear.fullN(LUNAR.shear(), WIDTH * LENGTH, loadN)
        * JanosiShear.share(slip, LENGTH, LUNAR.shear().kM());
  }

  private static double rutN(double loadN) {
    double z = BekkerSinkage.wheelM(LUNAR.bekker(), WIDTH, DIAMETER, loadN);
    return CompactionResistance.newtons(LUNAR.bekker(), WIDTH, z);
  }

  @Test
  void slipOnSlopes() {
    double[][] rows = {
      {0, 0.020023}, {5, 0.039346}, {10, 0.063939}, {15, 0.097734}, {20, 0.150346}, {25, 0.255285}
    };
    // Thrust at the slip published for wheels that sink no deeper by it; half of its last digit.
    for (double[] row : rows) {
      holdsOnSlope(String.format(Locale.ROOT, "%02.0f-deg", row[0]), LOAD, row[0], row[1]);
    }
    holdsOnSlope("253-20-deg", 253, 20, 0.145186);
  }

  private static void holdsOnSlope(String id, double loadN, double deg, double slip) {
    double a = Math.toRadians(deg);
    near(
        "5.1-slip-on-slope-" + id,
        "pull at slip "
            + slip
            + ", which "
            + loadN
            + " N need on "
            + deg
            + " deg at rest sinkage (N)",
        SHEAR,
        "C",
        loadN * Math.sin(a),
        thrustN(loadN * Math.cos(a), slip) - rutN(loadN * Math.cos(a)),
        1e-3);
  }

  /** The same wheels sunk deeper by their slip; expected by SciPy's root finder. */
  @Test
  void slipAndSinkageOnSlopes() {
    String source =
        "Lyasko 2010 (secondary) blended by load with a public table of single-wheel tests;"
            + " resistance by the geometry of the sinkage, own derivation";
    double[][] rows = {
      {0, 0.020469}, {5, 0.040427}, {10, 0.066219}, {15, 0.102666}, {20, 0.163128}
    };
    for (double[] row : rows) {
      near(
          String.format(Locale.ROOT, "5.1-slip-sinkage-on-slope-%02.0f-deg", row[0]),
          "slip on a slope of " + row[0] + " deg, wheels deeper by it",
          source,
          "C",
          row[1],
          fourWheels(LOAD).slip(Math.tan(Math.toRadians(row[0]))),
          1e-6);
    }
    double[][] pulls = {{0.05, 34.8407}, {0.2, 112.2735}, {0.5, 135.5177}};
    for (double[] pull : pulls) {
      nearRel(
          "5.1-slip-sinkage-pull-" + pull[0],
          "drawbar pull at slip " + pull[0] + ", wheels deeper by it (N)",
          source,
          "C",
          pull[1],
          fourWheels(LOAD).drawbarPullN(pull[0]) / 4,
          1e-5);
    }
    near(
        "5.1-slip-sinkage-0.2",
        "sinkage at slip 0.2 over that at rest, heavy wheel",
        "(1 + s) / (1 - 0.5 s), Lyasko 2010, J. Terramech. 47(1):21-31",
        "Vs",
        1.333,
        SlipSinkage.factor(0.2, 5000),
        5e-4);
    near(
        "5.1-slip-sinkage-0.5",
        "sinkage at slip 0.5 over that at rest, heavy wheel",
        "(1 + s) / (1 - 0.5 s), Lyasko 2010, J. Terramech. 47(1):21-31",
        "Vs",
        2.0,
        SlipSinkage.factor(0.5, 5000),
        1e-12);
    String table = "public table of single-wheel tests, smooth wheel, 80 N: 5, 7.5 and 17.5 mm";
    near(
        "5.1-slip-sinkage-80-n-0.2",
        "the same, 80 N, slip 0.2",
        table,
        "V",
        7.5 / 5,
        SlipSinkage.factor(0.2, 80),
        1e-12);
    near(
        "5.1-slip-sinkage-80-n-0.6",
        "the same, 80 N, slip 0.6",
        table,
        "V",
        17.5 / 5,
        SlipSinkage.factor(0.6, 80),
        1e-12);
  }

  private static DriveModel rolling(double regeneration) {
    Vehicle.Drive drive = VehicleParts.drive(10 / 3.6, null, null, 0.6, regeneration, 50.0, 0.1);
    return new DriveModel(
        new Vehicle("sanity", "", 700.0, null, null, null, null, drive, null, null, null), 1.62);
  }

  /**
   * Below the crawl speed too: v t + v2 / 2a = s has the root 0.5 for 2.5 s, 0.5 m/s2 and 1.5 m.
   */
  @Test
  void speedWithinSight() {
    Vehicle.Drive drive =
        new Vehicle.Drive(
            3,
            1.0,
            null,
            null,
            null,
            null,
            null,
            0,
            1,
            null,
            false,
            new Vehicle.Sight(1.5, 0.5, 2.5));
    Vehicle v = new Vehicle("dim", "", null, null, null, null, null, drive, null, null, null);
    for (int pct : new int[] {0, 10}) {
      near(
          "5.2-sight-below-crawl-" + pct + "-pct",
          "speed that stops within 1.5 m (0.5 m/s2, 2.5 s), crawl speed 1 m/s, climb of "
              + pct
              + " % (m/s)",
          "stopping sight distance of road design, v t + v2 / 2a = s",
          "P",
          0.5,
          new DriveModel(v, 1.62).speedMs(pct / 100.0),
          1e-12);
    }
  }

  @Test
  void energyOfRollingModel() {
    DriveModel model = rolling(0);
    double[][] rows = {
      {-10, 5.0}, {-5, 11.54346}, {0, 57.5}, {5, 103.05699}, {10, 147.86770}, {15, 191.59110}
    };
    for (double[] row : rows) {
      double whPerKm = model.energyJPerM(Math.tan(Math.toRadians(row[0]))) / 3.6;
      nearRel(
          String.format(Locale.ROOT, "5.2-energy-%+03.0f-deg-wh-km", row[0]),
          "700 kg, 1.62 m/s2, rolling 0.1, efficiency 0.6, hotel 50 W, 10 km/h (Wh/km)",
          "F = C m g cos + m g sin",
          "C",
          row[1],
          whPerKm,
          1e-6);
    }
    double up = model.energyJPerM(Math.tan(Math.toRadians(10)));
    double down = model.energyJPerM(Math.tan(Math.toRadians(-10)));
    holds(
        "5.2-energy-out-and-back",
        "without regeneration, up and down 10 deg costs more than twice the level",
        "energy balance",
        "C",
        up + down > 2 * model.energyJPerM(0));
    double angle = Math.toRadians(10);
    for (double share : new double[] {0.5, 0.9}) {
      DriveModel back = rolling(share);
      double both = back.energyJPerM(Math.tan(angle)) + back.energyJPerM(Math.tan(-angle));
      holds(
          "5.2-energy-regeneration-" + share,
          "with "
              + share
              + " of the braking returned, up and down 10 deg costs less than without, and no less"
              + " than the work against the ground",
          "energy balance",
          "C",
          both < up + down && both >= 2 * 0.1 * 700 * 1.62 * Math.cos(angle));
    }
  }

  @Test
  void publishedRoverAsBounds() {
    Vehicle v =
        new Vehicle(
            "published-rover",
            "",
            700.0,
            new Vehicle.Chassis(3.1, 1.83, 0.356, null, null, 0.75),
            new Vehicle.Wheels(
                List.of(1.15, -1.15), List.of(1.83, 1.83), DIAMETER / 2, WIDTH, LENGTH, 0.15),
            null,
            null,
            VehicleParts.drive(13 / 3.6, null, null, 0.6, 0.0, 100.0, null),
            LUNAR,
            null,
            null);
    DriveModel model = new DriveModel(v, 1.62);
    double whPerKm = model.energyJPerM(0) / 3.6;
    holds(
        "5.2-rover-energy-bounds",
        String.format(
            Locale.ROOT, "level energy %.0f Wh/km lies between half of 67 and 120 Wh/km", whPerKm),
        ROVER + "; 67, 120, 74 Wh/km",
        "M",
        whPerKm > 33 && whPerKm < 120);
    holds(
        "5.2-rover-climbs-design-slope",
        "the soil carries the published design slope of 20 deg",
        ROVER + "; design 20-23 deg, max 25 deg",
        "V",
        model.slip(Math.tan(Math.toRadians(20))) < Slip.USABLE);
    holds(
        "5.2-rover-stopped-by-soil",
        "the soil does not carry 35 deg",
        ROVER + "; max 25 deg",
        "V",
        model.slip(Math.tan(Math.toRadians(35))) > Slip.USABLE);
    double levelKmh = 3.6 * model.speedMs(0);
    holds(
        "5.2-rover-level-speed",
        "slip takes less than a fifth of the speed on the level",
        ROVER + "; theoretical 9-13 km/h",
        "V",
        levelKmh > 0.8 * 13 && levelKmh <= 13);
  }
}
