package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.config.Job;

/** What a reader must know of light and contact. */
public final class LightNotes {
  private LightNotes() {}

  /** Returns one line for each caution; none where the job asks for neither. */
  public static List<String> of(Job job) {
    List<String> notes = new ArrayList<>();
    if (job.light() == null) {
      return notes;
    }
    double spacing = 360.0 / job.light().azimuths();
    Double sigma = job.dem().verticalSigmaM();
    notes.add(
        "light: horizons are those of the elevation model: 95 % of their sampling errors are below"
            + " 0.2 deg on rough ground of 5 m cells (median 0.01, worst about 2 deg, close to the"
            + " eye; more on slopes of 45 deg and beside the edge of the data)"
            + (sigma == null
                ? "; its height error was not stated"
                : String.format(
                    Locale.ROOT,
                    "; a height error of %s m is %.3f deg at 1 km",
                    sigma,
                    Math.toDegrees(Math.atan(sigma / 1000))))
            + String.format(
                Locale.ROOT,
                "; peaks narrower than %.3g deg can be missed. Cautious products raise horizons by"
                    + " %s deg.",
                spacing,
                job.light().horizonErrorDeg()));
    if (job.light().far() == null) {
      notes.add(
          "light: without light.dem_far, ground beyond the elevation model hides nothing:"
              + " edge_share.tif says where horizons lie at its edge, and light and contact there may"
              + " be less.");
    }
    if (job.dem().body().name().equals("moon")) {
      notes.add(
          "light: a lunar eclipse lasts up to two light.step_min longer than told, and one between two"
              + " looks at the sky is not seen: take a short step where the window holds one.");
    }
    notes.add(
        "light: planning aid from "
            + (job.light().table() == null
                ? "published series (within about 0.01 deg)"
                : "the mission's table")
            + "; not for navigation or life support decisions without the mission's own ephemeris"
            + " and a survey of the horizon.");
    return notes;
  }
}
