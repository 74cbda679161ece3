package org.scarpway.site;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.ReachRequest.Target;
import org.scarpway.reach.ReachResult;
import org.scarpway.reach.ReachResult.TargetReach;
import org.scarpway.site.SiteFigures.ReachedArea;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;

/** Measures candidate sites and ranks them. Linear in cells for each candidate. */
public final class SiteComparison {
  private SiteComparison() {}

  /** Ranked candidates, best first. All grids are on the cells of the terrain. */
  public static List<SiteScore> compare(
      SiteParams params, Terrain terrain, Hazard hazard, List<SiteInput> candidates) {
    List<SiteFigures> figures = new ArrayList<>();
    for (SiteInput c : candidates) {
      figures.add(measure(params, terrain, hazard, c));
    }
    return SiteRanking.rank(figures, params.weights());
  }

  /** The figures of one candidate. */
  public static SiteFigures measure(
      SiteParams params, Terrain terrain, Hazard hazard, SiteInput site) {
    EllipseGround ground =
        new EllipseGround(params, site.xM(), site.yM(), terrain.slopeDeg(), hazard.hazard01());
    Map<SiteFigure, Double> v = new EnumMap<>(SiteFigure.class);
    v.put(SiteFigure.MEAN_SLOPE, ground.meanSlopeDeg());
    v.put(SiteFigure.STEEP_SLOPE, ground.slopeDegOf(0.95));
    v.put(SiteFigure.MEAN_HAZARD, ground.meanHazard01());
    v.put(SiteFigure.NO_HAZARD, ground.noHazard01());
    v.put(SiteFigure.NO_GO_DISTANCE, noGoDistanceM(site));
    List<ReachedArea> areas = site.reach().stream().map(SiteComparison::area).toList();
    v.put(
        SiteFigure.REACH_AREA,
        areas.stream().mapToDouble(a -> a.surelyM2() / 1e6).average().orElse(Double.NaN));
    putTargets(v, site);
    double share = Double.NaN;
    for (ReachResult r : site.reach()) {
      double s = GapDependence.of(r).sharePct();
      share = Double.isNaN(share) || s > share ? s : share;
    }
    v.put(SiteFigure.SINGLE_GAP_SHARE, share);
    return new SiteFigures(site.name(), site.xM(), site.yM(), v, areas, ground.voidPct());
  }

  private static ReachedArea area(ReachResult r) {
    long surely = 0;
    long possibly = 0;
    for (byte s : r.state().values()) {
      surely += s == ReachResult.SURELY ? 1 : 0;
      possibly += s == ReachResult.POSSIBLY ? 1 : 0;
    }
    double cellM2 = r.state().spec().cellAreaM2();
    return new ReachedArea(r.request().name(), surely * cellM2, possibly * cellM2);
  }

  private static void putTargets(Map<SiteFigure, Double> v, SiteInput site) {
    Set<String> reached = new HashSet<>();
    double weight = 0;
    double narrowestM = Double.NaN;
    for (ReachResult r : site.reach()) {
      for (TargetReach t : r.targets()) {
        if (!t.reached()) {
          continue;
        }
        if (reached.add(t.target().name())) {
          weight += t.target().weight();
        }
        double gapM = gapM(r, t.target());
        if (!Double.isNaN(gapM) && !(gapM >= narrowestM)) {
          narrowestM = gapM;
        }
      }
    }
    boolean asked = !site.reach().isEmpty();
    v.put(SiteFigure.TARGETS, asked ? reached.size() : Double.NaN);
    v.put(SiteFigure.TARGET_WEIGHT, asked ? weight : Double.NaN);
    v.put(SiteFigure.GAP_WIDTH, narrowestM);
  }

  private static double gapM(ReachResult r, Target target) {
    int cell = r.gapWidthM().spec().cellOf(target.xM(), target.yM());
    return cell < 0 ? Double.NaN : r.gapWidthM().values()[cell];
  }

  /**
   * From the site to the nearest point of a cell that is neither go nor slow (m); 0 on such a cell,
   * infinite if there is none. What lies outside the grid is not known and not counted.
   */
  private static double noGoDistanceM(SiteInput site) {
    ByteGrid cls = site.mobility().cls();
    GridSpec g = cls.spec();
    double best2 = Double.POSITIVE_INFINITY;
    for (int row = 0; row < g.rows(); row++) {
      double north = gap(site.yM() - g.yM(row), g.cellYM());
      if (north * north >= best2) {
        continue;
      }
      for (int col = 0; col < g.cols(); col++) {
        byte c = cls.at(row, col);
        if (c != Mobility.GO && c != Mobility.SLOW) {
          double east = gap(site.xM() - g.xM(col), g.cellXM());
          best2 = Math.min(best2, east * east + north * north);
        }
      }
    }
    return Math.sqrt(best2);
  }

  /** From a point to an interval of a cell's width, both along one axis. */
  private static double gap(double toCentreM, double cellM) {
    return Math.max(0, Math.abs(toCentreM) - cellM / 2);
  }
}
