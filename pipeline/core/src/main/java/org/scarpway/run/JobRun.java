package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.RasterIo;
import org.scarpway.geodata.RasterIos;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.CorridorResult;
import org.scarpway.reach.ReachResult;
import org.scarpway.report.ReportData;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.MoreTerrain;
import org.scarpway.terrain.SlopeSpread;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MoveField;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.WalkStage;

/**
 * Runs one job from its file to its report: everything is checked first, then the stages in order.
 */
public final class JobRun {
  private final Job job;
  private final RunOptions options;
  private final RasterIo io;
  private final ConsoleProgress progress;
  private final PrintStream out;
  private final Path folder;

  private JobRun(Job job, RunOptions options, RasterIo io, PrintStream out, PrintStream err) {
    this.job = job;
    this.options = options;
    this.io = io;
    this.out = out;
    this.progress = new ConsoleProgress(err, options.progress());
    this.folder = options.out().resolve(job.name());
  }

  /**
   * Runs every job of the file, one after another.
   *
   * @param out gets the summary only
   * @param err gets progress
   */
  public static void run(Path jobFile, RunOptions options, PrintStream out, PrintStream err) {
    List<Job> jobs = JobReader.readAll(jobFile, options.set());
    RasterIo io = RasterIos.best();
    for (Job job : jobs) {
      new JobRun(job, options, io, out, err).run();
    }
  }

  private void run() {
    long startNs = System.nanoTime();
    try (Workers workers = new Workers(options.threads())) {
      GroundStages stages = new GroundStages(job, io, workers, progress);
      progress.say("[" + job.name() + "] reading the elevation model with " + io.name());
      progress.stage("dem");
      InputDigests digests = new InputDigests(job.inputs());
      Dem dem = stages.dem();
      GridSpec spec = dem.heightM().spec();
      io.requireWritable(spec);
      Places places = new Places(job, spec);
      Preflight.requireDrivablePlaces(job, places, dem, stages);
      try (JobLock lock = JobLock.take(folder)) {
        finish(lock, workers, stages, digests, dem, places, startNs);
      }
    }
  }

