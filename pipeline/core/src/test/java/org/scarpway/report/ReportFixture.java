package org.scarpway.report;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;
import org.scarpway.audit.Finding;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.ShownHazard;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachByBudget;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.StepCodes;
import org.scarpway.reach.question.WhyNot;
import org.scarpway.site.LandingEllipse;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.OptionalDerivatives;
import org.scarpway.terrain.ShownTerrain;
import org.scarpway.vehicle.ClassCells;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.SlowCause;
import org.scarpway.vehicle.SlowGround;
import org.scarpway.vehicle.Unresolved;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** Made-up results on made-up ground: plausible to the eye, right in no other sense. */
final class ReportFixture {
  /** Draw the reports of all tests; they keep nothing between runs. */
  static final Workers WORKERS = new Workers(2);

  static final String UNRESOLVED = "Roughness not resolved by the cells on 61.5 % of the ground";

  private static final int SIDE = 256;
  private static final double CELL_M = 12;

  final GridSpec spec = new GridSpec(SIDE - 40, SIDE, CELL_M, CELL_M, 14_200, -3_900, "");
  private final int n = spec.cells();
  private final float[] height = new float[n];
  private final float[] east = new float[n];
  private final float[] north = new float[n];
  private final float[] slope = new float[n];
  private final double baseX = 15_000;
  private final double baseY = -5_500;
  private final String baseName;

  private ReportFixture(String baseName) {
    this.baseName = baseName;
    ground();
  }

  private double maxMb = 25;
  private List<String> stepped =
      List.of(ReportData.ReachCells.OUT_STEP, ReportData.ReachCells.HOME_STEP);

  /** The full page with some rasters of steps only. */
  static ReportData stepped(List<String> rasters) {
    ReportFixture f = new ReportFixture("alpha");
    f.stepped = rasters;
    return f.data(List.of(f.mobility()), List.of(f.reach()), List.of(f.corridor()));
  }

  /** The full page with a size that it should not exceed (MB). */
  static ReportData of(double maxMb) {
    ReportFixture f = new ReportFixture("alpha");
    f.maxMb = maxMb;
    return f.data(List.of(f.mobility()), List.of(f.reach()), List.of(f.corridor()));
  }

  static ReportData full() {
    return full("alpha");
  }

  static ReportData full(String baseName) {
    ReportFixture f = new ReportFixture(baseName);
    return f.data(List.of(f.mobility()), List.of(f.reach()), List.of(f.corridor()));
  }

  /** A job that asks nothing but slope. */
  static ReportData bare() {
    ReportFixture f = new ReportFixture("alpha");
    ReportData d = f.data(List.of(), List.of(), List.of());
    return new ReportData(
        new ReportData.Facts(
            "bare", "unknown", "test", "0", "run", List.of(), null, "", 25, false, true),
        d.dem(),
        d.terrain(),
        null,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        LonLat.NONE,
        List.of(),
        OptionalDerivatives.NONE,
        f.cells(),
        Map.of(),
        Map.of(),
        KeepOutAreas.NONE,
        Map.of());
  }

