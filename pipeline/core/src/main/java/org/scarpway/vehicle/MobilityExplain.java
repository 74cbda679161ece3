package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.CellMobility.Check;
import org.scarpway.vehicle.CellMobility.OnHeading;

/**
 * Every limit of a vehicle at one cell with got and allowed, as {@link MobilityStage} judges it.
 */
public final class MobilityExplain {
  private final MoveLimits limits;
  private final Terrain terrain;
  private final Hazard hazard;
  private final GridSpec spec;
  private final Headings headings;
  private final WheelPose pose;

  private MobilityExplain(Terrain terrain, Hazard hazard, MoveLimits limits) {
    this.limits = limits;
    Vehicle vehicle = limits.vehicle();
    this.terrain = terrain;
    this.hazard = hazard;
    spec = terrain.gradEast().spec();
    headings = Headings.of(spec);
    pose =
        WheelPose.resolves(vehicle, spec)
            ? new WheelPose(vehicle, limits.bellyM, spec, terrain.heightM().values())
            : null;
  }

  /** On ground without soils of its own. */
  public static CellMobility at(
      Terrain terrain, Hazard hazard, Vehicle vehicle, Body body, int cell) {
    return at(terrain, hazard, vehicle, null, body, cell);
  }

  /**
   * @param soils which soil lies where; null where the vehicle's own soil lies everywhere
   * @param cell index of the cell, row x columns + column
   */
  public static CellMobility at(
      Terrain terrain, Hazard hazard, Vehicle vehicle, SoilMap soils, Body body, int cell) {
    SoilLimits limits = new SoilLimits(vehicle, soils, body);
    return new MobilityExplain(terrain, hazard, limits.of(limits.at(cell))).explain(cell);
  }

  private CellMobility explain(int cell) {
    CellJudge judge = new CellJudge(limits, terrain, hazard);
    judge.judge(cell / spec.cols(), cell % spec.cols());
    double ge = terrain.gradEast().values()[cell];
    double gn = terrain.gradNorth().values()[cell];
    List<OnHeading> rose = new ArrayList<>();
    if (judge.cls != 0) {
      for (int k = 0; k < Headings.COUNT; k++) {
        rose.add(onHeading(cell, k, ge, gn, (judge.bits >>> k & 1) != 0, judge.capMs));
      }
    }
    return new CellMobility(
        judge.cls,
        judge.code == 0 ? null : Limit.ofCode(judge.code),
        judge.margin01,
        100 * judge.openShare,
        SlopeGeometry.deg(Math.sqrt(ge * ge + gn * gn)),
        limits.vehicle().soil() == null ? null : limits.vehicle().soil().name(),
        cellChecks(cell),
        rose);
  }

  private List<Check> cellChecks(int cell) {
    List<Check> checks = new ArrayList<>();
    boolean keptOut = (hazard.causes().values()[cell] & Hazard.Cause.KEEP_OUT.bit()) != 0;
    checks.add(new Check(Limit.KEEP_OUT, "inside a keep-out area", keptOut ? 1 : 0, 0, ""));
    int room = Hazard.Cause.NARROW.bit() | Hazard.Cause.POCKET.bit();
    boolean tight = (hazard.causes().values()[cell] & room) != 0;
    checks.add(new Check(Limit.ROOM, "in a gap or pocket without room", tight ? 1 : 0, 0, ""));
    double detour = hazard.detourFactor().values()[cell];
    checks.add(
        new Check(Limit.ROCKS, "way around rocks over straight way", detour, Float.MAX_VALUE, ""));
    add(
        checks,
        Limit.STEP,
        CellJudge.stepFarFetched(terrain)
            ? "step height by estimate, where speed is down to crawl"
            : "step height",
        terrain.stepM(),
        cell,
        limits.stepM);
    if (pose == null) {
      add(
          checks,
          Limit.CLEARANCE,
          "rise of the ground between the axles",
          terrain.convexityM(),
          cell,
          limits.bellyM);
    }
    add(
        checks,
        Limit.ROUGHNESS,
        "roughness, where speed is down to crawl",
        terrain.roughnessM(),
        cell,
        limits.crawlRoughnessM);
    if (!Double.isNaN(limits.vci1)) {
      checks.add(
          new Check(
              Limit.TRACTION,
              "vehicle cone index, one pass",
              limits.vci1,
              limits.ratingConeIndex,
              ""));
    }
    return checks;
  }

