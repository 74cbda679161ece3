package org.scarpway.run;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.run.closing.FigureFiles;
import org.scarpway.run.closing.OwnNames;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.ground.SiteQuestions;
import org.scarpway.run.plan.JobPlan;
import org.scarpway.run.plan.ResourceCheck;
import org.scarpway.run.plan.RunOptions;
import org.scarpway.run.unit.PlaceGround;
import org.scarpway.site.SiteSearch;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.WalkSpeeds;

/**
 * Checks that need the elevation data and must pass before anything is written: bases and stops
 * stand on ground that their vehicle can leave, refuges on ground that can be walked, and a site
 * search does not have too many places to evaluate.
 */
final class Preflight {
  private final Job job;
  private final Places places;
  private final PlaceGround ground;
  private final Set<String> seen = new HashSet<>();
  private final Set<String> mistakes = new LinkedHashSet<>();
  private final Map<Places.Spot, List<String>> shut = new LinkedHashMap<>();
  private final Map<String, Map<Integer, String>> whyOfCell = new HashMap<>();

  /** True unless the job's walker cannot be evaluated on the job's body. */
  private boolean walks = true;

  private Preflight(OpenJob open, PlaceGround ground) {
    this.job = open.job();
    this.places = open.places();
    this.ground = ground;
  }

  /**
   * Checks that a plan may run. If no stage has to run, the places are not checked again: the
   * existing products come from places that passed this check.
   *
   * @param ground around single places; asked for only if places are checked
   * @throws UserError if an output name is not free, the job does not fit the machine, the heights
   *     are unusable, or places are wrong (one line each)
   */
  static void require(
      OpenJob open, Supplier<PlaceGround> ground, JobPlan plan, RunOptions options) {
    requireRoom(open, plan, options);
    requireSound(open, ground, plan, options);
  }

  /** Checks that the job fits the machine. */
  static void requireRoom(OpenJob open, JobPlan plan, RunOptions options) {
    if (!options.tryAnyway()) {
      ResourceCheck.require(plan, open.spec(), options.out());
    }
  }

  /** Checks all but that the job fits the machine. */
  static void requireSound(
      OpenJob open, Supplier<PlaceGround> ground, JobPlan plan, RunOptions options) {
    FigureFiles.requireFew(open);
    List<String> ids = plan.rows().stream().map(JobPlan.Row::id).toList();
    OwnNames.require(options.out().resolve(open.job().name()), ids, FigureFiles.names(open, ids));
    if (!plan.runsNothing()) {
      open.checkHeights();
      UserError.throwAll(mistakes(open, ground.get()));
    }
  }

  /** Returns every mistake, one line each. Places outside the ground are not checked here. */
  static List<String> mistakes(OpenJob open, PlaceGround ground) {
    Preflight all = new Preflight(open, ground);
    all.gather(() -> FigureFiles.requireFew(open));
    if (open.job().search() != null) {
      all.gather(() -> requireFewPlaces(open.job().search(), open.spec()));
    }
    // Rocks outside their valid range are refused, and then no place can be judged among them.
    if (all.gather(() -> open.stages().requireRocks(open.spec()))) {
      all.walks = all.walkerStands();
      all.questions();
    }
    all.shut.forEach((spot, why) -> all.mistakes.add(barred(spot, String.join(", and ", why))));
    return List.copyOf(all.mistakes);
  }

  /**
   * Returns one line for each target that no vehicle of the questions can stand on, so that the
   * answer is already known.
   */
  static List<String> deadTargets(OpenJob open, PlaceGround ground) {
    Preflight all = new Preflight(open, ground);
    all.questions();
    Map<String, List<String>> lines = new LinkedHashMap<>();
    open.places().targets().forEach(t -> lines.put(t.name(), new ArrayList<>()));
    List<ReachRequest.Target> byBlock = new ArrayList<>(open.places().targets());
    byBlock.sort(Comparator.comparingInt(t -> ground.block(t.xM(), t.yM())));
    for (var target : byBlock) {
      for (Vehicle v : open.job().vehicles()) {
        boolean asked = open.job().reach().stream().anyMatch(r -> r.vehicle().equals(v.name()));
        Places.Spot spot = open.places().find(target.name());
        String why = asked && all.seen.add(v.name() + "\n" + spot.name()) ? all.why(spot, v) : null;
        if (why != null) {
          lines
              .get(spot.name())
              .add(String.format(Locale.ROOT, "target '%s' is on %s", spot.name(), why));
        }
      }
    }
    return lines.values().stream().flatMap(List::stream).toList();
  }

  /**
   * Reported only once the ground is known to lie on the job's body: another body makes other
   * demands.
   */
  private boolean walkerStands() {
    int before = mistakes.size();
    if (job.walker() != null) {
      gather(() -> new WalkSpeeds(job.walker(), job.dem().body()));
    }
    return mistakes.size() == before;
  }

