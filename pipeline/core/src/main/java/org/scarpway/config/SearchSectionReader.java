package org.scarpway.config;

import java.util.List;
import org.scarpway.config.Job.SearchSettings;
import org.scarpway.site.SearchParams;
import org.scarpway.vehicle.Vehicle;

/** Reads the site search in the section sites of a job. */
final class SearchSectionReader {
  private SearchSectionReader() {}

  /** Returns the settings, or null if the job searches for none. */
  static SearchSettings read(Entry sites, JobNames names, Problems problems) {
    Entry search = sites.get("search");
    if (!sites.sound() || !search.present()) {
      return null;
    }
    Vehicle vehicle = names.vehicle(search.get("vehicle"), problems);
    double spacingM = search.number("spacing_m");
    Entry clear = search.get("clear_m");
    Entry apart = search.get("apart_m");
    List<Entry> axesM = sites.get("ellipse_m").items();
    double ellipseM = axesM.isEmpty() ? 0 : axesM.get(0).number() / 2;
    return new SearchSettings(
        new SearchParams(
            spacingM,
            3600 * search.number("time_h"),
            clear.present() ? clear.number() : ellipseM,
            search.whole("keep"),
            apart.present() ? apart.number() : spacingM),
        vehicle == null ? "" : vehicle.name(),
        search.keyAt().toString());
  }
}
