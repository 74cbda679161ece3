package org.scarpway.run.replan;

import java.io.IOException;
import java.io.PrintStream;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.vector.AreaWords;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReplanRequest;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.StopLeft;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.trip.OpenPlaces;
import org.scarpway.reach.trip.ReplanSolver;
import org.scarpway.report.PlaceText;
import org.scarpway.report.ReplanAnswer;
import org.scarpway.report.ReplanSheet;
import org.scarpway.report.ReplanSheetData;
import org.scarpway.report.ReportData;
import org.scarpway.report.ReportData.Kind;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Pair;
import org.scarpway.run.product.AuditTable;
import org.scarpway.run.product.KeepOutFile;
import org.scarpway.run.store.ContentFiles;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageKey;
import org.scarpway.run.store.Version;
import org.scarpway.run.unit.ReachInput;
import org.scarpway.run.unit.ShownPart;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;
import org.scarpway.run.unit.StagesAside;
import org.scarpway.run.unit.VehicleNotes;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Progress;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/** Answers a crew underway and writes the products of replan/. */
public final class ReplanRun {
  private static final int VERSION = 5;
  private static final String ID = "replan";

  /**
   * Bound on the wavefronts in the store, the same as that of runs by default. What a run with
   * another bound left there is the bound where it is more.
   */
  private static final long FRONT_BYTES = 5_000_000_000L;

  private static final String SHEET = "sheet.html";

  private final ReplanOptions options;

  /** The job as it was planned, without the ground lost since. */
  private final Job planned;

  private final Job job;
  private final Job.ReachEntry entry;
  private final Left left;

  /** Areas that may no longer be entered, null for none. */
  private final Path lostFile;

  private ReplanRun(ReplanOptions options, Job planned) {
    this.options = options;
    this.planned = planned;
    this.entry = RemainingPlan.question(planned, options.question());
    if (entry.home() == HomeRule.NONE) {
      throw UserError.of(
          "--question",
          "home rule none of '" + entry.name() + "' asks nobody home",
          "drive-back, walk-back, pair or base-rescue",
          "name another question");
    }
    this.left = LeftAmounts.read(options.left(), entry, Pair.supplied(planned, entry));
    this.lostFile = options.lost() == null ? null : lost(options.lost());
    this.job = lostFile == null ? planned : planned.withKeepOut(lostFile);
  }

  /**
   * @throws UserError before anything is written
   * @throws StageFailure if the answer cannot be computed, or breaks a rule when it is recalculated
   */
  public static void run(ReplanOptions options, PrintStream out) {
    Job planned = JobReader.read(options.job(), options.set());
    // A sheet that lies there must not be taken for the answer.
    Path sheet = options.out().resolve(planned.name()).resolve(ID).resolve(SHEET);
    String earlier =
        Files.exists(sheet) ? "; " + sheet + " answers an earlier question, not this one" : "";
    try {
      new ReplanRun(options, planned).run(out);
    } catch (UserError e) {
      throw new UserError(e.getMessage() + earlier);
    } catch (StageFailure e) {
      throw new StageFailure(e.getMessage() + earlier, e);
    }
  }

