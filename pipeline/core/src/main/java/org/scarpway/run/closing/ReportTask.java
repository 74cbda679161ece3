package org.scarpway.run.closing;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.report.KeepOutAreas;
import org.scarpway.report.MapFigures;
import org.scarpway.report.Report;
import org.scarpway.report.ReportData;
import org.scarpway.report.ReportData.Kind;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.ground.Strips;
import org.scarpway.run.product.KeepOutFile;
import org.scarpway.run.store.InputDigests;
import org.scarpway.run.store.Version;
import org.scarpway.run.unit.SiteEllipses;
import org.scarpway.site.LandingEllipse;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.Walker;

/** Writes index.html, everything that the run found, for people, and its maps as figures. */
final class ReportTask {
  private final Job job;
  private final Places places;
  private final GridSpec spec;
  private final PlaceFrame frame;
  private final Strips strips;
  private final Supplier<Dem> dem;
  private final InputDigests digests;
  private final Workers workers;

  ReportTask(OpenJob job) {
    this.job = job.job();
    this.places = job.places();
    this.spec = job.spec();
    this.frame = job.stages().frame();
    this.strips = job.strips();
    this.dem = job.dem();
    this.digests = job.digests();
    this.workers = job.workers();
  }

  /** Returns what the page lacks or exceeds by its size, a line each. */
  List<String> write(Path file, JobResults results, List<ReportData.AtPlace> atPlaces) {
    ReportData data = data(file, results, atPlaces);
    List<String> said = Report.write(file, data, workers);
    if (job.report().figures()) {
      MapFigures.write(file.getParent(), data, spec, FigureFiles.print(job), workers);
    }
    return said;
  }

  private ReportData data(Path file, JobResults results, List<ReportData.AtPlace> atPlaces) {
    MapCrs crs = CrsText.read(spec.crsWkt());
    WorldMap world = WorldMap.of(spec);
    return new ReportData(
        facts(crs, results.mobility()),
        dem.get(),
        results.terrain(),
        results.hazard(),
        results.mobility(),
        results.reaches(),
        results.corridors(),
        results.sorties(),
        results.light(),
        spots(),
        results.siteTables(),
        results.warnings(),
        MethodSources.of(job),
        job.effective().stream()
            .map(s -> new ReportData.Setting(s.key(), s.value(), s.origin()))
            .toList(),
        world.known() ? world::toLonLat : LonLat.NONE,
        atPlaces,
        results.more(),
        new Cells(strips, file.resolveSibling("reach")),
        results.unanswered(),
        results.keys(),
        keepOuts(),
        maxWalkKm());
  }

  private Map<String, Double> maxWalkKm() {
    Map<String, Double> all = new HashMap<>();
    for (Job.ReachEntry r : job.reach()) {
      Walker walker = JobVehicles.walker(job, r);
      if (r.home() == HomeRule.WALK_BACK && walker != null && walker.maxWalkKm() != null) {
        all.put(r.name(), walker.maxWalkKm());
      }
    }
    return all;
  }

  private KeepOutAreas keepOuts() {
    List<KeepOutAreas.Area> areas = new ArrayList<>();
    for (Path file : new LinkedHashSet<>(job.hazard().keepOut())) {
      List<KeepOutFile.Named> named = KeepOutFile.named(file, frame);
      for (int i = 0; i < named.size(); i++) {
        areas.add(new KeepOutAreas.Area(named.get(i).textOr(i + 1, file), named.get(i).area()));
      }
    }
    return new KeepOutAreas(job.hazard().marginM(), areas);
  }

  /** Rasters of the finished reach questions. */
  private record Cells(Strips strips, Path questions) implements ReportData.ReachCells {
    @Override
    public FloatGrid floats(String reach, String raster) {
      Path tif = tif(reach, raster);
      return Files.exists(tif) ? strips.shown().floats(tif) : null;
    }

    @Override
    public ByteGrid steps(String reach, String raster) {
      Path tif = tif(reach, raster);
      return Files.exists(tif) && strips.shownStep() == 1 ? strips.shown().codes(tif) : null;
    }

    private Path tif(String reach, String raster) {
      return questions.resolve(reach).resolve(raster + ".tif");
    }
  }

  private ReportData.Facts facts(MapCrs crs, List<ShownMobility> mobility) {
    List<String> inputs = new ArrayList<>();
    for (Map.Entry<Path, String> e : digests.all().entrySet()) {
      inputs.add(RunRecord.relative(job, e.getKey()) + "  sha256 " + e.getValue());
    }
    return new ReportData.Facts(
        job.name(),
        crs.name(),
        Version.text(),
        digests.of(job.file()),
        command(job),
        inputs,
        job.dem().verticalSigmaM(),
        mobility.isEmpty() || mobility.get(0).notes().isEmpty()
            ? ""
            : mobility.get(0).notes().get(0),
        job.report().maxMb(),
        job.soils() != null,
        job.terrain().reconnaissance());
  }

  /** Returns the shell command that repeats the run. */
  static String command(Job job) {
    StringBuilder s = new StringBuilder("pipeline/bin/scarpway run ");
    s.append(word(job.file().getFileName().toString()));
    job.overrides().forEach((key, value) -> s.append(" --set ").append(word(key + "=" + value)));
    return s.toString();
  }

  private static String word(String text) {
    return text.matches("[A-Za-z0-9_./=,:+@%-]+") ? text : "'" + text.replace("'", "'\\''") + "'";
  }

  private List<ReportData.Place> spots() {
    Map<String, LandingEllipse> ellipses = SiteEllipses.of(job, places, spec);
    List<ReportData.Place> all = new ArrayList<>();
    for (Places.Spot s : places.bases().values()) {
      LandingEllipse ellipse = ellipses.get(s.name());
      Kind kind = ellipse == null ? Kind.BASE : Kind.CANDIDATE;
      all.add(new ReportData.Place(s.name(), s.xM(), s.yM(), kind, ellipse));
    }
    for (Target t : places.targets()) {
      all.add(new ReportData.Place(t.name(), t.xM(), t.yM(), Kind.TARGET));
    }
    return all;
  }
}
