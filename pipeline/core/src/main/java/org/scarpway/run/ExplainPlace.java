package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.RockBody;
import org.scarpway.hazard.RockModel;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.unit.PlaceGround;
import org.scarpway.run.unit.ReachAnswers;
import org.scarpway.run.unit.ReachProducts;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.RileyRuggedness;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainLayers;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.RampAngles;
import org.scarpway.vehicle.Slip;
import org.scarpway.vehicle.Vehicle;

/**
 * Prints everything known about one place: derivatives, each limit with the measured and the
 * allowed value, and the reach answers.
 */
public final class ExplainPlace {
  private final Job job;
  private final RasterIo io;
  private final PrintStream out;

  private ExplainPlace(Job job, RasterIo io, PrintStream out) {
    this.job = job;
    this.io = io;
    this.out = out;
  }

  /** Where the place is, once the job is open. */
  private interface Place {
    double[] xy(OpenJob open);
  }

  /**
   * @param vehicle name, or null for every vehicle of the job
   * @param runs output folder of earlier runs; reach is reported from finished products there
   */
  public static void explain(
      Path jobFile,
      Map<String, String> overrides,
      double x,
      double y,
      boolean lonLat,
      String vehicle,
      Path runs,
      PrintStream out) {
    explain(jobFile, overrides, open -> inside(open, x, y, lonLat), vehicle, runs, out);
  }

  /**
   * @param name of a base or target of the job, which candidates and stops are too
   */
  public static void explain(
      Path jobFile,
      Map<String, String> overrides,
      String name,
      String vehicle,
      Path runs,
      PrintStream out) {
    explain(
        jobFile,
        overrides,
        open -> {
          Places.Spot spot = open.places().stop(name, "place");
          return new double[] {spot.xM(), spot.yM()};
        },
        vehicle,
        runs,
        out);
  }

  private static void explain(
      Path jobFile,
      Map<String, String> overrides,
      Place place,
      String vehicle,
      Path runs,
      PrintStream out) {
    Job job = JobReader.read(jobFile, overrides);
    List<Vehicle> asked =
        job.vehicles().stream().filter(v -> vehicle == null || v.name().equals(vehicle)).toList();
    if (asked.isEmpty()) {
      throw UserError.of(
          "--vehicle",
          "the job has no vehicle '" + vehicle + "'",
          "one of " + String.join(", ", job.vehicles().stream().map(Vehicle::name).toList()),
          "name one of them");
    }
    new ExplainPlace(job, RasterIos.best(), out).at(place, asked, runs);
  }

  private static double[] inside(OpenJob open, double x, double y, boolean lonLat) {
    PlaceFrame frame = open.stages().frame();
    double[] xy = frame.toGrid(x, y, lonLat, "place");
    if (!frame.holds(xy)) {
      throw UserError.of(
          "place",
          PlaceFrame.text(x, y, lonLat) + " lies outside the elevation model",
          frame.range(lonLat),
          "give a place inside");
    }
    return xy;
  }

  /** The answers come first; what they rest on follows. */
  private void at(Place place, List<Vehicle> vehicles, Path runs) {
    try (Workers workers = new Workers(Runtime.getRuntime().availableProcessors())) {
      FileDigests files = new FileDigests();
      OpenJob open = OpenJob.open(job, io, files, workers, Progress.NONE);
      GridSpec spec = open.spec();
      double[] xy = place.xy(open);
      int cell = spec.cellOf(xy[0], xy[1]);
      PlaceGround ground = new PlaceGround(open);
      PlaceGround.Here here = ground.at(xy[0], xy[1]);
      place(here.heightM(), spec, cell, open.stages().frame());
      KeepOutLines.of(open, xy[0], xy[1]).forEach(text -> line("keep-out", "%s", text));
      reach(open, vehicles, runs.resolve(job.name()), cell, ground);
      out.println();
      ground(here.layers(), here.cell());
      double rocks = ground.rockCoverage(here);
      for (Vehicle v : vehicles) {
        vehicle(v, ground.explain(here, v), rocks);
      }
      if (job.walker() != null) {
        OnFootLines.of(job.walker().name(), ground.onFoot(here)).forEach(out::println);
      }
    }
  }

  private void place(double heightM, GridSpec spec, int cell, PlaceFrame frame) {
    int row = cell / spec.cols();
    int col = cell % spec.cols();
    line(
        "place",
        "row %d, column %d, centre x %.2f m, y %.2f m",
        row,
        col,
        spec.xM(col),
        spec.yM(row));
    double[] own = frame.toRaster(spec.xM(col), spec.yM(row));
    if (own[0] != spec.xM(col) || own[1] != spec.yM(row)) {
      line("", "%s in the raster's own system", PlaceFrame.text(own[0], own[1], false));
    }
    if (frame.world().known()) {
      double[] lonLat = frame.world().toLonLat(spec.xM(col), spec.yM(row));
      line("", "longitude %.6f deg, latitude %.6f deg", lonLat[0], lonLat[1]);
    }
    line(
        "height",
        Double.isNaN(heightM) ? "no elevation" : String.format(Locale.ROOT, "%.3f m", heightM));
  }