  private void run(PrintStream out) {
    Path folder = options.out().resolve(job.name());
    requireFree(new StageFolder(folder, ID));
    FileDigests files = new FileDigests();
    try (Workers workers = new Workers(options.threads())) {
      Path store = options.out().resolve(".store");
      if (Files.isDirectory(store, LinkOption.NOFOLLOW_LINKS)) {
        Path fronts = store.resolve("fronts");
        long bytes = Math.max(FRONT_BYTES, ContentFiles.bytesIn(fronts));
        workers.memory().keepIn(new ContentFiles(fronts, bytes, false));
      }
      OpenJob open = OpenJob.open(job, RasterIos.best(), files, workers, Progress.NONE);
      double[] at = at(open.stages().frame());
      RemainingPlan given = RemainingPlan.of(open, entry, options.corridor(), options.done());
      List<KeepOutFile.Named> lost = new ArrayList<>();
      List<String> warnings = new ArrayList<>();
      FleetEnvelope demands = FleetEnvelope.of(job, JobVehicles.driving(job, entry));
      for (Path file : new LinkedHashSet<>(job.hazard().keepOut())) {
        open.stages().keepOutAreas(file, demands, warnings);
        if (file.equals(lostFile)) {
          lost.addAll(KeepOutFile.named(file, open.stages().frame()));
          warnings.addAll(0, lostAreas(file, open.stages().frame()));
        }
      }
      StageGraph graph = new StageGraph(open);
      try (StagesAside ready = new StagesAside(folder, files)) {
        ready.finish(graph.terrain());
        if (entry.home() == HomeRule.WALK_BACK || job.hazard().rocks()) {
          ready.finish(graph.hazard());
        }
        VehicleNotes vehicle = graph.notes(entry);
        GroundWarnings.of(open, graph, entry, vehicle).stream()
            .filter(w -> !warnings.contains(w))
            .forEach(warnings::add);
        ReachInput input = graph.input(entry);
        requireOpen(at, input, open.stages().frame());
        RemainingPlan plan =
            RemainingPlan.isInAnyOrder(planned, options.corridor())
                ? given.inOrder(visits(folder, files, workers))
                : given;
        ReplanRequest request =
            new ReplanRequest(
                input.request(), at[0], at[1], left, plan.stops(), plan.endsAtBase(), plan.legs());
        WalkHome walkHome = openRefuges(input.walkHome(), warnings);
        // Taken first: a folder that cannot be written is refused before the crew waits for it.
        try (JobLock held = JobLock.take(folder)) {
          ReplanResult answer = answer(request, input, walkHome, workers);
          AuditTable.require("replan", answer.drivenAgain());
          StageKey key =
              StageKey.of(ID, VERSION)
                  .add(graph.reach(entry).key())
                  .add("request", request)
                  .build();
          // The answer counts even if no file of it can be written.
          PlaceText places = open.stages().frame()::ownText;
          List<String> words = words(lost);
          print(out, answer, places, vehicle.limitsNotResolved(), warnings);
          new StageFolder(held.folder(), ID)
              .replace(
                  key,
                  dir -> {
                    ReplanProducts.write(
                        dir, answer, open, words, vehicle.limitsNotResolved(), warnings);
                    ReplanSheet.write(
                        dir.resolve(SHEET),
                        sheet(open, answer, input, plan, lost, vehicle, warnings));
                  });
          out.println("Sheet: " + folder.resolve(ID).resolve(SHEET));
        }
      }
    }
  }

  /** Names the ground that was lost, first of all that is to be known. */
  private static List<String> lostAreas(Path file, PlaceFrame frame) {
    List<String> all = new ArrayList<>();
    List<KeepOutFile.Named> named = KeepOutFile.named(file, frame);
    for (int i = 0; i < named.size(); i++) {
      AreaWords words = named.get(i).words();
      all.add(
          "lost: "
              + (words.name().isEmpty() ? "area " + (i + 1) : "'" + words.name() + "'")
              + (words.reason().isEmpty() ? "" : " (" + words.reason() + ")")
              + " is kept out of, with the job's margin");
    }
    return all;
  }

  /** The answer; a base on ground that was lost since is no mistake of the crew's. */
  private ReplanResult answer(
      ReplanRequest request, ReachInput input, WalkHome walkHome, Workers workers) {
    return lostFile != null && OpenPlaces.baseIsClosed(request.question(), input.ground(), walkHome)
        ? ReplanResult.withoutBase(request, entry.vehicle())
        : ReplanSolver.solve(request, input.ground(), walkHome, workers, Progress.NONE);
  }

