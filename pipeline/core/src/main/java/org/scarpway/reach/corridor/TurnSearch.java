package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Set;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.front.Line;

/**
 * Searches a path from one stop to the next that never turns more tightly than the vehicle can,
 * over allowed cells and headings. Arcs and straight stretches are expanded from a position and
 * heading in A* order, with the accumulated cost surface as heuristic (hybrid A*: continuous
 * positions, one kept per cell and heading: Dolgov, Thrun, Montemerlo &amp; Diebel 2010, <i>Path
 * planning for autonomous vehicles in unknown semi-structured environments</i>, Int. J. Robotics
 * Research 29(5):485-501). The path is then shortened by turns and straight stretches between its
 * positions. The vehicle may leave a stop on any heading and does not reverse.
 */
final class TurnSearch {
  private static final int HEADINGS = 64;
  private static final double PER_HEADING = 2 * Math.PI / HEADINGS;
  private static final int[] TURNS = {0, 1, 2, 4, 8, 16};
  private static final int[] SPANS = {2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96, 128};

  /** Largest number of positions that a search creates. */
  static final int MOST_PLACES = 400_000;

  /**
   * Weight of the heuristic. The front ignores turning; a weight slightly above 1 finds a path much
   * sooner.
   */
  private static final double TRUST = 1.03;

  private final Detours leg;
  private final Costs costs;
  private final GridSpec spec;
  private final Line line;
  private final double radiusM;
  private final double stepM;
  private final double strideM;

  private TurnSearch(Detours leg, Costs costs, double radiusM) {
    this.leg = leg;
    this.costs = costs;
    this.spec = costs.field().spec();
    this.line = new Line(spec);
    this.radiusM = radiusM;
    this.stepM = stepM(spec);
    this.strideM = Math.max(1.5 * spec.cellM(), radiusM * Math.PI / 8 * (1 + 1e-9));
  }

  /** Longest chord of an arc (m). */
  static double stepM(GridSpec spec) {
    return 0.5 * Math.min(spec.cellXM(), spec.cellYM());
  }

  /**
   * The result of a search.
   *
   * @param way the path, null if none was found
   * @param cost cost of the path
   * @param stuck the cell nearest to the end that the search reached; -1 if a path was found
   */
  record Found(LegLine way, double cost, int stuck) {}

  /**
   * @param leg leg with the accumulated cost to its end
   * @param costs costs of the same quantity, headings in the direction of travel
   * @param mostPlaces number of positions after which the search stops without a path
   */
  static Found along(Detours leg, Costs costs, double radiusM, int mostPlaces) {
    if (leg.start() == leg.end()) {
      return new Found(LegLine.of(costs.field().spec(), new int[] {leg.start()}), 0, -1);
    }
    return new TurnSearch(leg, costs, radiusM).search(mostPlaces);
  }

  /** A search node: a position and the track that leads to it from the previous one. */
  private static final class Place implements Comparable<Place> {
    final Place before;
    final Track track;
    final double x;
    final double y;
    final double heading;
    final double cost;
    final double rank;
    final int number;

    Place(
        Place before,
        Track track,
        double x,
        double y,
        double heading,
        double cost,
        double rank,
        int number) {
      this.before = before;
      this.track = track;
      this.x = x;
      this.y = y;
      this.heading = heading;
      this.cost = cost;
      this.rank = rank;
      this.number = number;
    }

    @Override
    public int compareTo(Place o) {
      return rank != o.rank ? Double.compare(rank, o.rank) : Integer.compare(number, o.number);
    }
  }