  private static void add(
      List<Check> checks, Limit limit, String what, FloatGrid grid, int cell, double allowed) {
    if (allowed < Double.POSITIVE_INFINITY) {
      checks.add(new Check(limit, what, grid.values()[cell], allowed, "m"));
    }
  }

  private OnHeading onHeading(
      int cell, int k, double ge, double gn, boolean allowed, double capMs) {
    double grade = SlopeGeometry.grade(ge, gn, headings.east(k), headings.north(k));
    double cross = SlopeGeometry.cross(ge, gn, headings.east(k), headings.north(k));
    double speed = Double.NaN;
    double energy = Double.NaN;
    if (allowed) {
      speed = Math.min(capMs, limits.table.speedMs(grade));
      energy = limits.table.tractionJPerM(grade) + limits.table.hotelW() / speed;
    }
    List<Check> checks = new ArrayList<>();
    if (pose != null && pose.set(cell, k)) {
      grade = pose.grade;
      cross = pose.cross;
      contact(checks);
    } else if (limits.trough < Double.POSITIVE_INFINITY) {
      checks.add(
          new Check(
              Limit.APPROACH,
              "break in slope ahead",
              breakAheadDeg(cell, k, grade),
              SlopeGeometry.deg(limits.trough),
              "deg"));
    }
    slopes(checks, grade, cross);
    return new OnHeading(
        headings.azimuthDeg(k),
        allowed,
        SlopeGeometry.deg(grade),
        SlopeGeometry.deg(cross),
        speed,
        energy,
        checks);
  }

  private void contact(List<Check> checks) {
    contact(checks, Limit.CLEARANCE, "ground into the belly's clearance", pose.bellyClearanceM);
    contact(checks, Limit.APPROACH, "ground into an overhang's clearance", pose.endClearanceM);
    if (limits.stepM < Double.POSITIVE_INFINITY) {
      checks.add(
          new Check(Limit.STEP, "wheel off the wheels' plane", pose.gapM, limits.stepM, "m"));
    }
  }

  private void contact(List<Check> checks, Limit limit, String what, double clearanceM) {
    if (clearanceM < Double.POSITIVE_INFINITY) {
      checks.add(
          new Check(limit, what, Math.max(0, limits.bellyM - clearanceM), limits.bellyM, "m"));
    }
  }

  private void slopes(List<Check> checks, double grade, double cross) {
    if (grade >= 0) {
      angle(checks, Limit.CLIMB, "climb", grade, limits.climb);
    } else {
      angle(checks, Limit.DESCEND, "descent", -grade, limits.descend);
    }
    angle(checks, Limit.SIDE, "side slope", Math.abs(cross), limits.side);
    if (limits.tipSide < Double.POSITIVE_INFINITY) {
      double slope = Math.sqrt(grade * grade + cross * cross);
      double share =
          Math.max(
              grade >= 0 ? grade / limits.tipUp : -grade / limits.tipDown,
              Math.abs(cross) / limits.tipSide);
      double tipDeg = share > 0 ? SlopeGeometry.deg(slope / share) : 90;
      checks.add(
          new Check(
              Limit.TIP,
              "slope against tipping slope less margin",
              SlopeGeometry.deg(slope),
              tipDeg - SlopeGeometry.deg(limits.tipMargin),
              "deg"));
    }
    if (grade < 0) {
      angle(checks, Limit.TRACTION, "descent that the soil holds", -grade, limits.tractionDown);
    }
    angle(checks, Limit.TRACTION, "grade that the soil carries", grade, limits.tractionUp);
    angle(checks, Limit.POWER, "grade at crawl speed by power", grade, limits.power);
  }

  private static void angle(
      List<Check> checks, Limit limit, String what, double got, double allowed) {
    if (allowed < Double.POSITIVE_INFINITY) {
      checks.add(new Check(limit, what, SlopeGeometry.deg(got), SlopeGeometry.deg(allowed), "deg"));
    }
  }

  private double breakAheadDeg(int cell, int k, double grade) {
    int row = cell / spec.cols() + (int) Math.round(Headings.dRow(k) / 4.0);
    int col = cell % spec.cols() + (int) Math.round(Headings.dCol(k) / 4.0);
    if (!spec.holds(row, col)) {
      return 0;
    }
    double next =
        SlopeGeometry.grade(
            terrain.gradEast().at(row, col),
            terrain.gradNorth().at(row, col),
            headings.east(k),
            headings.north(k));
    return next > grade ? SlopeGeometry.deg(next) - SlopeGeometry.deg(grade) : 0;
  }
}