  private void questions() {
    for (Job.ReachEntry r : job.reach()) {
      JobVehicles.driving(job, r).forEach(v -> stand(r.from(), r.where(), v.name()));
      if (r.home() == HomeRule.WALK_BACK) {
        walk(r.from(), r.where());
        r.refuges().forEach(name -> walk(name, r.where()));
      }
    }
    for (Job.CorridorEntry c : job.corridors()) {
      c.via().forEach(name -> stand(name, c.where(), c.vehicle()));
    }
    for (Job.SortieEntry s : job.sorties()) {
      stand(s.from(), s.where(), s.vehicle());
      if (s.camps() != null) {
        s.camps().forEach(name -> stand(name, s.where(), s.vehicle()));
      }
      if (s.home() == HomeRule.WALK_BACK) {
        walk(s.from(), s.where());
        s.refuges().forEach(name -> walk(name, s.where()));
      }
    }
    if (job.sites() == null) {
      return;
    }
    for (String name : job.sites().candidates()) {
      for (Job.ReachEntry question : SiteQuestions.of(job, name)) {
        JobVehicles.driving(job, question).forEach(v -> stand(name, job.sites().where(), v.name()));
        if (question.home() == HomeRule.WALK_BACK) {
          walk(name, job.sites().where());
        }
      }
    }
  }

  private boolean gather(Runnable check) {
    try {
      check.run();
      return true;
    } catch (UserError e) {
      mistakes.add(e.getMessage());
      return false;
    }
  }

  private void stand(String name, String where, String vehicle) {
    gather(
        () -> {
          Places.Spot spot = places.known(name, where);
          Vehicle v = JobVehicles.vehicle(job, vehicle);
          String why = spot != null && seen.add(vehicle + "\n" + name) ? why(spot, v) : null;
          if (why != null) {
            shut(spot, why);
          }
        });
  }

  private void walk(String name, String where) {
    gather(
        () -> {
          Places.Spot spot = places.known(name, where);
          if (spot != null
              && walks
              && seen.add("\n" + name)
              && !ground.onFoot(ground.at(spot.xM(), spot.yM())).walkable()) {
            shut(spot, "ground that cannot be walked");
          }
        });
  }

  private void shut(Places.Spot spot, String why) {
    shut.computeIfAbsent(spot, s -> new ArrayList<>()).add(why);
  }

  private static String barred(Places.Spot spot, String why) {
    return UserError.of(
            spot.where(),
            "'" + spot.name() + "' at " + spot.written() + " is " + why,
            "ground that can be left",
            "move it, or run 'scarpway explain' at this place to see every limit")
        .getMessage();
  }

  /**
   * Returns what closes the place to the vehicle and why, or null if the vehicle can stand there.
   */
  private String why(Places.Spot spot, Vehicle vehicle) {
    PlaceGround.Here here = ground.at(spot.xM(), spot.yM());
    String why =
        whyOfCell
            .computeIfAbsent(vehicle.name(), v -> new HashMap<>())
            .computeIfAbsent(here.wholeCell(), cell -> why(here, vehicle));
    return why.isEmpty() ? null : why;
  }

  private String why(PlaceGround.Here here, Vehicle vehicle) {
    CellMobility m = ground.explain(here, vehicle);
    if (m.cls() == Mobility.GO || m.cls() == Mobility.SLOW) {
      return "";
    }
    boolean judged = m.cls() == Mobility.NO_GO;
    boolean byError = judged && ground.openAsMeasured(here, vehicle);
    return (judged ? "no-go ground for " : "ground without a verdict for ")
        + vehicle.name()
        + ": "
        + (m.binding() == null ? Limit.VOID : m.binding()).label()
        + (byError ? " at confidence " + job.confidence() : "");
  }

  private static void requireFewPlaces(Job.SearchSettings search, GridSpec spec) {
    double spacingM = search.params().spacingM();
    if (spacingM < spec.cellXM() || spacingM < spec.cellYM()) {
      throw UserError.of(
          search.where(),
          String.format(Locale.ROOT, "spacing_m = %.1f", spacingM),
          String.format(
              Locale.ROOT, "at least a cell of %.1f x %.1f m", spec.cellXM(), spec.cellYM()),
          "raise sites.search.spacing_m");
    }
    long places = SiteSearch.places(spec, spacingM);
    if (places > SiteSearch.MOST_PLACES) {
      throw UserError.of(
          search.where(),
          String.format(Locale.ROOT, "%d places %.1f m apart", places, spacingM),
          "at most " + SiteSearch.MOST_PLACES,
          String.format(
              Locale.ROOT,
              "set sites.search.spacing_m to %.0f or more, or a smaller dem.window",
              Math.ceil(spacingM * Math.sqrt((double) places / SiteSearch.MOST_PLACES))));
    }
  }
}
