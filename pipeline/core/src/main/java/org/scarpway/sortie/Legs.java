package org.scarpway.sortie;

import java.util.List;

/**
 * Ways between all places of a sortie: place 0 is the base, place k the stop k - 1 of the list.
 * Between two places there are none, one or several, such as the quickest and the one of least
 * energy.
 */
public final class Legs {
  private final Leg[][][] ways;

  /**
   * Ways from row to column.
   *
   * @param ways for each pair of places the ways to choose from; those of a place to itself are not
   *     used
   * @throws IllegalArgumentException if the table is not square
   */
  public Legs(List<List<List<Leg>>> ways) {
    int n = ways.size();
    this.ways = new Leg[n][n][];
    for (int i = 0; i < n; i++) {
      if (ways.get(i).size() != n) {
        throw new IllegalArgumentException("the table of legs is not square");
      }
      for (int j = 0; j < n; j++) {
        this.ways[i][j] = i == j ? new Leg[0] : ways.get(i).get(j).toArray(Leg[]::new);
      }
    }
  }

  /** Number of places, the base included. */
  public int places() {
    return ways.length;
  }

  /** Number of ways from one place to another. */
  public int count(int from, int to) {
    return ways[from][to].length;
  }

  /** One of the ways from a place to another. */
  public Leg way(int from, int to, int k) {
    return ways[from][to][k];
  }

  /** Least driving time over the ways between two places (s), infinite if there is none. */
  public double leastS(int from, int to) {
    double least = from == to ? 0 : Double.POSITIVE_INFINITY;
    for (Leg l : ways[from][to]) {
      least = Math.min(least, l.timeS());
    }
    return least;
  }

  /** Least energy over the ways between two places (J), infinite if there is none. */
  public double leastJ(int from, int to) {
    double least = from == to ? 0 : Double.POSITIVE_INFINITY;
    for (Leg l : ways[from][to]) {
      least = Math.min(least, l.energyJ());
    }
    return least;
  }
}
