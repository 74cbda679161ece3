package org.scarpway.run.unit;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.LightSettings;
import org.scarpway.grid.GridSpec;
import org.scarpway.light.PlaceAxes;
import org.scarpway.light.PlaceTrack;
import org.scarpway.light.Sight;
import org.scarpway.light.Sky;
import org.scarpway.light.TrackRows;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;

/**
 * What stands in the sky over a place of the job.
 *
 * @param around its horizon, by rays
 * @param plain above that horizon
 * @param cautious above that horizon raised by its error, or by the margin of contact
 */
record LitPlace(
    String name, double xM, double yM, Sight.Around around, PlaceTrack plain, PlaceTrack cautious) {

  /** True if the longest spell below may last longer: by the window, or by a horizon not known. */
  boolean longestIsAtLeast() {
    return cautious.longestIsAtLeast() || around.atEdge().contains(true);
  }

  /** A place of the job: a base or a target. */
  record Spot(String name, double xM, double yM) {}

  /** Returns the bases and targets of a job. */
  static List<Spot> spots(OpenJob job) {
    Map<String, Spot> all = new LinkedHashMap<>();
    for (Places.Spot s : job.places().bases().values()) {
      all.put(s.name(), new Spot(s.name(), s.xM(), s.yM()));
    }
    for (Target t : job.places().targets()) {
      all.putIfAbsent(t.name(), new Spot(t.name(), t.xM(), t.yM()));
    }
    return List.copyOf(all.values());
  }

  /**
   * Follows sun or Earth over all places whose height is known.
   *
   * @param eyeM height above the ground (m)
   */
  static List<LitPlace> all(
      OpenJob job, LightGround ground, Sky sky, List<Instant> times, double eyeM, boolean sun) {
    LightSettings light = job.job().light();
    Sight sight = new Sight(ground.ground(), ground.far(), ground.radiusM(light.bending()));
    double margin = sun ? light.horizonErrorDeg() : job.job().contact().earthMarginDeg();
    double threshold = sun ? light.darkShare() : Double.NaN;
    List<Spot> spots = spots(job);
    LitPlace[] done = new LitPlace[spots.size()];
    List<Runnable> tasks = new ArrayList<>();
    for (int i = 0; i < done.length; i++) {
      int k = i;
      tasks.add(
          () -> {
            Spot s = spots.get(k);
            GridSpec spec = job.spec();
            int row = spec.rowOf(s.yM);
            int col = spec.colOf(s.xM);
            PlaceAxes axes = PlaceAxes.of(ground.map(), s.xM, s.yM, ground.radiusM() / 1000);
            if (axes == null || !ground.ground().knows(row, col)) {
              return;
            }
            Sight.Around around = sight.horizon(row, col, eyeM, light.azimuths());
            done[k] =
                new LitPlace(
                    s.name,
                    s.xM,
                    s.yM,
                    around,
                    track(sky, times, around, axes, 0, threshold, sun),
                    track(sky, times, around, axes, margin, threshold, sun));
          });
    }
    job.workers().all(tasks);
    List<LitPlace> all = new ArrayList<>();
    for (LitPlace p : done) {
      if (p != null) {
        all.add(p);
      }
    }
    return all;
  }

  private static PlaceTrack track(
      Sky sky,
      List<Instant> times,
      Sight.Around around,
      PlaceAxes axes,
      double raisedDeg,
      double threshold,
      boolean sun) {
    TrackRows.Question question = new TrackRows.Question(raisedDeg, threshold, List.of());
    return PlaceTrack.of(sky, times, around, axes, question, sun);
  }
}