  private ReportData data(
      List<ShownMobility> mobility, List<ReachResult> reaches, List<CorridorResult> corridors) {
    return new ReportData(
        new ReportData.Facts(
            "quiet-bench",
            "Polar stereographic, south, sphere of 1737.4 km",
            "Scarpway 0.1.0",
            "5f0c9d5fb7a2e5b40d4cbf38a77cb2a3f3f0a6c1d2b3e4958677f6e5d4c3b2a1",
            "scarpway run configs/jobs/quiet-bench.yaml",
            List.of(
                "quiet-bench.tif 9a41c0ffee9a41c0ffee9a41c0ffee9a41c0ffee9a41c0ffee9a41c0ffee9a41"),
            0.4,
            "Steps and roughness at the scale of the wheels are estimated from coarser scales.",
            maxMb,
            false,
            true),
        new Dem(grid(height), 0, Body.MOON, List.of("vertical unit not named, taken as metres")),
        new ShownTerrain(grid(slope), grid(east), grid(north), null, List.of()),
        hazard(),
        mobility,
        reaches,
        corridors,
        reaches.isEmpty() ? List.of() : List.of(sortie()),
        List.of(),
        List.of(
            new ReportData.Place(baseName, baseX, baseY, ReportData.Kind.BASE),
            new ReportData.Place(
                "bravo",
                16_700,
                -4_300,
                ReportData.Kind.CANDIDATE,
                new LandingEllipse(16_700, -4_300, 1200, 500, 20, 104.4)),
            new ReportData.Place("Rim overlook", 16_450, -5_050, ReportData.Kind.TARGET),
            new ReportData.Place("Dark patch", 15_500, -4_500, ReportData.Kind.TARGET),
            new ReportData.Place("Boulder field", 14_450, -6_200, ReportData.Kind.TARGET)),
        List.of(
            new ReportData.Table(
                "Ranking of candidate sites",
                "alpha ranks first: it reaches more of the weighted targets and hangs on no single gap.",
                List.of(
                    "site", "score", "area reachable (km²)", "targets", "no hazard in ellipse (%)"),
                List.of(
                    List.of("alpha", "0.81", "3.21", "2 of 3", "93"),
                    List.of("bravo", "0.64", "2.40", "1 of 3", "88")),
                null,
                new ReportData.Contributions(
                    List.of("area surely reached", "targets", "no hazard in ellipse"),
                    List.of(0.5, 0.25, 0.25),
                    List.of(
                        new ReportData.Site("alpha", 0.75, List.of(0.5, 0.25, 0.0)),
                        new ReportData.Site("bravo", 0.25, List.of(0.0, 0.0, 0.25)))))),
        List.of("the rock model is uniform over the window"),
        List.of(
            new ReportData.Source("slope and aspect", "Horn 1981, Proc. IEEE 69(1):14-47"),
            new ReportData.Source(
                "rock size and frequency", "Golombek and Rapp 1997, JGR 102(E2):4117-4129")),
        List.of(
            new ReportData.Setting("terrain.slope", "horn", "default"),
            new ReportData.Setting("hazard.margin_m", "10", "quiet-bench.yaml:14:5")),
        (x, y) ->
            new double[] {
              Math.toDegrees(Math.atan2(x, y)),
              -90 + Math.toDegrees(2 * Math.atan(Math.hypot(x, y) / (2 * 1_737_400.0)))
            },
        List.of(),
        OptionalDerivatives.NONE,
        cells(),
        Map.of(),
        Map.of(),
        keepOuts(),
        Map.of());
  }

  private FloatGrid grid(float[] v) {
    return new FloatGrid(spec, v);
  }

  private void ground() {
    Random random = new Random(7);
    double[] phase = random.doubles(60, 0, 6.28).toArray();
    for (int r = 0; r < spec.rows(); r++) {
      for (int c = 0; c < spec.cols(); c++) {
        double h = 0;
        for (int k = 0; k < 20; k++) {
          double f = 0.02 * Math.pow(1.28, k);
          double a = phase[3 * k + 1];
          h +=
              9
                  / Math.pow(1.28, 0.95 * k)
                  * Math.sin(f * (c * Math.cos(a) + r * Math.sin(a)) + phase[3 * k]);
        }
        double d = Math.hypot(c - 170, r - 110);
        h -= 70 * Math.exp(-d * d / 500) - 26 * Math.exp(-(d - 34) * (d - 34) / 60);
        double scarp = r - 60 - 8 * Math.sin(c / 25.0);
        boolean gap = Math.abs(c - 90) < 9;
        h += (gap ? 12 : 34) / (1 + Math.exp(scarp / (gap ? 9 : 2.2)));
        height[r * spec.cols() + c] = (float) h;
      }
    }
    for (int r = 0; r < 30; r++) {
      for (int c = spec.cols() - 34 + r; c < spec.cols(); c++) {
        height[r * spec.cols() + c] = Float.NaN;
      }
    }
    for (int r = 0; r < spec.rows(); r++) {
      for (int c = 0; c < spec.cols(); c++) {
        int i = r * spec.cols() + c;
        boolean rim = r == 0 || c == 0 || r == spec.rows() - 1 || c == spec.cols() - 1;
        east[i] = rim ? Float.NaN : (float) ((height[i + 1] - height[i - 1]) / (2 * CELL_M));
        north[i] =
            rim
                ? Float.NaN
                : (float) ((height[i - spec.cols()] - height[i + spec.cols()]) / (2 * CELL_M));
        slope[i] = (float) Math.toDegrees(Math.atan(Math.hypot(east[i], north[i])));
      }
    }
  }

