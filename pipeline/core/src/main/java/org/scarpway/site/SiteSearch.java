package org.scarpway.site;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.trip.AreaScreen;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.TraversalCost;

/**
 * Searches for places with a large reachable area. Every place of a regular lattice that the
 * vehicle can stand on is screened by an upper bound on the area reachable within a time. The
 * search is fast but not final: the selected places are candidates for the full reach computation.
 */
public final class SiteSearch {
  /** Maximum number of places, which are screened in minutes. */
  public static final int MOST_PLACES = 4000;

  private SiteSearch() {}

  /**
   * Result of the search.
   *
   * @param places number of places of the lattice
   * @param fit number of these on which the vehicle can stand with the required room
   * @param groundM2 area of ground with elevation (m2)
   * @param found selected places, best first
   */
  public record Result(int places, int fit, double groundM2, List<FoundSite> found) {
    public Result {
      found = List.copyOf(found);
    }

    /** Upper bound on the share of the ground that is reachable from a place (%). */
    public double groundPct(FoundSite site) {
      return 100 * site.areaM2() / groundM2;
    }
  }

  private record Screened(int cell, double areaM2) {}

  /** Number of places of the lattice. */
  public static long places(GridSpec spec, double spacingM) {
    return count(spec.cols() * spec.cellXM(), spacingM)
        * count(spec.rows() * spec.cellYM(), spacingM);
  }

  private static long count(double sideM, double spacingM) {
    return Math.max(1, (long) Math.floor(sideM / spacingM));
  }

  /**
   * Screens all places, each by one thread. Of two equal places the one further north, then further
   * west, ranks first.
   *
   * @param cls class of each cell, as in {@link Mobility}
   * @param field the same vehicle's costs
   */
  public static Result search(
      SearchParams params, ByteGrid cls, TraversalCost field, Workers workers, Progress progress) {
    GridSpec spec = cls.spec();
    int[] lattice = lattice(spec, params.spacingM());
    AreaScreen screen = AreaScreen.of(field, workers);
    Screened[] screened = new Screened[lattice.length];
    List<Runnable> tasks = new ArrayList<>();
    progress.begin("site search", lattice.length);
    for (int i = 0; i < lattice.length; i++) {
      int at = i;
      int cell = lattice[i];
      tasks.add(
          () -> {
            if (fits(cls, cell, params.clearM())) {
              screened[at] = new Screened(cell, screen.areaM2(cell, params.timeS()));
            }
            progress.advance(1);
          });
    }
    workers.all(tasks);
    progress.end();
    List<Screened> fit = new ArrayList<>();
    for (Screened s : screened) {
      if (s != null) {
        fit.add(s);
      }
    }
    return new Result(lattice.length, fit.size(), groundM2(cls), best(params, cls, fit));
  }

  /**
   * Returns the cells of the lattice, which is centred on the grid, row by row from the north-west.
   */
  private static int[] lattice(GridSpec spec, double spacingM) {
    int across = (int) count(spec.cols() * spec.cellXM(), spacingM);
    int down = (int) count(spec.rows() * spec.cellYM(), spacingM);
    double west = (spec.westM() + spec.eastM() - (across - 1) * spacingM) / 2;
    double north = (spec.northM() + spec.southM() + (down - 1) * spacingM) / 2;
    int[] cells = new int[across * down];
    for (int i = 0; i < cells.length; i++) {
      int row = i / across;
      int col = i % across;
      cells[i] = spec.cellOf(west + col * spacingM, north - row * spacingM);
    }
    return cells;
  }

  private static boolean fits(ByteGrid cls, int cell, double clearM) {
    byte c = cls.values()[cell];
    GridSpec g = cls.spec();
    return (c == Mobility.GO || c == Mobility.SLOW)
        && NoGoDistance.ofM(cls, g.xM(cell % g.cols()), g.yM(cell / g.cols()), clearM) >= clearM;
  }

  private static double groundM2(ByteGrid cls) {
    long cells = 0;
    for (byte c : cls.values()) {
      cells += c != 0 ? 1 : 0;
    }
    return cells * cls.spec().cellAreaM2();
  }

  private static List<FoundSite> best(SearchParams params, ByteGrid cls, List<Screened> fit) {
    GridSpec g = cls.spec();
    List<Screened> order = new ArrayList<>(fit);
    order.sort(Comparator.comparingDouble((Screened s) -> -s.areaM2).thenComparingInt(s -> s.cell));
    List<FoundSite> kept = new ArrayList<>();
    for (Screened s : order) {
      double x = g.xM(s.cell % g.cols());
      double y = g.yM(s.cell / g.cols());
      if (kept.size() < params.keep()
          && kept.stream().allMatch(k -> Math.hypot(k.xM() - x, k.yM() - y) >= params.apartM())) {
        double roomM = NoGoDistance.ofM(cls, x, y, Double.POSITIVE_INFINITY);
        kept.add(new FoundSite(kept.size() + 1, x, y, s.areaM2, roomM));
      }
    }
    return kept;
  }
}
