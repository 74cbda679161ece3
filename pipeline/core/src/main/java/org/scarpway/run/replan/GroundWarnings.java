package org.scarpway.run.replan;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.config.Job;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.VehicleNotes;
import org.scarpway.vehicle.WalkStage;

/** The warnings of the job on the ground and the vehicle of a question, as its report has them. */
final class GroundWarnings {
  private GroundWarnings() {}

  /**
   * @param graph with the terrain finished, and the hazard where it has notes
   */
  static List<String> of(
      OpenJob open, StageGraph graph, Job.ReachEntry question, VehicleNotes vehicle) {
    Job job = open.job();
    Set<String> all = new LinkedHashSet<>(open.strips().notes());
    all.addAll(open.dem().get().warnings());
    all.addAll(open.stages().warnings(List.of(JobVehicles.vehicle(job, question.vehicle()))));
    all.addAll(graph.terrain().get().notes());
    if (graph.hazard().isFinished()) {
      all.addAll(graph.hazard().get().notes());
    }
    all.addAll(vehicle.notes());
    if (question.home() == HomeRule.WALK_BACK) {
      WalkStage.notes(job.walker(), job.dem().body())
          .forEach(note -> all.add(job.walker().name() + ": " + note));
    }
    return List.copyOf(all);
  }
}
