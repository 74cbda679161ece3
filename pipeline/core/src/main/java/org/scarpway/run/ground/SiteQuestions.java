package org.scarpway.run.ground;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.scarpway.config.Job;
import org.scarpway.site.SiteInput;
import org.scarpway.site.SiteReach;

/**
 * Asks every candidate site the same reach questions, so that candidates are compared on equal
 * terms: the job's questions for its first vehicle without their start, each once, or all questions
 * if that vehicle has none. An answer that the run already has is used again.
 */
public final class SiteQuestions {
  private SiteQuestions() {}

  /** Returns the questions as asked from a candidate. */
  public static List<Job.ReachEntry> of(Job job, String candidate) {
    return distinct(job).stream().map(question -> from(job, candidate, question)).toList();
  }

  private static List<Job.ReachEntry> distinct(Job job) {
    String first = job.vehicles().get(0).name();
    boolean asksFirst = job.reach().stream().anyMatch(r -> r.vehicle().equals(first));
    Map<Object, Job.ReachEntry> byContent = new LinkedHashMap<>();
    for (Job.ReachEntry r : job.reach()) {
      if (!asksFirst || r.vehicle().equals(first)) {
        byContent.putIfAbsent(content(r), r);
      }
    }
    return List.copyOf(byContent.values());
  }

  /**
   * @param answer answers a question, from finished products where they exist
   */
  public static List<SiteInput> ask(
      Job job, Places places, Function<Job.ReachEntry, SiteReach> answer) {
    List<SiteInput> inputs = new ArrayList<>();
    for (String name : job.sites().candidates()) {
      Places.Spot spot = places.stop(name, job.sites().where());
      List<SiteReach> answers = new ArrayList<>();
      for (Job.ReachEntry question : of(job, name)) {
        answers.add(answer.apply(question));
      }
      inputs.add(new SiteInput(name, spot.xM(), spot.yM(), answers));
    }
    return inputs;
  }

  /** Returns the job's own entry for the question from that place, or the question moved there. */
  private static Job.ReachEntry from(Job job, String place, Job.ReachEntry question) {
    for (Job.ReachEntry r : job.reach()) {
      if (r.from().equals(place) && content(r).equals(content(question))) {
        return r;
      }
    }
    return new Job.ReachEntry(
        question.name(),
        place,
        question.budget(),
        question.home(),
        question.bands(),
        question.stayS(),
        question.rescue(),
        question.reserves(),
        question.drivenAgain(),
        question.beyondBudget(),
        question.refuges(),
        question.maxWalkKm(),
        question.vehicle(),
        question.where());
  }

  /** What a site's figures depend on; bands only divide the ground that is reached. */
  private static Object content(Job.ReachEntry r) {
    return List.of(
        r.budget(),
        r.home(),
        r.stayS(),
        r.rescue(),
        r.beyondBudget(),
        r.refuges(),
        Optional.ofNullable(r.maxWalkKm()),
        r.vehicle());
  }
}
