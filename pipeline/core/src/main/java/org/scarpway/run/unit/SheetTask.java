package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.audit.Finding;
import org.scarpway.config.Job;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.survey.StraightDrive;
import org.scarpway.reach.survey.Waypoints;
import org.scarpway.reach.trip.TurnBackTimes;
import org.scarpway.report.CrewSheet;
import org.scarpway.report.CrewSheetData;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.AuditTable;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;

/** The stage sheet/NAME/: the sheet by which a crew drives a corridor. */
public final class SheetTask implements StageTask<SheetTask.Told> {
  private static final int VERSION = 6;

  /** The page of the sheet. */
  public static final String PAGE = "sheet.html";

  /**
   * What the sheet tells of the whole drive.
   *
   * @param corridor its name
   */
  public record Told(String corridor, List<String> sentences) {
    public Told {
      sentences = List.copyOf(sentences);
    }
  }

  private final OpenJob job;
  private final Job.CorridorEntry entry;
  private final StageNode<CorridorResult> corridor;
  private final List<ReachTask> rules;
  private final Supplier<TraversalInput> ground;
  private final Supplier<String> notShown;

  /**
   * @param rules the questions by whose rules the crew comes home
   * @param ground of the vehicle
   * @param notShown names of the vehicle's limits that the cells do not resolve
   */
  SheetTask(
      OpenJob job,
      Job.CorridorEntry entry,
      StageNode<CorridorResult> corridor,
      List<ReachTask> rules,
      Supplier<TraversalInput> ground,
      Supplier<String> notShown) {
    this.job = job;
    this.entry = entry;
    this.corridor = corridor;
    this.rules = List.copyOf(rules);
    this.ground = ground;
    this.notShown = notShown;
  }

  @Override
  public String id() {
    return "sheet/" + entry.name();
  }

  @Override
  public StageKey key() {
    StageKey.Builder key = StageKey.of("sheet", VERSION).add(corridor.key());
    key.add("rules", rules.stream().map(r -> r.key().hex()).toList());
    return key.add("departs", entry.departs()).build();
  }

  @Override
  public boolean isQuestion() {
    return true;
  }

  @Override
  public String presents() {
    return corridor.id();
  }

  @Override
  public long cells() {
    return job.spec().cells();
  }

  @Override
  public void make(Path folder) {
    CorridorResult route = corridor.get();
    Waypoints waypoints = Waypoints.of(route, new StraightDrive(ground.get().field()));
    BitSet vertices = new BitSet();
    waypoints.all().forEach(w -> vertices.set(w.vertex()));
    List<HomeAlong> home = new ArrayList<>();
    List<Finding> findings = new ArrayList<>();
    for (ReachTask rule : rules) {
      StageKey key =
          StageKey.of("home along", VERSION)
              .add(corridor.key())
              .add("rules", rule.rules().hex())
              .build();
      HomeAlong along =
          new KeptHomeAlong(job.workers().memory(), key, rule.request())
              .or(() -> follow(route, rule.input(), vertices));
      home.add(along);
      findings.addAll(along.drivenAgain());
    }
    AuditTable.require("sheet '" + entry.name() + "'", findings);
    CrewSheetData data = data(route, waypoints, home);
    PlaceFrame frame = job.stages().frame();
    SheetTables.write(folder, data, frame);
    AuditTable.write(folder.resolve("audit.csv"), findings, frame);
    SheetGpx.write(
        folder.resolve("route.gpx"), data, WorldMap.of(job.spec()), job.job().dem().body());
    CrewSheet.write(folder.resolve(PAGE), data);
    StoredResult.write(folder, new Told(entry.name(), CrewSheet.sentences(data)));
    job.workers().memory().freeScratch();
  }

  private HomeAlong follow(CorridorResult route, ReachInput rule, BitSet vertices) {
    return TurnBackTimes.of(
        route,
        rule.request(),
        vertices,
        rule.ground(),
        rule.walkHome(),
        job.workers(),
        job.progress());
  }

  private CrewSheetData data(CorridorResult route, Waypoints waypoints, List<HomeAlong> home) {
    List<double[]> places = new ArrayList<>();
    route.centreline().forEach(p -> places.add(new double[] {p.xM(), p.yM()}));
    ShownPart part = ShownPart.of(places, ground.get());
    GridSpec spec = job.spec();
    WorldMap world = WorldMap.of(spec);
    return new CrewSheetData(
        route,
        waypoints,
        home,
        entry.departs(),
        notShown.get(),
        part.heightM(),
        part.gradEast(),
        part.gradNorth(),
        part.closed(),
        Math.max(spec.cellXM(), spec.cellYM()),
        world.known() ? world::toLonLat : LonLat.NONE,
        job.stages().frame()::ownText);
  }

  @Override
  public Told load(Path folder) {
    return StoredResult.read(folder, Told.class);
  }
}
