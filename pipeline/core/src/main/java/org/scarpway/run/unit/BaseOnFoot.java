package org.scarpway.run.unit;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.vehicle.OnFoot;

/**
 * Warns of bases and refuges that can be walked on but hardly left or entered on foot: a walk home
 * ends there from a few cells only, and the reach by the rule walk-back is next to nothing.
 */
public final class BaseOnFoot {
  /** Largest ground that is told. */
  static final int FEW_CELLS = 25;

  private final PlaceGround ground;
  private final GridSpec spec;
  private final Set<Integer> open = new HashSet<>();
  private final List<OnFoot> closed = new ArrayList<>();

  private BaseOnFoot(PlaceGround ground, GridSpec spec) {
    this.ground = ground;
    this.spec = spec;
  }

  /** True if a question of the job asks for a walk home. */
  public static boolean asked(Job job) {
    return job.reach().stream().anyMatch(r -> r.home() == HomeRule.WALK_BACK);
  }

  /** Returns one line for each base or refuge with little ground on foot around it. */
  public static List<String> notes(OpenJob job, PlaceGround ground) {
    Set<String> names = new LinkedHashSet<>();
    for (Job.ReachEntry r : job.job().reach()) {
      if (r.home() == HomeRule.WALK_BACK) {
        names.add(r.from());
        names.addAll(r.refuges());
      }
    }
    List<String> notes = new ArrayList<>();
    for (String name : names) {
      Places.Spot spot = job.places().find(name);
      if (spot != null) {
        String note = new BaseOnFoot(ground, job.spec()).note(spot);
        if (note != null) {
          notes.add(note);
        }
      }
    }
    return notes;
  }

  private String note(Places.Spot spot) {
    int cell = spec.cellOf(spot.xM(), spot.yM());
    if (!at(cell).walkable() || !isSmall(cell) || closed.isEmpty()) {
      return null;
    }
    OnFoot any = closed.get(0);
    List<String> why = new ArrayList<>();
    add(why, "keep-out ground", closed.stream().filter(OnFoot::keptOut).count());
    add(
        why,
        String.format(Locale.ROOT, "slope of more than %.1f deg", any.maxSlopeDeg()),
        closed.stream().filter(w -> !Double.isNaN(w.slopeTan()) && !w.slopeHeld()).count());
    add(
        why,
        String.format(Locale.ROOT, "a step of more than %.2f m (max_step_m)", any.maxStepM()),
        closed.stream().filter(w -> Double.isFinite(w.stepM()) && !w.stepHeld()).count());
    add(
        why,
        "unknown heights",
        closed.stream()
            .filter(w -> Double.isNaN(w.slopeTan()) || !Double.isFinite(w.stepM()))
            .count());
    double areaM2 = open.size() * spec.cellXM() * spec.cellYM();
    return String.format(
        Locale.ROOT,
        "'%s': its ground on foot is %d %s (%s m2); of the %d cells beside it the walker's limits"
            + " close %s. Nobody walks there from farther away.",
        spot.name(),
        open.size(),
        open.size() == 1 ? "cell" : "cells",
        String.format(Locale.ROOT, areaM2 < 10 ? "%.2f" : "%.0f", areaM2),
        closed.size(),
        String.join(", ", why));
  }

  private static void add(List<String> why, String limit, long cells) {
    if (cells > 0) {
      why.add(cells + " by " + limit);
    }
  }

  /**
   * Gathers the ground joined to a cell, and the closed cells beside it. A straight step crosses
   * the edges of cells, or a corner with neither cell beside it closed, so cells are joined across
   * edges only.
   */
  private boolean isSmall(int from) {
    Set<Integer> seen = new HashSet<>(Set.of(from));
    ArrayDeque<Integer> next = new ArrayDeque<>(seen);
    while (!next.isEmpty() && open.size() <= FEW_CELLS) {
      int cell = next.remove();
      OnFoot here = at(cell);
      if (!here.walkable()) {
        closed.add(here);
        continue;
      }
      open.add(cell);
      int row = cell / spec.cols();
      int col = cell % spec.cols();
      for (int k = 0; k < 4; k++) {
        int r = row + (k == 0 ? -1 : k == 1 ? 1 : 0);
        int c = col + (k == 2 ? -1 : k == 3 ? 1 : 0);
        if (spec.holds(r, c) && seen.add(r * spec.cols() + c)) {
          next.add(r * spec.cols() + c);
        }
      }
    }
    return open.size() <= FEW_CELLS;
  }

  private OnFoot at(int cell) {
    return ground.onFoot(ground.at(spec.xM(cell % spec.cols()), spec.yM(cell / spec.cols())));
  }
}