  private void finish(
      JobLock lock,
      Workers workers,
      GroundStages stages,
      InputDigests digests,
      Dem dem,
      Places places,
      long startNs) {
    GridSpec spec = dem.heightM().spec();
    UnitRunner runner = new UnitRunner(lock, progress, options.fresh());

    TerrainUnit terrainUnit = new TerrainUnit(dem, JobKeys.dem(job, digests), stages, io);
    Supplier<Terrain> terrain = runner.finish(terrainUnit);
    Supplier<MoreTerrain> more = moreTerrain(runner, spec, terrainUnit.key(), terrain, stages);
    String hazardSettings = JobKeys.hazard(job, digests);
    HazardUnit hazardUnit =
        new HazardUnit(
            spec, terrainUnit.key(), hazardSettings, Demands.of(job.vehicles()), terrain, stages);
    Supplier<Hazard> hazard = runner.finish(hazardUnit);

    Map<String, Supplier<Mobility>> mobility = new LinkedHashMap<>();
    Map<String, StageKey> mobilityKeys = new LinkedHashMap<>();
    for (Vehicle v : job.vehicles()) {
      MobilityUnit unit =
          new MobilityUnit(
              spec,
              v,
              job.dem().body(),
              terrainUnit.key(),
              hazardSettings,
              JobKeys.soils(job, digests),
              terrain,
              stages);
      mobility.put(v.name(), runner.finish(unit));
      mobilityKeys.put(v.name(), unit.key());
    }

    Supplier<MoveField> walker = new Once<>(() -> stages.walker(terrain.get(), hazard.get()));
    Function<Job.ReachEntry, ReachUnit> asUnit =
        entry ->
            new ReachUnit(
                job,
                entry,
                places,
                dem,
                mobilityKeys.get(entry.vehicle()),
                mobility.get(entry.vehicle()),
                walker,
                io,
                workers,
                progress);
    Map<Job.ReachEntry, Supplier<ReachResult>> reaches = new LinkedHashMap<>();
    for (Job.ReachEntry entry : job.reach()) {
      reaches.put(entry, runner.finish(asUnit.apply(entry)));
    }
    List<Supplier<CorridorResult>> corridors = new ArrayList<>();
    for (Job.CorridorEntry entry : job.corridors()) {
      String v = entry.vehicle();
      corridors.add(
          runner.finish(
              new CorridorUnit(
                  entry,
                  places,
                  dem,
                  mobilityKeys.get(v),
                  mobility.get(v),
                  io,
                  workers,
                  progress)));
    }

    List<ReportData.Table> siteTables = List.of();
    if (job.sites() != null) {
      List<StageKey> upstream = new ArrayList<>();
      upstream.add(hazardUnit.key());
      upstream.add(mobilityKeys.get(job.vehicles().get(0).name()));
      for (String candidate : job.sites().candidates()) {
        SiteQuestions.of(job, candidate).forEach(q -> upstream.add(asUnit.apply(q).key()));
      }
      SiteUnit unit =
          new SiteUnit(
              job.sites(),
              spec,
              upstream,
              job.sites().candidates().stream()
                  .map(n -> places.stop(n, job.sites().where()))
                  .toList(),
              terrain,
              hazard,
              () ->
                  SiteQuestions.ask(
                      job,
                      places,
                      e -> reaches.getOrDefault(e, () -> asUnit.apply(e).compute()).get(),
                      name -> mobility.get(name).get()));
      siteTables = unit.tables(runner.finish(unit).get());
    }

    List<String> warnings = new ArrayList<>(io.reduced());
    warnings.addAll(dem.warnings());
    warnings.addAll(stages.warnings());
    warnings.addAll(terrain.get().notes());
    warnings.addAll(hazard.get().notes());
    List<Mobility> allMobility = ReportUnit.all(mobility.values());
    for (Mobility m : allMobility) {
      m.notes().forEach(note -> warnings.add(m.vehicle().name() + ": " + note));
    }
    if (job.walker() != null) {
      WalkStage.notes(job.walker(), job.dem().body())
          .forEach(note -> warnings.add(job.walker().name() + ": " + note));
    }
    progress.stage("report");
    progress.say("[report] drawing");
    List<ReachResult> allReaches = ReportUnit.all(reaches.values());
    List<CorridorResult> allCorridors = ReportUnit.all(corridors);
    new ReportUnit(job, places, dem, digests)
        .write(
            folder.resolve("index.html"),
            terrain.get(),
            more.get(),
            hazard.get(),
            allMobility,
            allReaches,
            allCorridors,
            siteTables,
            List.copyOf(new LinkedHashSet<>(warnings)),
            PlacesOnGround.of(job, places, dem, new GroundStages(job, io, workers, Progress.NONE)));
    StacCatalogue.write(folder, job, spec, List.copyOf(runner.done().keySet()));
    double wallS = (System.nanoTime() - startNs) * 1e-9;
    RunRecord.write(
        folder,
        job,
        digests.of(job.file()),
        digests,
        io.name(),
        options.threads(),
        runner.done(),
        warnings,
        wallS);
    RunSummary.print(
        out, folder, allMobility, allReaches, allCorridors, runner.done(), warnings, wallS);
  }

  /** What the job asks of the ground beyond the derivatives of every run. */
  private Supplier<MoreTerrain> moreTerrain(
      UnitRunner runner,
      GridSpec spec,
      StageKey terrainKey,
      Supplier<Terrain> terrain,
      GroundStages stages) {
    Supplier<MoreTerrain> derivatives =
        DerivativesUnit.wanted(job)
            ? runner.finish(new DerivativesUnit(job, spec, terrainKey, terrain, stages, io))
            : () -> MoreTerrain.NONE;
    Supplier<SlopeSpread> spread =
        job.terrain().monteCarlo() != null
            ? runner.finish(new SlopeErrorUnit(job, spec, terrainKey, terrain, stages, io))
            : () -> null;
    return () -> derivatives.get().with(spread.get());
  }
}
