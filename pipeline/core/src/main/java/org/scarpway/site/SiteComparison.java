package org.scarpway.site;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.site.SiteFigures.ReachedArea;

/**
 * Measures candidate sites and ranks them. The cost per candidate is linear in the number of cells,
 * which are read by rows.
 */
public final class SiteComparison {
  private SiteComparison() {}

  /** Measures and ranks the candidates, best first. */
  public static List<SiteScore> compare(
      SiteParams params, SiteGround ground, List<SiteInput> candidates) {
    List<SiteFigures> figures = new ArrayList<>();
    for (SiteInput c : candidates) {
      figures.add(measure(params, ground, c));
    }
    return SiteRanking.rank(figures, params.weights());
  }

  /** Computes the figures of one candidate. */
  public static SiteFigures measure(SiteParams params, SiteGround ground, SiteInput site) {
    EllipseGround ellipse =
        new EllipseGround(LandingEllipse.at(params, ground.spec(), site.xM(), site.yM()), ground);
    Map<SiteFigure, Double> v = new EnumMap<>(SiteFigure.class);
    v.put(SiteFigure.MEAN_SLOPE, ellipse.meanSlopeDeg());
    v.put(SiteFigure.STEEP_SLOPE, ellipse.slopeDegOf(0.95));
    v.put(SiteFigure.MEAN_HAZARD, ellipse.meanHazard01());
    v.put(SiteFigure.NO_HAZARD, ellipse.noHazard01());
    v.put(
        SiteFigure.NO_GO_DISTANCE,
        NoGoDistance.ofM(
            ground.spec(), ground::readClass, site.xM(), site.yM(), Double.POSITIVE_INFINITY));
    List<ReachedArea> areas = site.reach().stream().map(SiteReach::area).toList();
    v.put(
        SiteFigure.REACH_AREA,
        areas.stream().mapToDouble(a -> a.surelyM2() / 1e6).average().orElse(Double.NaN));
    putTargets(v, site);
    double share = Double.NaN;
    for (SiteReach r : site.reach()) {
      double s = r.lostPct();
      share = Double.isNaN(share) || s > share ? s : share;
    }
    v.put(SiteFigure.SINGLE_GAP_SHARE, share);
    return new SiteFigures(site.name(), site.xM(), site.yM(), v, areas, ellipse.voidPct());
  }

  private static void putTargets(Map<SiteFigure, Double> v, SiteInput site) {
    Set<String> reached = new HashSet<>();
    double weight = 0;
    double narrowestM = Double.NaN;
    for (SiteReach r : site.reach()) {
      for (Target t : r.reached()) {
        weight += reached.add(t.name()) ? t.weight() : 0;
      }
      if (!Double.isNaN(r.narrowestM()) && !(r.narrowestM() >= narrowestM)) {
        narrowestM = r.narrowestM();
      }
    }
    boolean asked = !site.reach().isEmpty();
    v.put(SiteFigure.TARGETS, asked ? reached.size() : Double.NaN);
    v.put(SiteFigure.TARGET_WEIGHT, asked ? weight : Double.NaN);
    v.put(SiteFigure.GAP_WIDTH, narrowestM);
  }
}
