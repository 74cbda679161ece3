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
 * Explains the verdict of {@link MobilityStage} on one cell: every limit of the vehicle with the
 * value found and the value allowed.
 */
public final class MobilityExplain {
  /** The limits of a vehicle on each soil, built once for all places to be explained. */
  public static final class Limits {
    private final Vehicle vehicle;
    private final Body body;
    private final UnresolvedRule rule;
    private SoilLimits limits;
    private final HeightTrust trust;
    private Allowances allowances;

    public Limits(Vehicle vehicle, Body body, UnresolvedRule rule, HeightTrust trust) {
      this.rule = rule;
      this.trust = trust;
      this.vehicle = vehicle;
      this.body = body;
    }

    private Allowances allowances(Terrain terrain) {
      if (allowances == null) {
        GridSpec spec = terrain.gradEast().spec();
        allowances = Allowances.of(trust, terrain, CellTraversability.layout(vehicle, spec));
      }
      return allowances;
    }

    /** Returns the limits, which are the same on every window of the ground. */
    private SoilLimits on(SoilMap soils) {
      if (limits == null) {
        limits = new SoilLimits(vehicle, soils, body);
      }
      return limits;
    }
  }

  private final MoveLimits limits;
  private final Allowances allowances;
  private final Terrain terrain;
  private final Hazard hazard;
  private final GridSpec spec;
  private final Headings headings;
  private final CellTraversability judge;
  private final RowPoseEstimator poses;
  private final GradeTable table;
  private final String soil;
  private final boolean soilKnown;

  /**
   * @param soil index of the soil there
   */
  private MobilityExplain(
      Terrain terrain,
      Hazard hazard,
      SoilLimits all,
      UnresolvedRule rule,
      Allowances allowances,
      int soil,
      int cell) {
    this.allowances = allowances;
    this.terrain = terrain;
    this.hazard = hazard;
    spec = terrain.gradEast().spec();
    headings = Headings.of(spec);
    WheelLayout layout = CellTraversability.layout(all.of(0).vehicle(), spec);
    SoilJudges judges =
        new SoilJudges(
            all, on -> new CellTraversability(on, terrain, hazard, layout, rule, allowances));
    judge = judges.judge(cell / spec.cols(), cell % spec.cols(), soil);
    limits = judges.governing().limits();
    poses = judges.governing().poses;
    table = all.tables()[soil];
    soilKnown = all.single(soil) || all.worstOfAll(soil);
    String name = limits.vehicle().soil() == null ? null : limits.vehicle().soil().name();
    String why = soil == all.unknown() ? "not known" : "several";
    this.soil = all.single(soil) ? name : all.worstOfAll(soil) ? worstOf(why, name) : why;
  }

  private static String worstOf(String why, String name) {
    return why + ", worst of the job's soils: " + (name == null ? "rolling coefficient" : name);
  }

  /** Explains a cell on ground without soils by place. */
  public static CellMobility at(
      Terrain terrain, Hazard hazard, Vehicle vehicle, Body body, int cell) {
    return at(terrain, hazard, vehicle, null, body, UnresolvedRule.SAY, cell);
  }

  /**
   * @param soils soil of each cell; null if the vehicle's own soil is everywhere
   * @param rule treatment of ground on which the cells do not resolve a limit
   * @param cell index of the cell, row x columns + column
   */
  public static CellMobility at(
      Terrain terrain,
      Hazard hazard,
      Vehicle vehicle,
      SoilMap soils,
      Body body,
      UnresolvedRule rule,
      int cell) {
    return at(
        terrain, hazard, new Limits(vehicle, body, rule, HeightTrust.AS_MEASURED), soils, cell);
  }

  /**
   * @param terrain must have the same cell size in every call with these limits
   * @param soils must be the same in every call with these limits
   */
  public static CellMobility at(
      Terrain terrain, Hazard hazard, Limits limits, SoilMap soils, int cell) {
    SoilLimits all = limits.on(soils);
    int soil = all.count() == 1 ? 0 : soils.soilAt().values()[cell];
    Allowances allowances = limits.allowances(terrain);
    return new MobilityExplain(terrain, hazard, all, limits.rule, allowances, soil, cell)
        .explain(cell);
  }

  private CellMobility explain(int cell) {
    double ge = terrain.gradEast().values()[cell];
    double gn = terrain.gradNorth().values()[cell];
    double t = Math.sqrt(ge * ge + gn * gn);
    List<OnHeading> rose = new ArrayList<>();
    if (judge.cls != 0) {
      if (poses != null) {
        poses.requireBody();
      }
      for (int k = 0; k < Headings.COUNT; k++) {
        rose.add(onHeading(cell, k, ge, gn));
      }
    }
    return new CellMobility(
        judge.cls,
        judge.code == 0 ? null : Limit.ofCode(judge.code),
        judge.margin01,
        100 * judge.openShare,
        SlopeGeometry.deg(t),
        soil,
        ofSoil(limits.soft.sinkageM(t)),
        ofSoil(limits.soft.slip(t)),
        ofSoil(limits.model.drawbarPullN(Slip.USABLE)),
        cellChecks(cell, t),
        rose);
  }