  private ShownHazard hazard() {
    float[] h = new float[n];
    byte[] causes = new byte[n];
    for (int i = 0; i < n; i++) {
      h[i] = Float.isNaN(slope[i]) ? Float.NaN : Math.min(1, slope[i] / 20);
      causes[i] =
          (byte)
              (Float.isNaN(height[i])
                  ? Hazard.Cause.VOID.bit()
                  : slope[i] > 15 ? Hazard.Cause.SLOPE.bit() : 0);
    }
    var keepOut =
        new GeometryFactory()
            .createPolygon(
                new Coordinate[] {
                  new Coordinate(16_200, -5_900),
                  new Coordinate(16_600, -5_850),
                  new Coordinate(16_500, -6_250),
                  new Coordinate(16_200, -5_900)
                });
    return new ShownHazard(grid(h), new ByteGrid(spec, causes), () -> keepOut, List.of());
  }

  /** A triangle with a hole, and two squares that are one area. */
  private static KeepOutAreas keepOuts() {
    try {
      WKTReader wkt = new WKTReader();
      return new KeepOutAreas(
          25,
          List.of(
              new KeepOutAreas.Area(
                  "'Soft pan' (sinkage)",
                  wkt.read(
                      "POLYGON ((16200 -5900, 16600 -5850, 16500 -6250, 16200 -5900),"
                          + " (16400 -5950, 16450 -5950, 16440 -6010, 16400 -5950))")),
              new KeepOutAreas.Area(
                  "area 2 of areas.geojson",
                  wkt.read(
                      "MULTIPOLYGON (((15000.123 -4800, 15100 -4800, 15100 -4900, 15000.123 -4800)),"
                          + " ((15150 -4800, 15190 -4790, 15200 -4870, 15150 -4800)))"))));
    } catch (ParseException e) {
      throw new IllegalStateException(e);
    }
  }

  private ShownMobility mobility() {
    byte[] cls = new byte[n];
    byte[] limit = new byte[n];
    float[] headings = new float[n];
    float[] speed = new float[n];
    for (int i = 0; i < n; i++) {
      boolean none = Float.isNaN(slope[i]);
      cls[i] =
          none ? 0 : slope[i] > 15 ? Mobility.NO_GO : slope[i] > 9 ? Mobility.SLOW : Mobility.GO;
      Limit l = slope[i] > 20 ? Limit.CLIMB : slope[i] > 15 ? Limit.SIDE : Limit.ROCKS;
      limit[i] = none ? Limit.VOID.code() : slope[i] > 9 ? l.code() : 0;
      headings[i] = none ? Float.NaN : Math.max(0, Math.min(100, 180 - 12 * slope[i]));
      speed[i] = none || slope[i] > 15 ? Float.NaN : 4.2f - 0.22f * slope[i];
    }
    long slow = 0;
    for (byte c : cls) {
      slow += c == Mobility.SLOW ? 1 : 0;
    }
    List<Long> by = new ArrayList<>(Collections.nCopies(SlowCause.values().length, 0L));
    by.set(SlowCause.SLOPE.ordinal(), slow);
    by.set(SlowCause.ROUGHNESS.ordinal(), slow / 3);
    Vehicle v =
        new Vehicle(
            "hauler",
            "invented two-crew rover",
            4200.0,
            new Vehicle.Chassis(4.6, 3.2, 0.42, 0.4, 0.4, 1.3),
            VehicleParts.wheels(List.of(1.7, 0.0, -1.7), 2.6, 0.45, 0.35),
            new Vehicle.Limits(20.0, 20.0, 15.0, 0.3, 5.0),
            VehicleParts.slowFrom(9.0, 0.15, 0.1),
            VehicleParts.drive(4.2, 0.8, 9000.0, 0.65, 0.2, 1800.0, 0.12),
            null,
            160.0,
            VehicleParts.crew(2, 4, 72.0));
    ClassCells.Tally cells = new ClassCells.Tally();
    cells.add(cls, limit, 0, n);
    return new ShownMobility(
        v,
        new ByteGrid(spec, cls),
        new ByteGrid(spec, limit),
        grid(headings),
        grid(speed),
        Optional.empty(),
        new Unresolved(List.of(Limit.ROUGHNESS), 61.5, 0, UNRESOLVED),
        new SlowGround(slow, by),
        cells.cells(spec.cellAreaM2()),
        List.of());
  }

  private ReportData.ReachCells cells() {
    return new ReportData.ReachCells() {
      @Override
      public FloatGrid floats(String reach, String raster) {
        return reachCells(reach, raster);
      }

      @Override
      public ByteGrid steps(String reach, String raster) {
        return stepped.contains(raster) ? ReportFixture.this.steps() : null;
      }
    };
  }

