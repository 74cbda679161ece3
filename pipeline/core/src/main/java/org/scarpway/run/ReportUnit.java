package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.MapCrs;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.CorridorResult;
import org.scarpway.reach.ReachRequest.Target;
import org.scarpway.reach.ReachResult;
import org.scarpway.report.Report;
import org.scarpway.report.ReportData;
import org.scarpway.report.ReportData.Kind;
import org.scarpway.terrain.MoreTerrain;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;

/** index.html: everything that the run found, for people. */
final class ReportUnit {
  private final Job job;
  private final Places places;
  private final Dem dem;
  private final InputDigests digests;

  ReportUnit(Job job, Places places, Dem dem, InputDigests digests) {
    this.job = job;
    this.places = places;
    this.dem = dem;
    this.digests = digests;
  }

  void write(
      Path file,
      Terrain terrain,
      MoreTerrain more,
      Hazard hazard,
      List<Mobility> mobility,
      List<ReachResult> reaches,
      List<CorridorResult> corridors,
      List<ReportData.Table> sites,
      List<String> warnings,
      List<ReportData.AtPlace> atPlaces) {
    MapCrs crs = MapCrs.of(dem.heightM().spec().crsWkt());
    Report.write(
        file,
        new ReportData(
            facts(crs, mobility),
            dem,
            terrain,
            hazard,
            mobility,
            reaches,
            corridors,
            spots(),
            sites,
            warnings,
            MethodSources.of(job),
            job.effective().stream()
                .map(s -> new ReportData.Setting(s.key(), s.value(), s.origin()))
                .toList(),
            crs.isLocal() ? ReportData.LonLat.NONE : crs::toLonLat,
            atPlaces,
            more));
  }

  private ReportData.Facts facts(MapCrs crs, List<Mobility> mobility) {
    List<String> inputs = new ArrayList<>();
    for (Map.Entry<Path, String> e : digests.all().entrySet()) {
      inputs.add(RunRecord.relative(job, e.getKey()) + "  sha256 " + e.getValue());
    }
    return new ReportData.Facts(
        job.name(),
        crs.name(),
        Version.text(),
        digests.of(job.file()),
        "pipeline/bin/scarpway run " + job.file().getFileName(),
        inputs,
        job.dem().verticalSigmaM(),
        mobility.isEmpty() || mobility.get(0).notes().isEmpty()
            ? ""
            : mobility.get(0).notes().get(0));
  }

  private List<ReportData.Place> spots() {
    List<ReportData.Place> all = new ArrayList<>();
    for (Places.Spot s : places.bases().values()) {
      boolean candidate = job.sites() != null && job.sites().candidates().contains(s.name());
      all.add(
          new ReportData.Place(s.name(), s.xM(), s.yM(), candidate ? Kind.CANDIDATE : Kind.BASE));
    }
    for (Target t : places.targets()) {
      all.add(new ReportData.Place(t.name(), t.xM(), t.yM(), Kind.TARGET));
    }
    return all;
  }

  /** The results behind suppliers, loaded in order. */
  static <T> List<T> all(Iterable<Supplier<T>> suppliers) {
    List<T> list = new ArrayList<>();
    suppliers.forEach(s -> list.add(s.get()));
    return list;
  }
}