  private Found search(int mostPlaces) {
    double endX = col(leg.end()) * spec.cellXM();
    double endY = row(leg.end()) * spec.cellYM();
    double startX = col(leg.start()) * spec.cellXM();
    double startY = row(leg.start()) * spec.cellYM();
    PriorityQueue<Place> open = new PriorityQueue<>();
    Set<Long> done = new HashSet<>();
    int number = 0;
    for (int k = 0; k < HEADINGS; k++) {
      double rank = TRUST * leg.to().value(leg.start());
      open.add(new Place(null, null, startX, startY, k * PER_HEADING, 0, rank, number++));
    }
    Place nearest = open.peek();
    while (!open.isEmpty() && number < mostPlaces) {
      Place here = open.poll();
      if (here.x == endX && here.y == endY) {
        return shortened(here);
      }
      if (here.before != null && !done.add(key(here))) {
        continue;
      }
      nearest = left(here) < left(nearest) ? here : nearest;
      if (Math.hypot(endX - here.x, endY - here.y) <= 8 * strideM) {
        Track last = Track.to(radiusM, stepM, here.x, here.y, here.heading, endX, endY);
        double cost = last == null ? Double.POSITIVE_INFINITY : cost(last);
        if (cost < Double.POSITIVE_INFINITY) {
          double g = here.cost + cost;
          open.add(new Place(here, last, endX, endY, last.heading(), g, g, number++));
        }
      }
      for (int turn : TURNS) {
        double angle = turn * PER_HEADING;
        if (angle * radiusM > strideM) {
          break;
        }
        for (int side = -1; side <= (turn == 0 ? -1 : 1); side += 2) {
          Track track =
              new Track(radiusM, stepM, here.x, here.y, here.heading)
                  .turn(side, angle)
                  .straight(strideM - angle * radiusM);
          double x = track.x(track.size() - 1);
          double y = track.y(track.size() - 1);
          int cell = cellAt(x, y);
          if (cell < 0 || !leg.to().reached(cell)) {
            continue;
          }
          double g = here.cost + cost(track);
          if (g < Double.POSITIVE_INFINITY) {
            Place next =
                new Place(
                    here,
                    track,
                    x,
                    y,
                    track.heading(),
                    g,
                    g + TRUST * leg.to().value(cell),
                    number++);
            if (!done.contains(key(next))) {
              open.add(next);
            }
          }
        }
      }
    }
    return new Found(null, Double.POSITIVE_INFINITY, cellAt(nearest.x, nearest.y));
  }

  private int row(int cell) {
    return cell / spec.cols();
  }

  private int col(int cell) {
    return cell % spec.cols();
  }

  private double left(Place p) {
    return leg.to().value(cellAt(p.x, p.y));
  }

  private long key(Place p) {
    long heading = Math.floorMod(Math.round(p.heading / PER_HEADING), (long) HEADINGS);
    return (long) cellAt(p.x, p.y) * HEADINGS + heading;
  }

  private int cellAt(double x, double y) {
    int row = (int) Math.floor(y / spec.cellYM() + 0.5);
    int col = (int) Math.floor(x / spec.cellXM() + 0.5);
    return spec.holds(row, col) ? row * spec.cols() + col : -1;
  }

  /** Cost of the track's chords, infinite if one is not allowed or leaves the grid. */
  private double cost(Track track) {
    double sum = 0;
    for (int i = 1; i < track.size(); i++) {
      if (cellAt(track.x(i), track.y(i)) < 0) {
        return Double.POSITIVE_INFINITY;
      }
      sum +=
          line.through(
                  track.y(i - 1) / spec.cellYM(),
                  track.x(i - 1) / spec.cellXM(),
                  track.y(i) / spec.cellYM(),
                  track.x(i) / spec.cellXM())
              .cost(costs);
      if (sum == Double.POSITIVE_INFINITY) {
        return sum;
      }
    }
    return sum;
  }

  /** The path from start to end, with longer tracks substituted where they cost less. */
  private Found shortened(Place end) {
    List<Place> way = new ArrayList<>();
    for (Place p = end; p != null; p = p.before) {
      way.add(p);
    }
    Collections.reverse(way);
    double[] best = new double[way.size()];
    int[] from = new int[way.size()];
    Track[] last = new Track[way.size()];
    for (int j = 1; j < way.size(); j++) {
      Place b = way.get(j);
      best[j] = best[j - 1] + (b.cost - way.get(j - 1).cost);
      from[j] = j - 1;
      last[j] = b.track;
      for (int span : SPANS) {
        if (span > j || best[j - span] >= best[j]) {
          continue;
        }
        Place a = way.get(j - span);
        Track t = Track.between(radiusM, stepM, a.x, a.y, a.heading, b.x, b.y, b.heading);
        double cost = best[j - span] + cost(t);
        if (cost < best[j]) {
          best[j] = cost;
          from[j] = j - span;
          last[j] = t;
        }
      }
    }
    List<Track> tracks = new ArrayList<>();
    for (int j = way.size() - 1; j > 0; j = from[j]) {
      tracks.add(last[j]);
    }
    Collections.reverse(tracks);
    return new Found(asLeg(tracks), best[way.size() - 1], -1);
  }

  private LegLine asLeg(List<Track> tracks) {
    int n = 1;
    for (Track t : tracks) {
      n += t.size() - 1;
    }
    double[] row = new double[n];
    double[] col = new double[n];
    row[0] = row(leg.start());
    col[0] = col(leg.start());
    int k = 1;
    for (Track t : tracks) {
      for (int i = 1; i < t.size(); i++) {
        row[k] = t.y(i) / spec.cellYM();
        col[k++] = t.x(i) / spec.cellXM();
      }
    }
    row[n - 1] = row(leg.end());
    col[n - 1] = col(leg.end());
    return new LegLine(row, col);
  }
}
