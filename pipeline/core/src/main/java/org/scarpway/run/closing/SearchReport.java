package org.scarpway.run.closing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.config.Job;
import org.scarpway.report.ReportData;
import org.scarpway.report.ReportData.Kind;
import org.scarpway.site.FoundSite;
import org.scarpway.site.SearchParams;
import org.scarpway.site.SiteSearch;
import org.scarpway.stage.Digits;

/** The section of the report on the site search. */
final class SearchReport {
  private SearchReport() {}

  static ReportData.Table table(Job.SearchSettings settings, SiteSearch.Result r) {
    List<List<String>> rows = new ArrayList<>();
    List<ReportData.Place> marks = new ArrayList<>();
    for (FoundSite f : r.found()) {
      rows.add(
          List.of(
              f.name(),
              fixed(f.xM()),
              fixed(f.yM()),
              Digits.of(f.areaM2() / 1e6),
              Digits.of(r.groundPct(f)),
              Double.isFinite(f.roomM()) ? Digits.of(f.roomM()) : "none on the map"));
      marks.add(new ReportData.Place(f.name(), f.xM(), f.yM(), Kind.FOUND));
    }
    return new ReportData.Table(
        "Places found by the search",
        summary(settings, r),
        List.of(
            "place",
            "E (m)",
            "N (m)",
            "reach at most (km2)",
            "of the ground (%)",
            "no-go (m away)"),
        rows,
        new ReportData.Marks(settings.vehicle(), marks),
        null);
  }

  private static String summary(Job.SearchSettings settings, SiteSearch.Result r) {
    SearchParams p = settings.params();
    String places =
        String.format(
            Locale.ROOT,
            "Of %d places %s m apart, %s can stand on %d with %s m of room to no-go ground",
            r.places(),
            Digits.of(p.spacingM()),
            settings.vehicle(),
            r.fit(),
            Digits.of(p.clearM()));
    if (r.found().isEmpty()) {
      return places + ".";
    }
    FoundSite best = r.found().get(0);
    return String.format(
        Locale.ROOT,
        "%s. The most ground within %s h, out and home, lies about %s: at most %s km². These are"
            + " bounds from above that take no heed of energy or headings; ask the full questions"
            + " of the places as candidates.",
        places,
        Digits.of(p.timeS() / 3600),
        best.name(),
        Digits.of(best.areaM2() / 1e6));
  }

  private static String fixed(double v) {
    return String.format(Locale.ROOT, "%.1f", v);
  }
}
