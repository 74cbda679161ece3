package org.scarpway.run.replan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.config.SpellingSuggestion;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.stage.UserError;

/**
 * What is left of the plan: the stops of a corridor after its first, in the order in which it
 * visits them, or the targets of the job in the order of their file.
 *
 * @param stops in the order of the plan
 * @param endsAtBase true if the plan leads home after the last stop
 * @param legs quantity that the ways from stop to stop minimise
 * @param of words on where the plan is from
 */
record RemainingPlan(List<Target> stops, boolean endsAtBase, Quantity legs, String of) {
  RemainingPlan {
    stops = List.copyOf(stops);
  }

  /** Returns the reach question that the options name. */
  static Job.ReachEntry question(Job job, String name) {
    if (job.reach().isEmpty()) {
      throw UserError.of(
          job.file().toString(),
          "the job asks no reach question",
          "one under reach, whose base, home rule and reserves hold",
          "add it");
    }
    List<String> names = job.reach().stream().map(Job.ReachEntry::name).toList();
    if (name == null && names.size() > 1) {
      throw UserError.of(
          "--question",
          "the job asks " + names.size() + " reach questions",
          "one of " + String.join(", ", names),
          "name the one whose rules hold");
    }
    return job.reach().stream()
        .filter(r -> name == null || r.name().equals(name))
        .findFirst()
        .orElseThrow(() -> unknown("--question", "reach question", name, names));
  }

  /**
   * Returns the plan with its stops in the order of the job; a corridor that may visit them in any
   * order still has to be put {@link #inOrder}.
   */
  static RemainingPlan of(
      OpenJob open, Job.ReachEntry question, String corridor, List<String> done) {
    Job job = open.job();
    List<Target> all = new ArrayList<>();
    List<String> known = new ArrayList<>();
    boolean endsAtBase = true;
    Quantity legs = Quantity.TIME_S;
    String of = "targets of the job, in the order of their file";
    if (corridor == null) {
      for (Target t : open.places().targets()) {
        all.add(t.stayS() > 0 ? t : t.withStay(question.stayS()));
        known.add(t.name());
      }
    } else {
      Job.CorridorEntry entry = corridor(job, corridor, question);
      of = "stops of corridor '" + entry.name() + "'";
      known.addAll(entry.via());
      legs =
          switch (entry.cost()) {
            case TIME -> Quantity.TIME_S;
            case ENERGY -> Quantity.ENERGY_J;
            case DISTANCE -> Quantity.DISTANCE_M;
          };
      endsAtBase = entry.via().get(entry.via().size() - 1).equals(question.from());
      int stops = entry.via().size() - (endsAtBase ? 1 : 0);
      for (String name : entry.via().subList(1, stops)) {
        Places.Spot s = open.places().stop(name, entry.where());
        all.add(new Target(name, s.xM(), s.yM(), 1, s.stayS(), 0));
      }
    }
    return new RemainingPlan(without(all, done, known), endsAtBase, legs, of);
  }

  /** Returns true if the answer of the corridor, not the job, gives the order of the stops. */
  static boolean isInAnyOrder(Job job, String corridor) {
    return job.corridors().stream().anyMatch(c -> c.name().equals(corridor) && c.anyOrder());
  }

  /**
   * Returns the plan with its stops in the order in which the answer of its corridor visits them.
   *
   * @param visits all stops of the corridor, its first included
   */
  RemainingPlan inOrder(List<Visit> visits) {
    List<String> names = visits.stream().skip(1).map(Visit::name).toList();
    List<Target> sorted = new ArrayList<>(stops);
    sorted.sort(Comparator.comparingInt(t -> names.indexOf(t.name())));
    return new RemainingPlan(sorted, endsAtBase, legs, of + ", in the order of its answer");
  }

  private static Job.CorridorEntry corridor(Job job, String name, Job.ReachEntry question) {
    List<String> names = job.corridors().stream().map(Job.CorridorEntry::name).toList();
    Job.CorridorEntry found =
        job.corridors().stream()
            .filter(c -> c.name().equals(name))
            .findFirst()
            .orElseThrow(() -> unknown("--corridor", "corridor", name, names));
    if (!found.vehicle().equals(question.vehicle())) {
      throw UserError.of(
          "--corridor",
          "corridor '" + name + "' is for vehicle '" + found.vehicle() + "'",
          "one for '" + question.vehicle() + "', as question '" + question.name() + "' has it",
          "name another question or corridor");
    }
    return found;
  }

  private static List<Target> without(List<Target> all, List<String> done, List<String> known) {
    List<Target> left = new ArrayList<>(all);
    List<String> mistakes = new ArrayList<>();
    for (String name : done) {
      if (!known.contains(name)) {
        mistakes.add(
            UserError.of(
                    "--done",
                    "no stop of the plan is called '" + name + "'",
                    "stops of the plan",
                    SpellingSuggestion.remedy(name, known))
                .getMessage());
      }
      left.stream().filter(t -> t.name().equals(name)).findFirst().ifPresent(left::remove);
    }
    UserError.throwAll(mistakes);
    return left;
  }

  private static UserError unknown(String option, String what, String name, List<String> names) {
    return UserError.of(
        option,
        "the job has no " + what + " '" + name + "'",
        names.isEmpty() ? "a job with one" : "one of " + String.join(", ", names),
        SpellingSuggestion.remedy(name, names));
  }
}