  /** Returns the value, or NaN where the soil that it follows from is unknown. */
  private double ofSoil(double value) {
    return soilKnown ? value : Double.NaN;
  }

  private List<Check> cellChecks(int cell, double t) {
    List<Check> checks = new ArrayList<>();
    boolean keptOut = (hazard.causes().values()[cell] & Hazard.Cause.KEEP_OUT.bit()) != 0;
    checks.add(new Check(Limit.KEEP_OUT, "inside a keep-out area", keptOut ? 1 : 0, 0, ""));
    int room = Hazard.Cause.NARROW.bit() | Hazard.Cause.POCKET.bit();
    boolean tight = (hazard.causes().values()[cell] & room) != 0;
    if (judge.resolution.shuts()) {
      checks.add(new Check(Limit.UNRESOLVED, "no-go where a limit is not shown", 1, 0, ""));
    }
    checks.add(new Check(Limit.ROOM, "in a gap or pocket without room", tight ? 1 : 0, 0, ""));
    float detour = hazard.detourFactor().values()[cell];
    double barred = Float.isNaN(detour) ? Double.NaN : detour == Float.POSITIVE_INFINITY ? 1 : 0;
    checks.add(new Check(Limit.ROCKS, "so many rocks that no way leads through", barred, 0, ""));
    if (soilKnown && limits.noRocks) {
      double met = judge.fullOfRocks(cell) ? 1 : 0;
      checks.add(new Check(Limit.ROCKS, "rocks where wheels sink too deep for any", met, 0, ""));
    }
    boolean buried = soilKnown && limits.buries(t);
    if (!buried) {
      add(
          checks,
          Limit.STEP,
          IsotropicLimits.stepExtrapolatedTooFar(terrain)
              ? "step height over the cells, where speed is down to crawl"
              : "step height",
          terrain.stepM(),
          cell,
          IsotropicLimits.stepExtrapolatedTooFar(terrain) || allowances.stepOdds != null
              ? ofSoil(limits.stepM(t))
              : ofSoil(limits.stepM(t) - allowances.stepLossM));
    }
    boolean odds = allowances.stepOdds != null && limits.stepM < Double.POSITIVE_INFINITY;
    if (odds && soilKnown && !buried) {
      double broken = judge.cls == 0 ? Double.NaN : judge.stepBroken(cell, limits.stepM(t));
      String what = "probability that a step is over the limit";
      checks.add(check(Limit.STEP, what, broken, allowances.tail, Check.PROBABILITY));
    }
    if (poses == null && !buried) {
      add(
          checks,
          Limit.CLEARANCE,
          "rise of the ground between the axles",
          terrain.convexityM(),
          cell,
          ofSoil(limits.bellyM(t) - allowances.z * allowances.convexitySigmaM));
    }
    double rutM = ofSoil(limits.soft.sinkageM(t));
    if (rutM > 0 && limits.deepestM() < Double.POSITIVE_INFINITY) {
      String what = "sinkage straight up the slope against clearance and step";
      checks.add(new Check(Limit.SINKAGE, what, rutM, limits.deepestM(), "m"));
    }
    speedLost(checks, t);
    add(
        checks,
        Limit.ROUGHNESS,
        "roughness, where speed is down to crawl",
        terrain.roughnessM(),
        cell,
        limits.crawlRoughnessM);
    if (soilKnown && limits.bearing != null) {
      bearing(checks, limits.bearing);
    }
    return checks;
  }

  private void speedLost(List<Check> checks, double t) {
    SoftGround soft = limits.soft;
    if (soilKnown && soft.lossUse(t) > 0) {
      String what = "speed lost straight up the slope, where it is down to crawl";
      double lost = 100 * soft.allowedLoss() * soft.lossUse(t);
      checks.add(new Check(soft.taking(t), what, lost, 100 * soft.allowedLoss(), "%"));
    }
  }

  private void bearing(List<Check> checks, ConeBearing b) {
    boolean once = limits.vehicle().drive().passes() == 1;
    if (once) {
      checks.add(
          new Check(
              Limit.TRACTION,
              "vehicle cone index, one pass",
              b.once(),
              b.rating(),
              Check.CONE_INDEX));
    }
    checks.add(
        new Check(
            Limit.TRACTION,
            once ? "the same, 50 passes: slow where exceeded" : "vehicle cone index, 50 passes",
            b.often(),
            b.rating(),
            Check.CONE_INDEX));
  }

  private void add(
      List<Check> checks, Limit limit, String what, FloatGrid grid, int cell, double allowed) {
    if (!(allowed == Double.POSITIVE_INFINITY)) {
      checks.add(check(limit, what, grid.values()[cell], allowed, "m"));
    }
  }

  /** Creates a check over the baseline that the layer is measured over. */
  private Check check(Limit limit, String what, double got, double allowed, String unit) {
    boolean shown = judge.resolution.shows(limit);
    boolean decides = limit != Limit.ROUGHNESS || judge.resolution.roughnessDecides;
    return new Check(
        limit, what, got, allowed, unit, judge.resolution.lengthM(limit), shown, decides);
  }