  /**
   * Returns the stops of the corridor as its answer visits them. The crew left by that answer, so
   * ground lost since does not change it.
   */
  private List<CorridorResult.Visit> visits(Path folder, FileDigests files, Workers workers) {
    OpenJob open = OpenJob.open(planned, RasterIos.best(), files, workers, Progress.NONE);
    StageNode<CorridorResult> corridor = new StageGraph(open).corridor(options.corridor());
    try (StagesAside ready = new StagesAside(folder, files)) {
      ready.finish(corridor);
      return corridor.get().visits();
    }
  }

  /** Leaves out refuges on ground that was lost since: the crew is answered without them. */
  private WalkHome openRefuges(WalkHome walkHome, List<String> warnings) {
    if (walkHome == null || lostFile == null) {
      return walkHome;
    }
    List<WalkHome.Refuge> closed = walkHome.closedRefuges();
    for (WalkHome.Refuge r : closed) {
      warnings.add(
          "refuge '"
              + r.name()
              + "' is on ground that can no longer be walked: no walk there counts");
    }
    return walkHome.without(closed);
  }

  private ReplanSheetData sheet(
      OpenJob open,
      ReplanResult answer,
      ReachInput input,
      RemainingPlan plan,
      List<KeepOutFile.Named> lost,
      VehicleNotes vehicle,
      List<String> warnings) {
    ShownPart part = ShownPart.of(shown(answer), input.ground());
    WorldMap world = WorldMap.of(open.spec());
    List<ReportData.Place> places = new ArrayList<>();
    open.places()
        .bases()
        .values()
        .forEach(b -> places.add(new ReportData.Place(b.name(), b.xM(), b.yM(), Kind.BASE)));
    open.places()
        .targets()
        .forEach(t -> places.add(new ReportData.Place(t.name(), t.xM(), t.yM(), Kind.TARGET)));
    return new ReplanSheetData(
        job.name(),
        CrsText.read(open.spec().crsWkt()).name(),
        Version.text(),
        open.digests().of(job.file()),
        plan.of(),
        vehicle.limitsNotResolved(),
        part.heightM(),
        part.gradEast(),
        part.gradNorth(),
        part.closed(),
        Math.max(open.spec().cellXM(), open.spec().cellYM()),
        lost.isEmpty()
            ? null
            : new GeometryFactory()
                .createGeometryCollection(
                    lost.stream().map(KeepOutFile.Named::area).toArray(Geometry[]::new)),
        words(lost),
        places,
        world.known() ? world::toLonLat : LonLat.NONE,
        open.stages().frame()::ownText,
        command(),
        answer,
        warnings);
  }

  /** The crew, its base, their ways and the stops that it can still reach. */
  private static List<double[]> shown(ReplanResult r) {
    List<double[]> places = new ArrayList<>();
    places.add(new double[] {r.request().xM(), r.request().yM()});
    places.add(new double[] {r.request().question().baseXM(), r.request().question().baseYM()});
    r.wayHome().forEach(p -> places.add(new double[] {p.xM(), p.yM()}));
    r.planned().forEach(p -> places.add(new double[] {p.xM(), p.yM()}));
    for (StopLeft s : r.stops()) {
      if (s.inOrder() || s.state() == ReachState.SURELY) {
        places.add(new double[] {s.stop().xM(), s.stop().yM()});
      }
    }
    return places;
  }

  /** Returns the shell command that repeats the answer, without paths. */
  private String command() {
    List<String> words = new ArrayList<>(List.of("pipeline/bin/scarpway", "replan"));
    words.add(options.job().getFileName().toString());
    words.add("--question " + entry.name());
    if (options.corridor() != null) {
      words.add("--corridor " + options.corridor());
    }
    words.add(
        "--at "
            + BigDecimal.valueOf(options.x()).toPlainString()
            + ","
            + BigDecimal.valueOf(options.y()).toPlainString()
            + (options.lonLat() ? " --lonlat" : ""));
    words.add("--left " + pairs(options.left()));
    if (!options.done().isEmpty()) {
      words.add("--done '" + String.join(",", options.done()).replace("'", "'\\''") + "'");
    }
    if (options.lost() != null) {
      words.add("--lost '" + options.lost().getFileName().toString().replace("'", "'\\''") + "'");
    }
    options
        .set()
        .forEach((k, v) -> words.add("--set '" + (k + "=" + v).replace("'", "'\\''") + "'"));
    return String.join(" ", words);
  }

