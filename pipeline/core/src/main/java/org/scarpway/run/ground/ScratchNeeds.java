package org.scarpway.run.ground;

import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.config.Job;
import org.scarpway.config.LightSettings;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.trip.StoredWays;
import org.scarpway.stage.Memory;

/**
 * The most scratch files that exist at one time during a run on ground larger than memory: the
 * ground and what questions leave behind for each other, and the works of the most demanding one.
 * Bytes per cell are those of the arrays; a file takes disk only where something was written.
 */
public final class ScratchNeeds {
  /** Heights and gradients. */
  private static final int SHAPE_BYTES = 3 * Float.BYTES;

  /** Headings and speeds of one vehicle or walker. */
  private static final int FIELD_BYTES = Integer.BYTES + Float.BYTES;

  /** Factor of the ways round rocks. */
  private static final int DETOUR_BYTES = Float.BYTES;

  /** Headings and speeds of a vehicle with a crew aboard, limited to those without. */
  private static final int LOADED_BYTES = FIELD_BYTES;

  /**
   * Works of one corridor: two lattices, excess cost, factors, widths along it and the order in
   * which they are searched.
   */
  private static final int CORRIDOR_BYTES = 2 * 4 * Float.BYTES + 4 * Float.BYTES;

  /** Labels of one wavefront. */
  private static final int FRONT_BYTES = 9;

  /** Radius of a corridor's wavefronts, as a multiple of the distance between its stops. */
  private static final double CORRIDOR_RADIUS = 1.1;

  /** Works of a search for places: least costs, and labels of two places. */
  private static final int SEARCH_BYTES = 8 + 2 * FRONT_BYTES;

  /** What the estimate is above what was measured, so that runs that it lets begin end. */
  private static final double MARGIN = 1.1;

  private final Job job;
  private final GridSpec spec;
  private final Places places;

  private ScratchNeeds(OpenJob open) {
    this.job = open.job();
    this.spec = open.spec();
    this.places = open.places();
  }

  /** Estimate (MB) for a job, 0 if it needs no scratch files. */
  public static long mb(OpenJob open) {
    Strips strips = open.strips();
    boolean asks = !strips.inMemory() && Strips.looksAtAll(open.job());
    double bytes = asks ? new ScratchNeeds(open).bytes() : 0;
    if (Strips.drawsSites(open.job())) {
      // As much again on a realisation while what is stored on measured ground may still be held.
      bytes = 2 * bytes + strips.drawnHeightBytes(open.job());
    }
    bytes = Math.max(lightBytes(open), bytes);
    // Realisations of slopes are done with before anything is asked.
    bytes = Math.max(strips.drawnSlopeBytes(open.job()), bytes);
    return (long) Math.ceil(bytes / (1 << 20));
  }

  /** Bytes of ground and horizons for light and contact, 0 if they stay on the heap. */
  private static double lightBytes(OpenJob open) {
    LightSettings light = open.job().light();
    if (light == null) {
      return 0;
    }
    double side = Math.max(1, light.cellM() / open.spec().cellM());
    int eyes = open.job().contact() == null ? 1 : 2;
    double cells = open.spec().cells();
    double horizons = 2.0 * eyes * light.azimuths() * cells / (side * side);
    double ground = 2.0 * Float.BYTES * cells;
    boolean small = open.strips().inMemory();
    return (small && !Memory.isLarge(ground) ? 0 : ground)
        + (small && !Memory.isLarge(horizons) ? 0 : horizons);
  }

  private double bytes() {
    double cells = spec.cells();
    double kept = groundBytes() * cells;
    double most = 0;
    for (Job.ReachEntry r : questions()) {
      ReachExtent extent = ReachExtent.of(job, spec, places, r);
      StoredWays needs = AskedWays.of(job, r, extent);
      double timed = extent.filedCells(extent.frontCells());
      double other = extent.filedCells(extent.otherFrontCells());
      kept += needs.timed().kept() * timed + needs.other().kept() * other;
      double passing = needs.timed().passing() * timed + needs.other().passing() * other;
      most = Math.max(most, passing + needs.everywhere() * cells);
    }
    for (Job.CorridorEntry c : job.corridors()) {
      double fronts = FRONT_BYTES * corridorCells(c);
      kept += fronts;
      most = Math.max(most, (1 + c.alternatives()) * fronts + CORRIDOR_BYTES * cells);
    }
    if (job.search() != null) {
      most = Math.max(most, SEARCH_BYTES * cells);
    }
    return MARGIN * (kept + most);
  }

  /** Bytes per cell of the ground itself. */
  private double groundBytes() {
    int field =
        FIELD_BYTES
            + (job.hazard().rocks() ? DETOUR_BYTES : 0)
            + (job.soils() == null ? 0 : Byte.BYTES);
    Set<Object> loaded = new HashSet<>();
    for (Job.ReachEntry r : job.reach()) {
      if (r.home() == HomeRule.PAIR || r.home() == HomeRule.BASE_RESCUE) {
        loaded.add(JobVehicles.loaded(job, r));
        Pair pair = Pair.of(job, r);
        if (pair != null) {
          // Both with the other's crew aboard, and both fields of the two together.
          loaded.addAll(List.of(pair.leadsLoaded(), pair.followsLoaded(), pair, r));
        }
      }
    }
    for (Job.SortieEntry s : job.sorties()) {
      if (JobVehicles.loaded(job, s) != null) {
        loaded.add(JobVehicles.loaded(job, s));
      }
    }
    int margins = job.corridors().isEmpty() ? 0 : Float.BYTES * (job.vehicles().size() + 1);
    return SHAPE_BYTES
        + field * job.vehicles().size()
        + (field + LOADED_BYTES) * loaded.size()
        + (job.walker() == null ? 0 : FIELD_BYTES)
        + margins;
  }

  /**
   * Returns the job's own questions, its sorties and those that candidate sites are asked in
   * addition.
   */
  private Set<Job.ReachEntry> questions() {
    Set<Job.ReachEntry> all = new LinkedHashSet<>(job.reach());
    job.sorties().forEach(s -> all.add(SortieAsReach.of(s)));
    if (job.sites() != null) {
      job.sites().candidates().forEach(c -> all.addAll(SiteQuestions.of(job, c)));
    }
    return all;
  }

  private double corridorCells(Job.CorridorEntry c) {
    double sum = 0;
    Places.Spot from = places.stop(c.via().get(0), c.where());
    for (String name : c.via().subList(1, c.via().size())) {
      Places.Spot to = places.stop(name, c.where());
      double radiusM = CORRIDOR_RADIUS * Math.hypot(to.xM() - from.xM(), to.yM() - from.yM());
      sum += ReachExtent.cellsWithin(spec, from.xM(), from.yM(), radiusM);
      from = to;
    }
    return sum;
  }
}
