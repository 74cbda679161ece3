package org.scarpway.run.closing;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.scarpway.config.Job;
import org.scarpway.hazard.ShownHazard;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.report.LightData;
import org.scarpway.report.ReportData;
import org.scarpway.report.SortieData;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.unit.BaseOnFoot;
import org.scarpway.run.unit.LightNotes;
import org.scarpway.run.unit.LightShown;
import org.scarpway.run.unit.SheetTask;
import org.scarpway.run.unit.SiteEllipses;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;
import org.scarpway.site.LandingEllipse;
import org.scarpway.terrain.OptionalDerivatives;
import org.scarpway.terrain.ShownTerrain;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.WalkStage;

/** The results of a job's finished stages and all warnings that a reader must see, each once. */
public record JobResults(
    ShownTerrain terrain,
    OptionalDerivatives more,
    ShownHazard hazard,
    List<ShownMobility> mobility,
    List<ReachResult> reaches,
    List<CorridorResult> corridors,
    List<SheetTask.Told> sheets,
    List<SortieData> sorties,
    List<LightData> light,
    List<ReportData.Table> siteTables,
    SortedMap<String, String> unanswered,
    SortedMap<String, String> keys,
    List<String> warnings) {

  public static JobResults of(OpenJob open, StageGraph graph) {
    // Read side by side; what memory does not hold is read again.
    List<Runnable> reading = new ArrayList<>();
    graph.finished().forEach(stage -> reading.add(stage::get));
    open.workers().all(reading);
    return new JobResults(
        graph.terrain().get(),
        graph.more().get(),
        graph.hazard().get(),
        all(graph.mobility()),
        all(graph.reaches()),
        all(graph.corridors()),
        all(graph.sheets()),
        all(graph.sorties()),
        LightShown.of(open, graph),
        siteTables(open, graph),
        unanswered(graph),
        keys(graph),
        warnings(open, graph));
  }

  private static List<ReportData.Table> siteTables(OpenJob open, StageGraph graph) {
    Job job = open.job();
    Map<String, LandingEllipse> ellipses = SiteEllipses.of(job, open.places(), open.spec());
    List<ReportData.Table> tables = new ArrayList<>();
    if (graph.sites() != null && graph.sites().isFinished()) {
      tables.addAll(
          SiteReport.tables(
              graph.sites().get(), SiteEllipses.params(job.sites()).weights(), ellipses));
    }
    if (graph.search() != null && graph.search().isFinished()) {
      tables.add(SearchReport.table(job.search(), graph.search().get()));
    }
    return tables;
  }

  /** Returns the keys of the finished stages by their names. */
  private static SortedMap<String, String> keys(StageGraph graph) {
    SortedMap<String, String> keys = new TreeMap<>();
    graph.finished().forEach(stage -> keys.put(stage.id(), stage.key().hex()));
    return keys;
  }

  /** Returns why questions have no answer, by the name of their stage. */
  private static SortedMap<String, String> unanswered(StageGraph graph) {
    SortedMap<String, String> why = new TreeMap<>();
    for (StageNode<?> node : graph.nodes()) {
      if (node.failure() != null) {
        why.put(node.id(), node.failure());
      }
    }
    return why;
  }

  private static List<String> warnings(OpenJob open, StageGraph graph) {
    Job job = open.job();
    LinkedHashSet<String> warnings = new LinkedHashSet<>();
    unanswered(graph).values().forEach(why -> warnings.add("not answered: " + why));
    warnings.addAll(open.io().reduced());
    warnings.addAll(open.strips().notes());
    warnings.addAll(open.dem().get().warnings());
    warnings.addAll(open.stages().warnings(open.job().vehicles()));
    warnings.addAll(graph.terrain().get().notes());
    warnings.addAll(graph.hazard().get().notes());
    for (ShownMobility m : all(graph.mobility())) {
      m.notes().forEach(note -> warnings.add(m.vehicle().name() + ": " + note));
    }
    warnings.addAll(LightNotes.of(job));
    if (job.walker() != null) {
      WalkStage.notes(job.walker(), job.dem().body())
          .forEach(note -> warnings.add(job.walker().name() + ": " + note));
    }
    for (ReachResult r : all(graph.reaches())) {
      r.warnings().forEach(w -> warnings.add("reach '" + r.request().name() + "': " + w));
    }
    if (BaseOnFoot.asked(job)) {
      warnings.addAll(BaseOnFoot.notes(open, graph.places()));
    }
    for (CorridorResult c : all(graph.corridors())) {
      c.warnings().forEach(w -> warnings.add("corridor '" + c.request().name() + "': " + w));
    }
    for (SortieData s : all(graph.sorties())) {
      String of = "sortie '" + s.rings().request().name() + "': ";
      s.warnings().forEach(w -> warnings.add(of + w));
    }
    warnings.addAll(SiteEllipses.notes(SiteEllipses.of(job, open.places(), open.spec())));
    return List.copyOf(warnings);
  }

  private static <T> List<T> all(Iterable<StageNode<T>> nodes) {
    List<T> list = new ArrayList<>();
    for (StageNode<T> n : nodes) {
      if (n.isFinished()) {
        list.add(n.get());
      }
    }
    return list;
  }
}