  private void ground(TerrainLayers layers, int i) {
    Terrain t = layers.terrain();
    value("slope", t.slopeDeg(), i, "deg");
    value("aspect", layers.aspectDeg(), i, "deg, downslope clockwise from grid north");
    value("roughness", t.roughnessM(), i, "m");
    value("step", t.stepM(), i, "m");
    double cellM = t.slopeDeg().spec().cellM();
    String riley =
        cellM >= RileyRuggedness.CLASSES_FROM_M
            ? ", " + RileyRuggedness.className(layers.ruggednessM().values()[i])
            : "";
    value("ruggedness", layers.ruggednessM(), i, "m" + riley);
    value("convexity", t.convexityM(), i, "m");
    layers.errors().ifPresent(e -> value("slope sigma", e.slopeDeg(), i, "deg"));
    layers.errors().ifPresent(e -> value("aspect sigma", e.aspectDeg(), i, "deg"));
  }

  private void value(String name, FloatGrid grid, int i, String unit) {
    value(name, grid.values()[i], unit);
  }

  private void value(String name, float v, String unit) {
    line(name, Float.isNaN(v) ? "none" : String.format(Locale.ROOT, "%.4g %s", v, unit));
  }

  private void vehicle(Vehicle v, CellMobility m, double measuredRocks) {
    boolean assumed = Double.isNaN(measuredRocks) && job.hazard().rockNoData() != null;
    double rockCoverage = assumed ? job.hazard().rockNoData() : measuredRocks;
    out.println();
    line(
        v.name(),
        "%s%s",
        className(m.cls()),
        m.headings().isEmpty()
            ? ": " + (m.binding() == null ? Limit.VOID : m.binding()).label()
            : String.format(
                Locale.ROOT,
                ", %s, margin %.2f, %.0f %% of headings allowed",
                m.binding() == null ? "no limit binds" : m.binding().label() + " binds",
                m.margin01(),
                m.headingsPct()));
    if (v.wheels() != null) {
      double clearanceM = v.body().clearanceM();
      double gapM = v.wheels().widestGapM();
      out.printf(
          Locale.ROOT,
          "  body: ramp breakover %.1f deg, belly grounds on round crests of less than %.2f m%n",
          RampAngles.breakoverDeg(clearanceM, gapM, v.wheels().radiusM()),
          RampAngles.crestRadiusM(clearanceM, gapM));
    }
    out.printf(
        Locale.ROOT,
        "  soil: %s%s%s%s%n",
        m.soil() == null
            ? "none, rolling coefficient"
            : Double.isNaN(m.slip()) ? m.soil() + ", nor sinkage, slip and pull on it" : m.soil(),
        m.sinkageM() > 0
            ? String.format(
                Locale.ROOT, ", deepest wheel sinks %.3f m straight up the slope", m.sinkageM())
            : "",
        m.slip() > 0 ? String.format(Locale.ROOT, ", slips %.0f %% there", 100 * m.slip()) : "",
        Double.isFinite(m.pullN())
            ? String.format(
                Locale.ROOT, ", drawbar pull %.0f N at %.0f %% slip", m.pullN(), 100 * Slip.USABLE)
            : "");
    if (rockCoverage > 0) {
      rocks(v, RockModel.of(job.hazard().rockCounts(), rockCoverage), rockCoverage, assumed);
    }
    for (CellMobility.Check c : m.checks()) {
      out.println(CheckLines.of(c, ""));
    }
    for (CellMobility.Tightest t : m.tightest()) {
      String where = String.format(Locale.ROOT, ", tightest on heading %.0f deg", t.azimuthDeg());
      out.println(CheckLines.of(t.check(), where));
    }
    out.printf(
        Locale.ROOT,
        "  %8s %8s %8s %8s %8s %8s %8s  %s%n",
        "heading",
        "allowed",
        "grade",
        "cross",
        "slip",
        "speed",
        "energy",
        "exceeded");
    out.printf(
        Locale.ROOT, "  %8s %8s %8s %8s %8s %8s %8s%n", "deg", "", "deg", "deg", "%", "m/s", "J/m");
    for (CellMobility.OnHeading h : m.headings()) {
      out.printf(
          Locale.ROOT,
          "  %8.1f %8s %8s %8s %8s %8s %8s  %s%n",
          h.azimuthDeg(),
          h.byTacks() ? "tacks" : h.allowed() ? "yes" : "no",
          orDash("%.2f", h.gradeDeg()),
          orDash("%.2f", h.crossDeg()),
          orDash("%.1f", 100 * h.slip()),
          orDash("%.2f", h.speedMs()),
          orDash("%.0f", h.energyJm()),
          exceeded(m, h));
    }
  }