  private OnHeading onHeading(int cell, int k, double ge, double gn) {
    boolean allowed = (judge.bits >>> k & 1) != 0;
    double grade = SlopeGeometry.grade(ge, gn, headings.east(k), headings.north(k));
    double cross = SlopeGeometry.cross(ge, gn, headings.east(k), headings.north(k));
    double slip = Double.NaN;
    double speed = Double.NaN;
    double energy = Double.NaN;
    boolean bySight = false;
    if (allowed) {
      slip = limits.model.slip(grade);
      double way = (judge.tackBits >>> k & 1) != 0 ? judge.tacks.pathRatio[k] : 1;
      speed = Math.min(judge.capMs, table.speedMs(grade)) / way;
      bySight = table.speedMs(grade) <= judge.capMs && limits.model.boundBySight(grade);
      energy =
          table.tractionJPerM(grade) + (way - 1) * table.tractionJPerM(0) + table.hotelW() / speed;
    }
    List<Check> checks = new ArrayList<>();
    if (poses != null) {
      grade = poses.grade(k);
      cross = poses.cross(k);
      if (!limits.buries(Math.sqrt(ge * ge + gn * gn))) {
        contact(checks, k);
      }
      double cellBroken = judge.cellSlopeBroken(Math.sqrt(ge * ge + gn * gn));
      probability(checks, grade, cross, Math.min(1, poses.slopesBroken(k) + cellBroken));
    } else if (limits.trough < Double.POSITIVE_INFINITY) {
      checks.add(
          check(
              Limit.APPROACH,
              "break in slope ahead",
              breakAheadDeg(cell, k, grade),
              SlopeGeometry.deg(limits.trough - allowances.z * allowances.troughSigma),
              "deg"));
    }
    if (poses == null) {
      probability(checks, grade, cross, judge.bounds.broken(grade, cross));
    }
    slopes(checks, grade, cross);
    return new OnHeading(
        headings.azimuthDeg(k),
        allowed,
        (judge.tackBits >>> k & 1) != 0,
        SlopeGeometry.deg(grade),
        SlopeGeometry.deg(cross),
        slip,
        speed,
        energy,
        bySight,
        checks);
  }

  /**
   * Adds a check of the joint probability of the slope limits, under the name of the nearest one.
   */
  private void probability(List<Check> checks, double grade, double cross, double broken) {
    if (allowances.known) {
      judge.bounds.at(Math.sqrt(grade * grade + cross * cross));
      Limit limit = judge.bounds.limit(grade, cross);
      checks.add(
          check(
              limit,
              "probability that a slope limit is broken",
              broken,
              allowances.tail,
              Check.PROBABILITY));
    }
  }

  private void contact(List<Check> checks, int k) {
    double bellyM = Math.max(0, poses.bellyGroundM(k));
    checks.add(
        new Check(
            Limit.CLEARANCE, "ground into the belly's clearance", bellyM, poses.bellyM(k), "m"));
    double endsM = poses.endsGroundM(k);
    if (endsM > Double.NEGATIVE_INFINITY) {
      checks.add(
          new Check(
              Limit.APPROACH,
              "ground into an overhang's clearance",
              Math.max(0, endsM),
              poses.bellyM(k),
              "m"));
    }
    if (limits.stepM < Double.POSITIVE_INFINITY) {
      checks.add(
          new Check(
              Limit.STEP, "wheel off the wheels' plane", poses.offPlaneM(k), poses.stepM(k), "m"));
    }
  }

  private void slopes(List<Check> checks, double grade, double cross) {
    if (grade >= 0) {
      angle(checks, Limit.CLIMB, "climb", grade, limits.climb);
      angle(checks, Limit.SIGHT, "climb that it stops on within sight", grade, limits.stoppedUp);
    } else {
      angle(checks, Limit.DESCEND, "descent", -grade, limits.ratedDescend);
      angle(checks, Limit.SIGHT, "descent that it stops on within sight", -grade, limits.stopped);
    }
    angle(checks, Limit.SIDE, "side slope", Math.abs(cross), limits.side);
    if (limits.tip.known()) {
      double slope = Math.sqrt(grade * grade + cross * cross);
      double share = limits.tip.use(grade, cross);
      // On level ground the tipping slope is that of the heading on which it tips first.
      double tipDeg = SlopeGeometry.deg(share > 0 ? slope / share : limits.tip.least());
      checks.add(
          check(
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
    double held = limits.circle.up(Math.sqrt(grade * grade + cross * cross));
    angle(checks, Limit.TRACTION, "grade that grip leaves beside the side slope", grade, held);
    angle(checks, Limit.POWER, "grade at crawl speed by power", grade, limits.power);
  }

  private void angle(List<Check> checks, Limit limit, String what, double got, double allowed) {
    if (allowed < Double.POSITIVE_INFINITY) {
      checks.add(check(limit, what, SlopeGeometry.deg(got), SlopeGeometry.deg(allowed), "deg"));
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
