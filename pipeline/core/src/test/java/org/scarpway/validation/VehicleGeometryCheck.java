package org.scarpway.validation;

import static org.scarpway.validation.Validation.near;
import static org.scarpway.validation.Validation.nearRel;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.vehicle.ConeIndex;
import org.scarpway.vehicle.RampAngles;
import org.scarpway.vehicle.SlopeGeometry;
import org.scarpway.vehicle.TipOver;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Slopes, tip-over, ramps and cone index against closed forms and published tables. */
class VehicleGeometryCheck {
  private static final String STATICS = "plane statics";
  private static final String PLANE = "plane geometry";
  private static final String RAMP = "plane geometry; 49 CFR 523.2 for the tangent form";
  private static final String VCI =
      "Priddy & Willoughby, Clarification of vehicle cone index, J. Terramechanics 43";

  @Test
  void tipOver() {
    TipOver truck = TipOver.of(wheels(3, 3), 1.5);
    tip("side-3-1.5", 45, truck.slopeDeg(90));
    tip("pitch-2-1.5", 53.13010, truck.slopeDeg(0));
    tip("side-1.83-0.75", 50.6595, TipOver.of(wheels(1.83, 1.83), 0.75).slopeDeg(90));
    tip("psi-00", 53.1301, truck.slopeDeg(0));
    tip("psi-30", 56.9955, truck.slopeDeg(30));
    tip("psi-45", 54.7356, truck.slopeDeg(45));
    tip("psi-60", 49.1066, truck.slopeDeg(60));
    tip("psi-90", 45.0, truck.slopeDeg(90));
  }

  /** Axles 2 m ahead of the centre of gravity and behind it. */
  private static Vehicle.Wheels wheels(double frontTrackM, double rearTrackM) {
    return VehicleParts.wheels(List.of(2.0, -2.0), List.of(frontTrackM, rearTrackM), 0.4, 0.3);
  }

  /**
   * Support polygon with corners 2 m ahead and 1 m aside, 2 m behind and 2 m aside: its side runs
   * from (2, 1) to (-2, 2), 6 / sqrt 17 from the centre of gravity, which stands over it where the
   * fall line is square to it.
   */
  @Test
  void tipOverOfATrapezoid() {
    TipOver trapezoid = TipOver.of(wheels(2, 4), 1.5);
    double overSide = Math.toDegrees(Math.atan(6 / Math.sqrt(17) / 1.5));
    double square = 90 + Math.toDegrees(Math.atan(0.25));
    tip("trapezoid-side", overSide, trapezoid.slopeDeg(square));
    // Straight across the vertical leaves the side at y = 1.5 m, half way along it.
    tip("trapezoid-psi-90", 45, trapezoid.slopeDeg(90));
    tip("trapezoid-psi-00", 53.1301, trapezoid.slopeDeg(0));
    // Towards the corner (2, 1), downhill: where front and side tip at once.
    double corner = Math.toDegrees(Math.atan2(1, -2));
    double overCorner = Math.toDegrees(Math.atan(Math.sqrt(5) / 1.5));
    tip("trapezoid-corner", overCorner, trapezoid.slopeDeg(corner));
  }

  private static void tip(String id, double expected, double got) {
    near("5.3-tip-" + id + "-deg", "tipping slope (deg)", STATICS, "C", expected, got, 6e-5);
  }

  @Test
  void headingOnSlope() {
    double[][] rows = {
      {20, 30, 17.49524, 10.31410}, {20, 45, 14.43276, 14.43276}, {25, 60, 13.12427, 21.99054}
    };
    for (double[] r : rows) {
      String id = String.format(Locale.ROOT, "%.0f-%.0f", r[0], r[1]);
      double t = SlopeGeometry.tan(r[0]);
      double psi = Math.toRadians(r[1]);
      double g = SlopeGeometry.grade(0, t, Math.sin(psi), Math.cos(psi));
      // Uphill is north and the heading to the right of it: the ground falls to the right.
      double c = -SlopeGeometry.cross(0, t, Math.sin(psi), Math.cos(psi));
      near(
          "5.3-grade-" + id + "-deg",
          "grade on a slope (deg)",
          PLANE,
          "C",
          r[2],
          SlopeGeometry.deg(g),
          1e-5);
      near(
          "5.3-cross-" + id + "-deg",
          "cross grade on a slope (deg)",
          PLANE,
          "C",
          r[3],
          SlopeGeometry.deg(c),
          1e-5);
      near(
          "5.3-identity-" + id, "tan2 grade + tan2 cross", PLANE, "C", t * t, g * g + c * c, 1e-12);
    }
  }

