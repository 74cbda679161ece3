package org.scarpway.reach.front;

import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.TraversalCost;

/**
 * Time, distance and, if it is counted, energy of whole steps at once, since they share gradients,
 * grades and speeds. Each is that of {@link Stencil#cost(Costs, int, int, double)}, bit for bit.
 * One instance is the working memory of one thread.
 */
public final class StepCosts {
  private static final int MOST = 3;

  private final Stencil stencil;
  private final Costs[] costs;

  /** The last costs, from which all are read together. */
  private final Costs all;

  // Of three quantities, for loops of known length; the last is meaningless if it is not counted.
  private final double[] perM = new double[MOST];
  private final double[] start = new double[MOST];
  private final double[] middle = new double[MOST];
  private final double[] end = new double[MOST];
  private final double[] cost = new double[MOST];

  /**
   * @param hasEnergy energy is counted
   */
  public StepCosts(
      TraversalCost field, Costs.Direction direction, boolean hasEnergy, Stencil stencil) {
    this.stencil = stencil;
    this.costs = new Costs[hasEnergy ? 3 : 2];
    costs[0] = new Costs(field, Quantity.TIME_S, direction);
    costs[1] = new Costs(field, Quantity.DISTANCE_M, direction);
    if (hasEnergy) {
      costs[2] = new Costs(field, Quantity.ENERGY_J, direction);
    }
    this.all = costs[costs.length - 1];
  }

  /** Number of quantities: time, distance and perhaps energy. */
  public int count() {
    return costs.length;
  }

  /** Costs of one quantity: 0 for time, 1 for distance, 2 for energy. */
  public Costs of(int quantity) {
    return costs[quantity];
  }

  /**
   * Costs of a whole step by quantity; overwritten by the next call.
   *
   * @param share position on its edge at which the step ends
   */
  public double[] of(int cell, int code, double share) {
    if (code >= Stencil.CORNER_CODES) {
      for (int q = 0; q < costs.length; q++) {
        cost[q] = stencil.cost(costs[q], cell, code, share);
      }
      return cost;
    }
    if (code < Stencil.NEAR_CODES) {
      far(cell, code / Stencil.EIGHTHS, code % Stencil.EIGHTHS);
    } else {
      int step = code - Stencil.NEAR_CODES;
      near(cell, step / Stencil.QUARTERS, step % Stencil.QUARTERS);
    }
    for (int q = 0; q < MOST; q++) {
      cost[q] *= stencil.lengthM(code);
    }
    return cost;
  }

  private void far(int cell, int s, int eighth) {
    if (eighth == 0) {
      far(cell, s, cost);
    } else if (eighth == 4) {
      farMiddle(cell, s, cost);
    } else {
      far(cell, s, start);
      farMiddle(cell, s, middle);
      far(cell, (s + 1) & (Stencil.FAR - 1), end);
      for (int q = 0; q < costs.length; q++) {
        cost[q] = stencil.farBetween(costs[q], cell, s, eighth, start[q], middle[q], end[q]);
      }
    }
  }

  private void far(int cell, int j, double[] into) {
    int k = 2 * j;
    if ((j & 3) == 2 && stencil.cornerBarred(all, cell, j)) {
      forbid(into);
    } else if ((j & 1) != 0) {
      first(cell, k, 1, into);
      add(cell + stencil.middle(j), k, 1, into);
      add(cell + stencil.middle2(j), k, 1, into);
      add(cell + stencil.far(j), k, 1, into);
      times(0.25, into);
    } else {
      first(cell, k, 0.25, into);
      add(cell + stencil.middle(j), k, 0.5, into);
      add(cell + stencil.far(j), k, 0.25, into);
    }
  }

  private void farMiddle(int cell, int s, double[] into) {
    int k = 2 * s + 1;
    int even = Stencil.even(s);
    first(cell, k, 0.25, into);
    add(cell + stencil.middle(even), k, 0.375, into);
    add(cell + stencil.beyond(s), k, 0.125, into);
    read(cell + stencil.far(even), k);
    double first = perM[0];
    double second = perM[1];
    double third = perM[2];
    read(cell + stencil.far(Stencil.odd(s)), k);
    into[0] += 0.125 * (first + perM[0]);
    into[1] += 0.125 * (second + perM[1]);
    into[2] += 0.125 * (third + perM[2]);
  }

  private void near(int cell, int j, int quarter) {
    if (quarter == 0 && (j & 1) != 0 && stencil.sideBarred(all, cell, j)) {
      forbid(cost);
      return;
    }
    int k = 4 * j + quarter;
    first(cell, k, 1, cost);
    if (quarter == 0) {
      add(cell + stencil.near(j), k, 1, cost);
    } else {
      double t = quarter / (double) Stencil.QUARTERS;
      add(cell + stencil.near(j), k, 1 - t, cost);
      add(cell + stencil.near((j + 1) & (Stencil.NEAR - 1)), k, t, cost);
    }
    times(0.5, cost);
  }

  private static void forbid(double[] into) {
    for (int q = 0; q < MOST; q++) {
      into[q] = Double.POSITIVE_INFINITY;
    }
  }

  private void first(int cell, int heading, double weight, double[] into) {
    read(cell, heading);
    for (int q = 0; q < MOST; q++) {
      into[q] = weight * perM[q];
    }
  }

  private void add(int cell, int heading, double weight, double[] into) {
    read(cell, heading);
    for (int q = 0; q < MOST; q++) {
      into[q] += weight * perM[q];
    }
  }

  private static void times(double factor, double[] into) {
    for (int q = 0; q < MOST; q++) {
      into[q] *= factor;
    }
  }

  private void read(int cell, int heading) {
    if (!all.readPerM(cell, heading, perM)) {
      for (int q = 0; q < costs.length; q++) {
        perM[q] = costs[q].perM(cell, heading);
      }
    }
  }
}