  private static String pairs(Map<String, String> left) {
    return String.join(
        ",", left.entrySet().stream().map(e -> e.getKey() + "=" + e.getValue()).toList());
  }

  private double[] at(PlaceFrame frame) {
    double[] xy = frame.toGrid(options.x(), options.y(), options.lonLat(), "--at");
    if (!frame.holds(xy)) {
      throw UserError.of(
          "--at",
          PlaceFrame.text(options.x(), options.y(), options.lonLat())
              + " lies outside the elevation model",
          frame.range(options.lonLat()),
          "give a place inside");
    }
    return xy;
  }

  /** Refuses a place where the vehicle cannot be, in the coordinates in which it was given. */
  private void requireOpen(double[] at, ReachInput input, PlaceFrame frame) {
    double[] open = OpenPlaces.nearest(at[0], at[1], input.ground());
    if (open != null && open[0] == at[0] && open[1] == at[1]) {
      return;
    }
    String remedy = "no open ground near it: check the place and the limits";
    if (open != null) {
      double[] own =
          options.lonLat()
              ? frame.world().toLonLat(open[0], open[1])
              : frame.toRaster(open[0], open[1]);
      remedy =
          Digits.text(
              "answer from the nearest open ground, %s, %s m away, if the crew gets there",
              PlaceFrame.text(own[0], own[1], options.lonLat()),
              Math.hypot(open[0] - at[0], open[1] - at[1]));
    }
    throw UserError.of(
        "--at",
        PlaceFrame.text(options.x(), options.y(), options.lonLat())
            + " is on ground that is closed to '"
            + entry.vehicle()
            + "' or without a verdict ('scarpway explain' says why)",
        "ground that can be left",
        remedy);
  }

  /** What is said of each lost area, or its number. */
  private static List<String> words(List<KeepOutFile.Named> lost) {
    List<String> all = new ArrayList<>();
    for (KeepOutFile.Named n : lost) {
      all.add(n.text().isEmpty() ? "area " + (all.size() + 1) : n.text());
    }
    return all;
  }

  private static Path lost(Path file) {
    if (!Files.isRegularFile(file)) {
      throw UserError.of(
          "--lost",
          "file '"
              + file
              + "' "
              + (Files.exists(file) ? "is not a regular file" : "does not exist"),
          "a GeoJSON or GeoPackage file of areas",
          "check its name");
    }
    try {
      return file.toRealPath();
    } catch (IOException e) {
      throw UserError.of(
          "--lost", "file '" + file + "' cannot be resolved", "a readable file", "check links");
    }
  }

  private static void requireFree(StageFolder folder) {
    boolean taken =
        Files.exists(folder.path(), LinkOption.NOFOLLOW_LINKS)
            && !Files.isDirectory(folder.path(), LinkOption.NOFOLLOW_LINKS)
            && !Files.isSymbolicLink(folder.path());
    if (taken || !folder.foreign().isEmpty()) {
      throw UserError.of(
          (taken ? folder.path() : folder.foreign().get(0)).toString(),
          "is not of this program",
          "a name that it may use",
          "move it elsewhere or give another --out");
    }
  }

  private static void print(
      PrintStream out,
      ReplanResult answer,
      PlaceText places,
      String limitsNotResolved,
      List<String> warnings) {
    ReplanAnswer.sentences(answer, places).forEach(out::println);
    if (!limitsNotResolved.isEmpty()) {
      out.println(ReplanAnswer.notResolved(limitsNotResolved));
    }
    warnings.forEach(w -> out.println("warning: " + w));
    answer.warnings().forEach(w -> out.println("warning: " + w));
    out.println(ReplanAnswer.CAUTION);
  }
}