  /** Steps straight to the base, one neighbour at a time and two cells where that is left. */
  private ByteGrid steps() {
    byte[] codes = new byte[n];
    int base = spec.cellOf(baseX, baseY);
    for (int i = 0; i < n; i++) {
      double least = Double.POSITIVE_INFINITY;
      codes[i] = i == base ? (byte) StepCodes.SOURCE : i % 97 == 5 ? (byte) StepCodes.STRAIGHT : 0;
      for (int code = 1; code <= StepCodes.CELLS && codes[i] < StepCodes.SOURCE; code++) {
        int row = i / spec.cols() + StepCodes.rows(code);
        int col = i % spec.cols() + StepCodes.cols(code);
        double d = Math.hypot(row - base / spec.cols(), col - base % spec.cols());
        if (spec.holds(row, col) && d < least) {
          least = d;
          codes[i] = (byte) code;
        }
      }
    }
    return new ByteGrid(spec, codes);
  }

  /** Times and energies that grow with the distance from the base, where the slope allows. */
  FloatGrid reachCells(String question, String raster) {
    float[] v = new float[n];
    double perM =
        switch (raster) {
          case ReportData.ReachCells.OUT_TIME -> 1.31;
          case ReportData.ReachCells.HOME_TIME -> 1.47;
          case ReportData.ReachCells.OUT_ENERGY -> 7123;
          case ReportData.ReachCells.WAY_ENERGY -> 7654;
          case ReportData.ReachCells.WAY_HOME_ENERGY -> 8432;
          default -> 0;
        };
    if (perM == 0) {
      return null;
    }
    for (int i = 0; i < n; i++) {
      double x = spec.xM(i % spec.cols()) - baseX;
      double y = spec.yM(i / spec.cols()) - baseY;
      boolean open = slope[i] <= 15;
      v[i] = open ? (float) (perM * Math.hypot(x, y) + 0.37 * (i % 7)) : Float.NaN;
    }
    return grid(v);
  }

  private ReachResult reach() {
    byte[] state = new byte[n];
    byte[] band = new byte[n];
    byte[] end = new byte[n];
    float[] gap = new float[n];
    double[] inside = new double[3];
    double[] stateKm2 = new double[3];
    for (int r = 0; r < spec.rows(); r++) {
      for (int c = 0; c < spec.cols(); c++) {
        int i = r * spec.cols() + c;
        double d = Math.hypot(spec.xM(c) - baseX, spec.yM(r) - baseY) * (1 + 0.02 * height[i] / 10);
        gap[i] = Float.NaN;
        if (Float.isNaN(slope[i]) || slope[i] > 15) {
          end[i] = ReachEnd.NO_GO.code();
        } else if (d > 1700) {
          end[i] = d > 2000 ? ReachEnd.ENERGY.code() : ReachEnd.TIME.code();
        } else {
          state[i] = d > 1500 ? ReachState.POSSIBLY : ReachState.SURELY;
          band[i] = (byte) (d < 600 ? 1 : d < 1100 ? 2 : 3);
          gap[i] = (float) (400 - d / 5);
          stateKm2[state[i]] += spec.cellAreaM2() / 1e6;
          for (int k = band[i]; k <= 3; k++) {
            inside[k - 1] += spec.cellAreaM2();
          }
        }
      }
    }
    ReachRequest request =
        Fields.request(
            "day-trip",
            baseName,
            baseX,
            baseY,
            new ReachRequest.Budget(21_600.0, 60 * 3.6e6, null),
            ReachRequest.HomeRule.DRIVE_BACK,
            List.of(
                new ReachRequest.Band("1h", ReachRequest.Quantity.TIME_S, 3600),
                new ReachRequest.Band("2h", ReachRequest.Quantity.TIME_S, 7200),
                new ReachRequest.Band("4h", ReachRequest.Quantity.TIME_S, 14400)),
            1800,
            false);
    double nan = Double.NaN;
    return new ReachResult(
        request,
        "hauler",
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        new ByteGrid(spec, state),
        new ByteGrid(spec, end),
        grid(gap),
        new ByteGrid(spec, band),
        List.of(inside[0], inside[1], inside[2]),
        byBudget(1e6 * stateKm2[ReachState.SURELY], 1e6 * stateKm2[ReachState.POSSIBLY]),
        List.of(
            new ReachResult.TargetReach(
                new ReachRequest.Target("Dark patch", 15_500, -4_500, 2, 1800, 1),
                true,
                4210,
                4555,
                10_565,
                8.1e7,
                2310,
                11_035,
                1.35e8,
                2.1e5,
                "",
                null),
            new ReachResult.TargetReach(
                new ReachRequest.Target("Boulder field", 14_450, -6_200, 1, 1800, 1),
                true,
                2100,
                2300,
                6200,
                4.4e7,
                1210,
                15_400,
                1.72e8,
                2.2e5,
                "",
                null),
            new ReachResult.TargetReach(
                new ReachRequest.Target("Rim overlook", 16_450, -5_050, 3, 1800, 1),
                false,
                nan,
                nan,
                nan,
                nan,
                nan,
                nan,
                nan,
                nan,
                "no-go ground",
                new WhyNot(
                    List.of(),
                    new WhyNot.Nearest(16_300, -5_000, 158, 288),
                    new WhyNot.Crossing(16_310, -5_010, 140, List.of("climb slope"), List.of(1, 2)),
                    List.of(),
                    nan,
                    false,
                    ""))),
        List.of(new ReachResult.PinchPoint(15_000, -5_000, 42, 3.1e6, 24, List.of("Dark patch"))),
        List.of(
            new ReachFigure("surely reachable area", stateKm2[ReachState.SURELY], "km2"),
            new ReachFigure(
                "possibly reachable area, undecided", stateKm2[ReachState.POSSIBLY], "km2"),
            new ReachFigure("furthest reachable cell", 1.68, "km")),
        List.of(
            new Finding(
                "Dark patch",
                15_500,
                -4_500,
                10_565,
                8.1e7,
                2310,
                12.5,
                "time",
                9000,
                15_000,
                -4_800,
                "home",
                2,
                "")),
        List.of());
  }

