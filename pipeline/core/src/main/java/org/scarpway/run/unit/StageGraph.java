package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.hazard.ShownHazard;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.report.SortieData;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Pair;
import org.scarpway.run.ground.SiteQuestions;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.SiteGround;
import org.scarpway.site.SiteReach;
import org.scarpway.site.SiteSearch;
import org.scarpway.terrain.OptionalDerivatives;
import org.scarpway.terrain.ShownTerrain;
import org.scarpway.terrain.SlopeSpread;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Unresolved;
import org.scarpway.vehicle.Vehicle;

/**
 * The stages of a job and their dependencies, in topological order. Nothing is computed here:
 * {@code plan} describes the graph, {@code run} walks it.
 */
public final class StageGraph {
  private final OpenJob open;
  private final List<StageNode<?>> nodes = new ArrayList<>();
  private final StageNode<ShownTerrain> terrain;
  private final StageNode<OptionalDerivatives> derivatives;
  private final StageNode<SlopeSpread> slopeError;
  private final StageNode<ShownHazard> hazard;
  private final Map<String, StageNode<ShownMobility>> mobility = new LinkedHashMap<>();

  private final FinishedGround ground;
  private final Map<Vehicle, SoftCached<TraversalCost>> loadedFields = new LinkedHashMap<>();
  private final Map<Pair, SoftCached<TraversalInput>> pairs = new LinkedHashMap<>();
  private final Map<Job.ReachEntry, StageNode<ReachResult>> reaches = new LinkedHashMap<>();
  private final List<StageNode<CorridorResult>> corridors = new ArrayList<>();
  private final List<StageNode<SheetTask.Told>> sheets = new ArrayList<>();
  private final List<StageNode<SortieData>> sorties = new ArrayList<>();
  private final StageNode<SiteTask.Ranking> sites;
  private final StageNode<SiteSearch.Result> search;
  private final StageNode<LightPlaces> light;
  private final StageNode<LightPlaces> contact;
  private final SoftCached<PlaceGround> places;

  public StageGraph(OpenJob open) {
    this.open = open;
    Job job = open.job();
    places = new SoftCached<>(() -> new PlaceGround(open));
    ground =
        open.strips().inMemory()
            ? new MemoryGround(open, this::folder, new KeptDriving(open, this::mobilityKey))
            : new ScratchGround(open, this::folder);
    terrain = add(new StageNode<>(new TerrainTask(open, ground)));
    derivatives =
        DerivativesTask.wanted(job)
            ? add(new StageNode<>(new DerivativesTask(open, terrain.key(), ground), terrain))
            : null;
    slopeError =
        job.terrain().monteCarlo() != null
            ? add(new StageNode<>(new SlopeErrorTask(open, terrain.key(), ground), terrain))
            : null;
    LightGround sky = job.light() == null ? null : new LightGround(open);
    light =
        sky == null ? null : add(new StageNode<>(new LightTask(open, terrain.key(), sky), terrain));
    contact =
        sky == null || job.contact() == null
            ? null
            : add(new StageNode<>(new ContactTask(open, terrain.key(), sky), terrain));
    hazard = add(new StageNode<>(new HazardTask(open, terrain.key(), ground), terrain));
    for (Vehicle v : job.vehicles()) {
      MobilityTask task = new MobilityTask(open, v, terrain.key(), ground);
      mobility.put(v.name(), add(new StageNode<>(task, terrain)));
    }
    for (Job.ReachEntry entry : job.reach()) {
      List<StageNode<?>> needs = new ArrayList<>(List.of(mobility.get(entry.vehicle())));
      if (entry.home() == HomeRule.WALK_BACK) {
        needs.addAll(List.of(terrain, hazard));
      } else if (JobVehicles.loaded(job, entry) != null) {
        needs.add(terrain);
      }
      if (!entry.rescue().second().isEmpty()) {
        needs.add(mobility.get(entry.rescue().second()));
      }
      reaches.put(entry, add(new StageNode<>(question(entry), needs.toArray(StageNode<?>[]::new))));
    }
    for (Job.CorridorEntry entry : job.corridors()) {
      StageNode<ShownMobility> m = mobility.get(entry.vehicle());
      StageKey weighed = entry.tradeOffs() > 0 ? hazard.key() : null;
      Vehicle v = JobVehicles.vehicle(job, entry.vehicle());
      CorridorTask unit =
          new CorridorTask(
              open, entry, m.key(), weighed, () -> ground.withMargins(v, weighed != null));
      corridors.add(
          add(weighed == null ? new StageNode<>(unit, m) : new StageNode<>(unit, m, hazard)));
    }
    for (int i = 0; i < job.corridors().size(); i++) {
      sheets.add(add(sheetNode(job.corridors().get(i), corridors.get(i))));
    }
    for (Job.SortieEntry entry : job.sorties()) {
      sorties.add(add(sortieNode(entry)));
    }
    sites = job.sites() == null ? null : add(siteNode());
    search = job.search() == null ? null : add(searchNode(job.search()));
  }

