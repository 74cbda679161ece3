package org.scarpway.geodata.vector;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.algorithm.LineIntersector;
import org.locationtech.jts.algorithm.RobustLineIntersector;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.util.LinearComponentExtracter;
import org.locationtech.jts.index.hprtree.HPRtree;

/**
 * Bounds the cost of validating and repairing the polygons of one file before the work is done.
 * Validating rings takes one step per pair of edges whose bounding boxes touch, repairing them more
 * than one step per crossing. Both can grow with the square of the number of vertices, so that a
 * small file could keep a machine busy for days.
 */
final class Entanglement {
  /**
   * Largest number of pairs of edges with touching bounding boxes; measured at 0.16 microseconds
   * each.
   */
  private static final long MOST_PAIRS = 10_000_000;

  /** Additional pairs allowed per edge; outlines of terrain have about 3. */
  private static final long PAIRS_PER_EDGE = 16;

  /** Largest number of crossings that are repaired; 45 000 took 3 s. */
  private static final long MOST_CROSSINGS = 10_000;

  /** Number of edges below which nothing is counted: so few have few pairs in any arrangement. */
  private static final int FEW_EDGES = 64;

  private long pairsLeft = MOST_PAIRS;
  private long crossingsLeft = MOST_CROSSINGS;

  private record Edge(Coordinate from, Coordinate to, int ring, int index, int ofRing) {
    Envelope box() {
      return new Envelope(from, to);
    }

    /** True if the two edges are consecutive at a common vertex. */
    boolean follows(Edge other) {
      int apart = Math.abs(index - other.index);
      return ring == other.ring && (apart <= 1 || apart == ofRing - 1);
    }
  }

  /** True if the file's polygons, this one included, can be validated within the bound. */
  boolean allowsChecking(Geometry polygons) {
    int edges = polygons.getNumPoints();
    if (edges > FEW_EDGES) {
      pairsLeft += PAIRS_PER_EDGE * edges;
      pairsLeft -= count(polygons, false, pairsLeft);
    }
    return pairsLeft >= 0;
  }

  /** True if the file's self-crossing rings, these included, can be repaired within the bound. */
  boolean allowsMending(Geometry polygons) {
    crossingsLeft -= count(polygons, true, crossingsLeft);
    return crossingsLeft >= 0;
  }

  /**
   * Counts pairs of edges whose bounding boxes touch, or that meet without being consecutive; stops
   * at {@code most + 1}.
   */
  private static long count(Geometry polygons, boolean meeting, long most) {
    List<Edge> edges = edges(polygons);
    HPRtree tree = new HPRtree();
    edges.forEach(e -> tree.insert(e.box(), e));
    LineIntersector meet = new RobustLineIntersector();
    // Every pair is counted twice, once from each edge.
    long enough = 2 * most + 2;
    long[] found = new long[1];
    for (Edge e : edges) {
      tree.query(
          e.box(),
          item -> {
            if (found[0] < enough && (!meeting || meets(e, (Edge) item, meet))) {
              found[0]++;
            }
          });
      if (found[0] >= enough) {
        break;
      }
    }
    return found[0] / 2;
  }

  private static boolean meets(Edge e, Edge other, LineIntersector meet) {
    if (e.follows(other)) {
      return false;
    }
    meet.computeIntersection(e.from, e.to, other.from, other.to);
    return meet.hasIntersection();
  }

  private static List<Edge> edges(Geometry polygons) {
    List<Edge> edges = new ArrayList<>(polygons.getNumPoints());
    int ring = 0;
    for (Object line : LinearComponentExtracter.getLines(polygons)) {
      Coordinate[] c = ((LinearRing) line).getCoordinates();
      for (int i = 1; i < c.length; i++) {
        edges.add(new Edge(c[i - 1], c[i], ring, i - 1, c.length - 1));
      }
      ring++;
    }
    return edges;
  }
}