  private static List<ReachByBudget> byBudget(double surelyM2, double possiblyM2) {
    List<Double> surely = new ArrayList<>();
    List<Double> most = new ArrayList<>();
    for (int k = 1; k <= 20; k++) {
      surely.add(surelyM2 * k * k / 400);
      most.add((surelyM2 + possiblyM2) * k * k / 400 * (1.5 - k / 40.0));
    }
    return List.of(
        new ReachByBudget(ReachRequest.Quantity.TIME_S, 21_600, 10, surely, most),
        new ReachByBudget(ReachRequest.Quantity.ENERGY_J, 60 * 3.6e6, 10, surely, most));
  }

  private List<ProfilePoint> way(double bend) {
    List<ProfilePoint> line = new ArrayList<>();
    double s = 0;
    double px = baseX;
    double py = baseY;
    for (int k = 0; k <= 240; k++) {
      double t = k / 240.0;
      double x = baseX + 1700 * t + bend * Math.sin(Math.PI * t);
      double y = baseY + 1200 * t - bend * Math.sin(Math.PI * t) + 40 * Math.sin(9 * t);
      s += Math.hypot(x - px, y - py);
      int i = Math.max(0, spec.cellOf(x, y));
      line.add(
          new ProfilePoint(
              s,
              x,
              y,
              height[i],
              Math.toDegrees(Math.atan(0.8 * east[i] + 0.6 * north[i])),
              Math.toDegrees(Math.atan(0.6 * east[i] - 0.8 * north[i])),
              Math.max(0.8, 4.2 - 0.22 * slope[i]),
              s / 3,
              s * 9000,
              Math.max(0.02, 1 - slope[i] / 15),
              Math.max(0.8, 4.2 - 0.2 * slope[i])));
      px = x;
      py = y;
    }
    return line;
  }