  private <T> StageNode<T> add(StageNode<T> node) {
    nodes.add(node);
    return node;
  }

  /** Returns the key of the mobility of any vehicle, also one without a stage. */
  private StageKey mobilityKey(Vehicle vehicle) {
    return new MobilityTask(open, vehicle, terrain.key(), ground).key();
  }

  /** Makes the sheet of a corridor; the rules that it keeps are those of reach questions. */
  private StageNode<SheetTask.Told> sheetNode(
      Job.CorridorEntry entry, StageNode<CorridorResult> corridor) {
    Job job = open.job();
    List<StageNode<?>> needs = new ArrayList<>(List.of(corridor, terrain));
    List<ReachTask> rules = new ArrayList<>();
    for (Job.ReachEntry r : job.reach()) {
      if (entry.homeBy().contains(r.name())) {
        rules.add(question(r));
        if (r.home() == HomeRule.WALK_BACK) {
          needs.add(hazard);
        }
      }
    }
    StageNode<ShownMobility> m = mobility.get(entry.vehicle());
    SheetTask unit =
        new SheetTask(
            open,
            entry,
            corridor,
            rules,
            () -> ground.of(JobVehicles.vehicle(job, entry.vehicle())),
            () -> NotShown.limits(List.of(m.get())));
    return new StageNode<>(unit, needs.stream().distinct().toArray(StageNode<?>[]::new));
  }

  private StageNode<SortieData> sortieNode(Job.SortieEntry entry) {
    Job job = open.job();
    StageNode<ShownMobility> m = mobility.get(entry.vehicle());
    Vehicle loaded = JobVehicles.loaded(job, entry);
    SortieTask unit =
        new SortieTask(
            open,
            entry,
            m.key(),
            hazard.key(),
            () -> ground(JobVehicles.vehicle(job, entry.vehicle()), loaded),
            ground::walker);
    return entry.home() == HomeRule.WALK_BACK
        ? new StageNode<>(unit, m, terrain, hazard)
        : loaded == null ? new StageNode<>(unit, m) : new StageNode<>(unit, m, terrain);
  }

  private ReachTask question(Job.ReachEntry entry) {
    List<StageNode<ShownMobility>> driving =
        JobVehicles.driving(open.job(), entry).stream().map(v -> mobility.get(v.name())).toList();
    return new ReachTask(
        open,
        entry,
        vehicle -> mobility.get(vehicle).key(),
        hazard.key(),
        () -> ground(entry),
        () -> NotShown.limits(driving.stream().map(StageNode::get).toList()),
        ground::walker);
  }

  /**
   * Returns the input of a reach question; the terrain, and by walk-back the hazard, is finished.
   */
  public ReachInput input(Job.ReachEntry entry) {
    return question(entry).input();
  }

  /**
   * Computes the ground of the vehicles of a question, as {@link #input} uses it, and returns what
   * must be known of it; the terrain is finished.
   */
  public VehicleNotes notes(Job.ReachEntry entry) {
    List<Unresolved> unresolved = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    for (Vehicle v : JobVehicles.driving(open.job(), entry)) {
      MobilityStrips.Rest rest =
          new MobilityStrips(open, v, ground)
              .each((m, fromRow, skipRows, rows) -> ground.computed(m, skipRows, rows));
      unresolved.add(rest.unresolved());
      rest.notes().forEach(note -> notes.add(v.name() + ": " + note));
    }
    return new VehicleNotes(NotShown.names(unresolved), notes);
  }

  /** Returns the stage of a reach question of the job. */
  public StageNode<ReachResult> reach(Job.ReachEntry entry) {
    return reaches.get(entry);
  }

  private TraversalInput ground(Job.ReachEntry entry) {
    Pair pair = Pair.of(open.job(), entry);
    if (pair != null) {
      return pairs.computeIfAbsent(pair, p -> new SoftCached<>(() -> p.ground(ground::of))).get();
    }
    return ground(
        JobVehicles.vehicle(open.job(), entry.vehicle()), JobVehicles.loaded(open.job(), entry));
  }