  @Test
  void ramps() {
    ramp("breakover-15-120", 28.0725, RampAngles.breakoverDeg(15, 120, 0), 5e-5);
    ramp("breakover-12-100", 26.9915, RampAngles.breakoverDeg(12, 100, 0), 5e-5);
    ramp("breakover-.356-2.29", 34.54272, RampAngles.breakoverDeg(0.356, 2.29, 0), 1e-5);
    ramp("breakover-.35-4", 19.85249, RampAngles.breakoverDeg(0.35, 4, 0), 1e-5);
    ramp("breakover-wheel-.356-2.29", 36.50999, RampAngles.breakoverDeg(0.356, 2.29, 0.409), 1e-5);
    ramp("breakover-wheel-.35-4", 20.38699, RampAngles.breakoverDeg(0.35, 4, 0.6), 1e-5);
    ramp("approach-simple", 32.00538, RampAngles.approachDeg(0.5, 0.8, 0), 1e-5);
    ramp("approach-tangent", 37.72932, RampAngles.approachDeg(0.5, 0.8, 0.45), 1e-5);
    crest(0.356, 2.29, 2.01933);
    crest(0.35, 4, 5.88929);
    crest(0.5, 3, 2.5);
  }

  private static void ramp(String id, double expected, double got, double tolerance) {
    near("5.3-ramp-" + id + "-deg", "ramp angle (deg)", RAMP, "C", expected, got, tolerance);
  }

  private static void crest(double clearance, double wheelbase, double expected) {
    near(
        "5.3-crest-" + clearance + "-" + wheelbase + "-m",
        "radius of the crest that just grounds (m)",
        PLANE,
        "C",
        expected,
        RampAngles.crestRadiusM(clearance, wheelbase),
        5e-6);
  }

  @Test
  void percentAndDegrees() {
    double[][] rows = {
      {3, 1.7184},
      {5, 2.8624},
      {7, 4.0042},
      {10, 5.7106},
      {14, 7.9696},
      {20, 11.3099},
      {30, 16.6992},
      {45, 24.2277},
      {60, 30.9638},
      {17.6327, 10},
      {26.7949, 15},
      {36.3970, 20},
      {46.6308, 25},
      {57.7350, 30}
    };
    for (double[] r : rows) {
      near(
          String.format(Locale.ROOT, "5.4-percent-%07.4f-deg", r[0]),
          "slope of a percentage (deg)",
          "definition",
          "C",
          r[1],
          SlopeGeometry.deg(r[0] / 100),
          5.1e-5);
    }
  }

  @Test
  void coneIndex() {
    String course = "Engineer subcourse EN5341, worked example";
    near(
        "5.5-rci-49-.87",
        "rating cone index, rounded",
        course,
        "V",
        43,
        Math.rint(ConeIndex.rating(49, 0.87)),
        0);
    near(
        "5.5-rci-56-.85",
        "rating cone index, rounded",
        course,
        "V",
        48,
        Math.rint(ConeIndex.rating(56, 0.85)),
        0);
    double[][] wheeled = {
      {20, 13.8288},
      {50, 20.7506},
      {60, 22.8650},
      {100, 31.1021},
      {115, 34.1499},
      {150, 38.3107},
      {200, 43.5555}
    };
    for (double[] r : wheeled) {
      near(
          String.format(Locale.ROOT, "5.5-vci1-wheeled-mi-%03.0f", r[0]),
          "vehicle cone index, one pass",
          VCI,
          "V",
          r[1],
          ConeIndex.wheeled1(r[0], 1),
          5.1e-5);
    }
    near(
        "5.5-vci1-branch",
        "upper branch just above MI 115",
        VCI,
        "V",
        34.0295,
        ConeIndex.wheeled1(115.0000001, 1),
        5.1e-5);
    near(
        "5.5-deflection-.35",
        "deflection correction",
        VCI,
        "V",
        0.80911,
        ConeIndex.deflectionFactor(0.35),
        5.1e-6);
    String codes =
        "28.23 + 0.43 MI - 92.67 / (MI + 3.67), above MI 115 9.0 MI^0.446: two public codes, one of"
            + " which names Ciobotaru 2009";
    double[][] often = {{50, 48.003}, {100, 70.336}, {200, 95.6}};
    for (double[] r : often) {
      near(
          String.format(Locale.ROOT, "5.5-vci50-wheeled-mi-%03.0f", r[0]),
          "vehicle cone index, 50 passes",
          codes,
          "Vs",
          r[1],
          ConeIndex.wheeled50(r[0]),
          r[0] > 115 ? 0.05 : 5.1e-4);
    }
    String memory = "vehicle cone index reports, from memory";
    near(
        "5.5-vci1-tracked-mi-050",
        "tracked, one pass",
        memory,
        "M",
        16.2950,
        ConeIndex.tracked1(50),
        5.1e-5);
    nearRel(
        "5.5-vci50-tracked-mi-050",
        "tracked, 50 passes",
        memory,
        "M",
        38.5663,
        ConeIndex.tracked50(50),
        2e-6);
  }
}
