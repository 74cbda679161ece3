package org.scarpway.site;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
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
   * @param classes of all rows; each is read once, from north to south
   * @param field the same vehicle's costs
   */
  public static Result search(
      SearchParams params,
      ClassRows classes,
      TraversalCost field,
      Workers workers,
      Progress progress) {
    GridSpec spec = field.spec();
    BitSet usable = new BitSet();
    double groundM2 = readAll(classes, spec, usable) * spec.cellAreaM2();
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
            if (fits(spec, usable, cell, params.clearM())) {
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
    return new Result(lattice.length, fit.size(), groundM2, best(params, spec, usable, fit));
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

  /**
   * Returns the number of cells with a class.
   *
   * @param usable receives the cells that are go or slow
   */
  private static long readAll(ClassRows classes, GridSpec spec, BitSet usable) {
    byte[] cls = new byte[spec.cols()];
    long known = 0;
    for (int row = 0; row < spec.rows(); row++) {
      classes.read(row, cls);
      for (int col = 0; col < cls.length; col++) {
        known += cls[col] != 0 ? 1 : 0;
        if (cls[col] == Mobility.GO || cls[col] == Mobility.SLOW) {
          usable.set(row * cls.length + col);
        }
      }
    }
    return known;
  }

  private static boolean fits(GridSpec g, BitSet usable, int cell, double clearM) {
    double xM = g.xM(cell % g.cols());
    double yM = g.yM(cell / g.cols());
    return usable.get(cell) && roomM(g, usable, xM, yM, clearM) >= clearM;
  }

  private static double roomM(GridSpec g, BitSet usable, double xM, double yM, double mostM) {
    ClassRows rows =
        (row, into) -> {
          for (int col = 0; col < into.length; col++) {
            into[col] = usable.get(row * into.length + col) ? Mobility.GO : Mobility.NO_GO;
          }
        };
    return NoGoDistance.ofM(g, rows, xM, yM, mostM);
  }

  private static List<FoundSite> best(
      SearchParams params, GridSpec g, BitSet usable, List<Screened> fit) {
    List<Screened> order = new ArrayList<>(fit);
    order.sort(Comparator.comparingDouble((Screened s) -> -s.areaM2).thenComparingInt(s -> s.cell));
    List<FoundSite> kept = new ArrayList<>();
    for (Screened s : order) {
      double x = g.xM(s.cell % g.cols());
      double y = g.yM(s.cell / g.cols());
      if (kept.size() < params.keep()
          && kept.stream().allMatch(k -> Math.hypot(k.xM() - x, k.yM() - y) >= params.apartM())) {
        double roomM = roomM(g, usable, x, y, Double.POSITIVE_INFINITY);
        kept.add(new FoundSite(kept.size() + 1, x, y, s.areaM2, roomM));
      }
    }
    return kept;
  }
}
