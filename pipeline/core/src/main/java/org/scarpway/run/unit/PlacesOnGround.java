package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.report.ReportData.AtPlace;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.vehicle.Vehicle;

/**
 * Mobility of every vehicle at the bases and targets of a job, heading by heading, for the report.
 */
public final class PlacesOnGround {
  /** Number of places that fit a page of roses; the products hold all. */
  private static final int MOST_PLACES = 24;

  private PlacesOnGround() {}

  public static List<AtPlace> of(OpenJob open, PlaceGround ground) {
    Places places = open.places();
    List<Target> spots = new ArrayList<>();
    places.bases().values().forEach(s -> spots.add(new Target(s.name(), s.xM(), s.yM(), 1, 0, 0)));
    spots.addAll(places.targets());
    List<AtPlace> all = new ArrayList<>();
    for (Target t : spots.subList(0, Math.min(MOST_PLACES, spots.size()))) {
      PlaceGround.Here here = ground.at(t.xM(), t.yM());
      for (Vehicle v : open.job().vehicles()) {
        all.add(new AtPlace(t.name(), v.name(), ground.explain(here, v)));
      }
    }
    return all;
  }
}
