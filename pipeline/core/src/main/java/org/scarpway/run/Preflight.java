package org.scarpway.run;

import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.dem.DemRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.site.SiteSearch;
import org.scarpway.stage.UserError;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.Vehicle;

/**
 * What can only be known with the ground at hand and must be known before anything is written: that
 * bases and stops stand on ground their vehicle can leave, and how much a search has to look at.
 */
final class Preflight {
  private Preflight() {}

  static void requireDrivablePlaces(Job job, Places places, DemRows ground, GroundStages stages) {
    if (job.search() != null) {
      requireFewPlaces(job.search(), ground.spec());
    }
    Set<String> seen = new HashSet<>();
    for (Job.ReachEntry r : job.reach()) {
      if (seen.add(r.vehicle() + "\n" + r.from())) {
        require(places.stop(r.from(), r.where()), vehicle(job, r.vehicle()), ground, stages);
      }
    }
    for (Job.CorridorEntry c : job.corridors()) {
      for (String name : c.via()) {
        if (seen.add(c.vehicle() + "\n" + name)) {
          require(places.stop(name, c.where()), vehicle(job, c.vehicle()), ground, stages);
        }
      }
    }
    if (job.sites() == null) {
      return;
    }
    for (String name : job.sites().candidates()) {
      for (Job.ReachEntry question : SiteQuestions.of(job, name)) {
        if (seen.add(question.vehicle() + "\n" + name)) {
          Places.Spot spot = places.stop(name, job.sites().where());
          require(spot, vehicle(job, question.vehicle()), ground, stages);
        }
      }
    }
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

  static Vehicle vehicle(Job job, String name) {
    return job.vehicles().stream().filter(v -> v.name().equals(name)).findFirst().orElseThrow();
  }

  /** How far around a place the stages look, with room to spare. */
  static double surroundingsM(TerrainParams p, double cellM) {
    return 2 * (p.baselineM() + p.wheelSpacingM() + p.wheelbaseM()) + 64 * cellM;
  }

  private static void require(
      Places.Spot spot, Vehicle vehicle, DemRows ground, GroundStages stages) {
    Dem near = stages.around(ground, spot.xM(), spot.yM());
    Mobility mobility = stages.mobility(stages.terrain(near), vehicle);
    int cell = near.heightM().spec().cellOf(spot.xM(), spot.yM());
    byte cls = mobility.cls().values()[cell];
    if (cls == Mobility.GO || cls == Mobility.SLOW) {
      return;
    }
    byte limit = mobility.limit().values()[cell];
    throw UserError.of(
        spot.where(),
        String.format(
            Locale.ROOT,
            "'%s' at (%.1f, %.1f) is no-go ground for %s: %s",
            spot.name(),
            spot.xM(),
            spot.yM(),
            vehicle.name(),
            limit == 0 ? "no elevation around it" : Limit.ofCode(limit).label()),
        "ground that the vehicle can leave",
        "move it, or run 'scarpway explain' at this place to see every limit");
  }
}