  /** Formats a value, or a dash for NaN: closed headings have no slip, speed or energy. */
  private static String orDash(String format, double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, format, value) : "-";
  }

  private static String exceeded(CellMobility m, CellMobility.OnHeading h) {
    String over =
        String.join("; ", m.exceeded(h).stream().map(CheckLines::exceeded).distinct().toList());
    if (over.isEmpty() && h.bySight()) {
      return "(speed by " + Limit.SIGHT.label() + ")";
    }
    return over.isEmpty() && !h.allowed() && m.binding() != null ? m.binding().label() : over;
  }

  private void rocks(Vehicle v, RockModel model, double coverage, boolean assumed) {
    RockBody body = FleetEnvelope.of(job, List.of(v)).rocks();
    double diameterM = RockBody.blockingDiameterM(Math.min(body.bellyM(), body.wheelM()));
    out.printf(
        Locale.ROOT,
        "  rocks: %.3g %% of the ground%s; those that stop wheels or belly, %.2f m or more, one in"
            + " %.3g m driven, at least one in 100 m2 with probability %.3g%n",
        100 * coverage,
        assumed ? ", assumed (hazard.rock_no_data): the raster has no data here" : "",
        diameterM,
        1 / model.hitsPerM(body),
        model.probabilityIn(100, diameterM));
  }

  private void reach(
      OpenJob open, List<Vehicle> vehicles, Path jobFolder, int cell, PlaceGround ground) {
    try (ReachAnswers answers = new ReachAnswers(jobFolder, open.digests().files())) {
      StageGraph graph = new StageGraph(open);
      var questions = graph.reaches().iterator();
      for (Job.ReachEntry r : job.reach()) {
        StageNode<ReachResult> question = questions.next();
        if (vehicles.stream().noneMatch(v -> v.name().equals(r.vehicle()))) {
          continue;
        }
        out.println();
        ReachAnswers.Answer answer = answers.of(question);
        if (answer == null) {
          line(r.name(), "not run yet; run the job to see how this place is reached");
        } else {
          String end = answer(r, answer, open.spec(), cell);
          QuickestWays.of(open, r, answer.folder(), cell).forEach(way -> line("", "%s", way));
          new PlaceReasons(open, graph, answers, ground)
              .of(r, answer.folder(), cell, end)
              .forEach(reason -> line("", "%s", reason));
        }
      }
    }
  }

  /** Returns what ends the reach there, empty inside. */
  private String answer(Job.ReachEntry r, ReachAnswers.Answer answer, GridSpec spec, int cell) {
    Path dir = answer.folder();
    int row = cell / spec.cols();
    int col = cell % spec.cols();
    int state = row(dir.resolve("state.tif"), CellKind.UINT8, row)[col];
    line(
        r.name(),
        "%s, from %s with %s%s",
        state == ReachState.SURELY
            ? "surely"
            : state == ReachState.POSSIBLY ? "possibly" : "not reachable",
        r.from(),
        r.vehicle() + (r.rescue().second().isEmpty() ? "" : " and " + r.rescue().second()),
        r.stayS() > 0 ? String.format(Locale.ROOT, ", stay %.1f min", r.stayS() / 60) : "");
    if (answer.whyAnew() != null) {
      line("", "solved anew, since the products of the last run are %s", answer.whyAnew());
    }
    byte end = row(dir.resolve("binding.tif"), CellKind.UINT8, row)[col];
    String label = "";
    for (ReachEnd e : ReachEnd.values()) {
      if (e.code() == end) {
        label = e.label();
        line("", "ends by: %s", label);
      }
    }
    PlaceAmounts.of(dir, r.home(), row, col).forEach(amount -> line("", "%s", amount));
    for (ReachResult.TargetReach t : ReachProducts.targets(dir)) {
      if (spec.cellOf(t.target().xM(), t.target().yM()) == cell) {
        line("", "%s", ReachProducts.verdict(t));
      }
    }
    return label;
  }

  /** Reads one row of a product, which may be larger than memory. */
  private static <A> A row(Path file, CellKind<A> kind, int row) {
    try (RasterRows<A> rows = RasterRows.open(file, kind)) {
      A cells = kind.array(rows.cols());
      rows.read(row, 1, cells);
      return cells;
    }
  }

  private static String className(byte cls) {
    return switch (cls) {
      case Mobility.GO -> "go";
      case Mobility.SLOW -> "slow";
      case Mobility.NO_GO -> "no-go";
      default -> "no verdict";
    };
  }

  private void line(String name, String format, Object... args) {
    out.printf(Locale.ROOT, "%-14s %s%n", name, String.format(Locale.ROOT, format, args));
  }
}