  /**
   * @param loaded the vehicle with another crew aboard, null if nobody is taken aboard
   */
  private TraversalInput ground(Vehicle vehicle, Vehicle loaded) {
    TraversalInput plain = ground.of(vehicle);
    return loaded == null
        ? plain
        : plain.withLoaded(
            loadedFields
                .computeIfAbsent(
                    loaded,
                    v -> new SoftCached<>(() -> plain.field().withLoad(ground.of(v).field())))
                .get());
  }

  /** Returns the folder of a finished stage. */
  private Path folder(String id) {
    return nodes.stream().filter(n -> n.id().equals(id)).findFirst().orElseThrow().folder();
  }

  /**
   * Makes the site comparison; the candidates' questions that no stage answers are answered here.
   */
  private StageNode<SiteTask.Ranking> siteNode() {
    Job job = open.job();
    List<StageNode<?>> needs = new ArrayList<>(List.of(terrain, hazard));
    List<StageKey> upstream = new ArrayList<>();
    StageNode<ShownMobility> first = mobility.get(job.vehicles().get(0).name());
    upstream.add(first.key());
    needs.add(first);
    Map<String, StageNode<ShownMobility>> driven = new LinkedHashMap<>();
    for (String candidate : job.sites().candidates()) {
      for (Job.ReachEntry q : SiteQuestions.of(job, candidate)) {
        upstream.add(question(q).key());
        for (Vehicle v : JobVehicles.driving(job, q)) {
          driven.put(v.name(), mobility.get(v.name()));
          needs.add(reaches.containsKey(q) ? reaches.get(q) : mobility.get(v.name()));
        }
      }
    }
    SiteTask unit =
        new SiteTask(
            open,
            hazard.key(),
            vehicle -> mobility.get(vehicle).key(),
            upstream,
            () -> siteGround(first),
            () -> SiteQuestions.ask(job, open.places(), this::answer),
            () -> NotShown.limits(driven.values().stream().map(StageNode::get).toList()));
    return new StageNode<>(unit, needs.stream().distinct().toArray(StageNode<?>[]::new));
  }

  private StageNode<SiteSearch.Result> searchNode(Job.SearchSettings settings) {
    StageNode<ShownMobility> m = mobility.get(settings.vehicle());
    return new StageNode<>(new SiteSearchTask(open, settings, m, ground), m);
  }

  private SiteGround siteGround(StageNode<ShownMobility> first) {
    return new SiteFiles(open.spec(), terrain.folder(), hazard.folder(), first.folder());
  }

  private SiteReach answer(Job.ReachEntry entry) {
    StageNode<ReachResult> known = reaches.get(entry);
    return question(entry).siteReach(known == null ? null : known.folder());
  }

  /** Returns every stage, each after those it depends on. */
  public List<StageNode<?>> nodes() {
    return nodes;
  }

  /** Returns the stages that have products. */
  public List<StageNode<?>> finished() {
    return nodes.stream().filter(StageNode::isFinished).toList();
  }

  public StageNode<ShownTerrain> terrain() {
    return terrain;
  }

  /** Returns the derivatives that the job asks for beyond those of every run. */
  public Supplier<OptionalDerivatives> more() {
    return () ->
        (derivatives == null ? OptionalDerivatives.NONE : derivatives.get())
            .with(slopeError == null ? null : slopeError.get());
  }

  public StageNode<ShownHazard> hazard() {
    return hazard;
  }

  /** Returns the ground around single places, for one thread at a time. */
  public PlaceGround places() {
    return places.get();
  }

  /** Returns one stage for each vehicle, in the job's order. */
  public Collection<StageNode<ShownMobility>> mobility() {
    return mobility.values();
  }

  public Collection<StageNode<ReachResult>> reaches() {
    return reaches.values();
  }

  public List<StageNode<CorridorResult>> corridors() {
    return corridors;
  }

  /** Returns the stages of the crews' sheets, one for each corridor. */
  public List<StageNode<SheetTask.Told>> sheets() {
    return sheets;
  }

  public List<StageNode<SortieData>> sorties() {
    return sorties;
  }

  /** Returns the stage of a corridor of the job. */
  public StageNode<CorridorResult> corridor(String name) {
    return corridors.stream()
        .filter(c -> c.id().equals("corridor/" + name))
        .findFirst()
        .orElseThrow();
  }

  /** Returns null if the job compares no sites. */
  public StageNode<SiteTask.Ranking> sites() {
    return sites;
  }

  /** Returns null if the job asks for no light and shadow. */
  public StageNode<LightPlaces> light() {
    return light;
  }

  /** Returns null if the job asks for no contact. */
  public StageNode<LightPlaces> contact() {
    return contact;
  }

  /** Returns null if the job searches for no places. */
  public StageNode<SiteSearch.Result> search() {
    return search;
  }
}
