package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.ReportData;
import org.scarpway.run.ground.Places;
import org.scarpway.site.LandingEllipse;
import org.scarpway.site.SiteFigure;
import org.scarpway.site.SiteFigures;
import org.scarpway.site.SiteParams;
import org.scarpway.site.SiteScore;
import org.scarpway.stage.Digits;

/** The landing ellipses of a job's candidates, as polygons and in words. */
public final class SiteEllipses {

  private SiteEllipses() {}

  /** Returns the ellipses by candidate in the job's order; empty if the job compares no sites. */
  public static Map<String, LandingEllipse> of(Job job, Places places, GridSpec spec) {
    Map<String, LandingEllipse> all = new LinkedHashMap<>();
    if (job.sites() != null) {
      SiteParams params = params(job.sites());
      for (String name : job.sites().candidates()) {
        Places.Spot spot = places.stop(name, job.sites().where());
        all.put(name, LandingEllipse.at(params, spec, spot.xM(), spot.yM()));
      }
    }
    return all;
  }

  /** Returns the outlines in the order of the ranking. */
  static List<Feature> features(SiteParams params, GridSpec spec, List<SiteScore> scores) {
    List<Feature> all = new ArrayList<>();
    for (SiteScore s : scores) {
      SiteFigures f = s.figures();
      LandingEllipse e = LandingEllipse.at(params, spec, f.xM(), f.yM());
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("name", f.name());
      about.put("rank", s.rank());
      about.put("long_axis_m", e.longM());
      about.put("short_axis_m", e.shortM());
      about.put("azimuth_true_deg", e.fromTrueNorth() ? e.azimuthDeg() : Double.NaN);
      about.put("azimuth_grid_deg", e.gridAzimuthDeg());
      all.add(new Feature(e.outline(), about));
    }
    return all;
  }

  /** Returns what a reader must know about the azimuths. */
  public static List<String> notes(Map<String, LandingEllipse> ellipses) {
    List<String> lost = new ArrayList<>();
    ellipses.forEach(
        (name, e) -> {
          if (!e.fromTrueNorth() && e.longM() > e.shortM()) {
            lost.add(name);
          }
        });
    return lost.isEmpty()
        ? List.of()
        : List.of(
            "the azimuth of the landing ellipse counts from grid north at "
                + String.join(", ", lost)
                + ": the map tells no true north there");
  }

  /** Describes axes and azimuth in a sentence. */
  public static String sentence(Collection<LandingEllipse> ellipses) {
    LandingEllipse any = ellipses.iterator().next();
    boolean allTrue = ellipses.stream().allMatch(LandingEllipse::fromTrueNorth);
    boolean noneTrue = ellipses.stream().noneMatch(LandingEllipse::fromTrueNorth);
    String axes =
        "Landing ellipses (99 % of touchdowns) of "
            + Digits.of(any.longM())
            + " x "
            + Digits.of(any.shortM());
    if (any.longM() == any.shortM()) {
      return axes + " m are circles.";
    }
    String north = allTrue ? "true north" : noneTrue ? "grid north" : "north, see the table";
    return axes
        + " m have their long axis "
        + Digits.of(any.azimuthDeg())
        + " deg clockwise from "
        + north
        + ".";
  }

  public static ReportData.Table table(Map<String, LandingEllipse> ellipses) {
    List<List<String>> rows = new ArrayList<>();
    ellipses.forEach(
        (name, e) ->
            rows.add(
                List.of(
                    name,
                    Digits.of(e.longM()),
                    Digits.of(e.shortM()),
                    e.fromTrueNorth() ? Digits.of(e.azimuthDeg()) : "none",
                    Digits.of(e.gridAzimuthDeg()))));
    return new ReportData.Table(
        "Landing ellipses, 99 % of touchdowns",
        "",
        List.of(
            "site",
            "long axis (m)",
            "short axis (m)",
            "azimuth of the long axis from true north (deg)",
            "from grid north (deg)"),
        rows);
  }

  /** Returns the parameters by which the job compares its candidates. */
  public static SiteParams params(Job.SiteSettings settings) {
    Map<SiteFigure, Double> weights = new EnumMap<>(SiteFigure.class);
    for (Job.Weight w : settings.weights()) {
      weights.put(SiteFigure.ofKey(w.figure()).orElseThrow(), w.weight());
    }
    return new SiteParams(
        settings.ellipseLongM(), settings.ellipseShortM(), settings.ellipseAzimuthDeg(), weights);
  }
}
