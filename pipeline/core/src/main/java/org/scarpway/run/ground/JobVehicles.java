package org.scarpway.run.ground;

import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walker;

/** The vehicles that a job names. */
public final class JobVehicles {
  /**
   * Returns the vehicle with the other crew aboard, null if the question's home rule needs none; of
   * two kinds of vehicles see {@link Pair}.
   */
  public static Vehicle loaded(Job job, Job.ReachEntry r) {
    return loaded(vehicle(job, r.vehicle()), r.home(), r.rescue());
  }

  /** The same of a sortie. */
  public static Vehicle loaded(Job job, Job.SortieEntry s) {
    return loaded(vehicle(job, s.vehicle()), s.home(), s.rescue());
  }

  private static Vehicle loaded(Vehicle vehicle, HomeRule home, Rescue rescue) {
    boolean fetches = home == HomeRule.PAIR || home == HomeRule.BASE_RESCUE;
    return fetches ? vehicle.withLoad(vehicle.crew().seats() * rescue.personKg()) : null;
  }

  /** Returns the vehicles that a question's ways must be open to. */
  public static List<Vehicle> driving(Job job, Job.ReachEntry r) {
    Vehicle first = vehicle(job, r.vehicle());
    String second = r.rescue().second();
    return second.isEmpty() ? List.of(first) : List.of(first, vehicle(job, second));
  }

  /** Returns the walker by the rules of a question; null if the job names none. */
  public static Walker walker(Job job, Job.ReachEntry r) {
    return job.walker() == null ? null : job.walker().within(r.maxWalkKm());
  }

  public static Vehicle vehicle(Job job, String name) {
    return job.vehicles().stream().filter(v -> v.name().equals(name)).findFirst().orElseThrow();
  }

  private JobVehicles() {}
}
