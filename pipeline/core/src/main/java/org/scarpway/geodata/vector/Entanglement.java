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
 * What the edges of one file's polygons may cost, held against a bound before the work is done.
 * Checking rings takes as many steps as there are pairs of edges whose boxes touch, mending them
 * more than one for each crossing: both may grow with the square of the vertices, and a small file
 * could keep a machine busy for days.
 */
final class Entanglement {
  /** Pairs of edges with touching boxes; measured at 0.16 microseconds each. */
  private static final long MOST_PAIRS = 10_000_000;

  /** Pairs for each edge beyond that; borders of ground have about 3. */
  private static final long PAIRS_PER_EDGE = 16;

  /** Crossings that are mended; 45 000 took 3 s. */
  private static final long MOST_CROSSINGS = 10_000;

  /** So few edges make few pairs, however they lie. */
  private static final int FEW_EDGES = 64;

  private long pairsLeft = MOST_PAIRS;
  private long crossingsLeft = MOST_CROSSINGS;

  private record Edge(Coordinate from, Coordinate to, int ring, int index, int ofRing) {
    Envelope box() {
      return new Envelope(from, to);
    }

    /** Whether both come to the same vertex one after the other. */
    boolean follows(Edge other) {
      int apart = Math.abs(index - other.index);
      return ring == other.ring && (apart <= 1 || apart == ofRing - 1);
    }
  }

  /** Whether the file's polygons, this one included, can be checked in good time. */
  boolean allowsChecking(Geometry polygons) {
    int edges = polygons.getNumPoints();
    if (edges > FEW_EDGES) {
      pairsLeft += PAIRS_PER_EDGE * edges;
      pairsLeft -= count(polygons, false, pairsLeft);
    }
    return pairsLeft >= 0;
  }

  /** Whether the file's crossing rings, these included, can be mended in good time. */
  boolean allowsMending(Geometry polygons) {
    crossingsLeft -= count(polygons, true, crossingsLeft);
    return crossingsLeft >= 0;
  }

  /**
   * Pairs of edges whose boxes touch, or that meet without following each other; no further than to
   * {@code most + 1}.
   */
  private static long count(Geometry polygons, boolean meeting, long most) {
    List<Edge> edges = edges(polygons);
    HPRtree tree = new HPRtree();
    edges.forEach(e -> tree.insert(e.box(), e));
    LineIntersector meet = new RobustLineIntersector();
    // Every pair is come upon from both sides.
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