  /** Two days about the base, with a stop and a night between. */
  private SortieData sortie() {
    byte[] day = new byte[n];
    byte[] state = new byte[n];
    for (int i = 0; i < n; i++) {
      double d = Math.hypot(spec.xM(i % spec.cols()) - baseX, spec.yM(i / spec.cols()) - baseY);
      boolean in = d < 1800 && slope[i] <= 15;
      day[i] = (byte) (in ? d < 900 ? 1 : 2 : 0);
      state[i] = (byte) (in ? d < 1500 ? 1 : 2 : 0);
    }
    DayRingsRequest request =
        new DayRingsRequest(
            "long-loop",
            baseName,
            baseX,
            baseY,
            2,
            25_200,
            5e8,
            0,
            2e5,
            ReachRequest.HomeRule.DRIVE_BACK,
            new Rescue(0, 0, 0, 0),
            null);
    DayRings rings =
        new DayRings(
            request,
            "hauler",
            new ByteGrid(spec, day),
            new ByteGrid(spec, state),
            null,
            List.of(2.4e6, 6.1e6),
            1.2e6,
            List.of(0.0, 340.0),
            List.of());
    double noon = 3600;
    double dawn = 86_400;
    return new SortieData(
        rings,
        new SortieAnswer(
            true,
            3,
            5,
            true,
            0,
            new SortieAnswer.Supply(2, 36_000, 32_400, 25_200, 4, 5.76e8, 5.76e7, 2.6e5, 2.6e4),
            List.of(
                step(1, 0, noon, SortieAnswer.Told.DRIVE, baseName, "Dark patch", 5.6e8, "battery"),
                step(1, noon, 9000, SortieAnswer.Told.WALK, "Dark patch", "Dark patch", 5.5e8, ""),
                step(1, 9000, dawn, SortieAnswer.Told.NIGHT, "Dark patch", "Dark patch", 4.1e8, ""),
                step(
                    2,
                    dawn,
                    dawn + noon,
                    SortieAnswer.Told.DRIVE,
                    "Dark patch",
                    baseName,
                    4e8,
                    "")),
            List.of(
                new SortieAnswer.Stop("Dark patch", 15_500, -4_500, 3, true, 1, noon, 5400, 1, ""),
                new SortieAnswer.Stop(
                    "Boulder field", 14_450, -6_200, 2, false, 0, Double.NaN, 5400, 1, "too far")),
            List.of(
                new SortieAnswer.Way(
                    1,
                    baseName,
                    "Dark patch",
                    1900,
                    noon,
                    1.6e7,
                    List.of(
                        new SortieAnswer.Point(baseX, baseY),
                        new SortieAnswer.Point(15_500, -4_500)))),
            List.of("One day more would bring nothing more."),
            List.of()));
  }

  private static SortieAnswer.Step step(
      int day,
      double fromS,
      double toS,
      SortieAnswer.Told act,
      String from,
      String to,
      double batteryJ,
      String binds) {
    return new SortieAnswer.Step(
        day, fromS, toS, act, from, to, 0, 0, 1900, 1e7, batteryJ, batteryJ, 2.6e5 - toS, 1, binds);
  }

  private CorridorResult corridor() {
    List<ProfilePoint> line = way(-500);
    List<ProfilePoint> other = way(300);
    float[] excess = new float[n];
    for (int r = 0; r < spec.rows(); r++) {
      for (int c = 0; c < spec.cols(); c++) {
        int i = r * spec.cols() + c;
        double near = Double.POSITIVE_INFINITY;
        for (ProfilePoint p : line) {
          double dx = p.xM() - spec.xM(c);
          double dy = p.yM() - spec.yM(r);
          near = Math.min(near, dx * dx + dy * dy);
        }
        excess[i] =
            slope[i] > 15 || Float.isNaN(slope[i]) ? Float.NaN : (float) (Math.sqrt(near) / 30);
      }
    }
    ProfilePoint end = line.get(line.size() - 1);
    return new CorridorResult(
        Questions.corridor(
            "to-rim",
            List.of(
                Questions.stop(baseName, baseX, baseY), Questions.stop("bravo", 16_700, -4_300)),
            CorridorRequest.Cost.TIME,
            List.of(2.0, 5.0, 10.0),
            1),
        "hauler",
        grid(excess),
        end.timeS(),
        List.of(
            Questions.visit(baseName, baseX, baseY, 0, 0, 0),
            Questions.visit("bravo", 16_700, -4_300, end.timeS(), end.energyJ(), end.distanceM())),
        null,
        line,
        null,
        List.of(
            new CorridorResult.PinchPoint(
                line.get(90).xM(), line.get(90).yM(), 36, line.get(90).distanceM(), 0),
            new CorridorResult.PinchPoint(
                line.get(180).xM(), line.get(180).yM(), 84, line.get(180).distanceM(), 2e6)),
        300,
        List.of(
            new CorridorResult.Alternative(
                1,
                end.timeS() * 1.06,
                end.energyJ() * 1.02,
                end.energyJ() * 1.02,
                end.distanceM() * 1.05,
                6.1,
                12,
                other)),
        List.of(),
        List.of("the centreline needs 3.1 kWh; 2.7 may be planned of the battery"),
        List.of("the stop bravo was moved 8 m to the centre of its cell"));
  }
}
