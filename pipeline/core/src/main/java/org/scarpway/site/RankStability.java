package org.scarpway.site;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;

/**
 * Stability of a candidate's rank when an uncertain input is drawn many times.
 *
 * @param what name of the varied input
 * @param draws number of draws
 * @param firstPct share of the draws in which the candidate ranks first (%)
 * @param bestRank lowest rank number of all draws
 * @param worstRank highest rank number of all draws
 */
public record RankStability(
    String site,
    String what,
    int draws,
    double firstPct,
    double meanRank,
    int bestRank,
    int worstRank) {
  /** Name of the input varied by {@link #overRealisations}. */
  public static final String HEIGHT_ERROR = "height error";

  /**
   * Rank stability over perturbed weights: every weight is multiplied by a factor drawn uniformly
   * from 1 - spread to 1 + spread.
   *
   * @param spread relative perturbation in [0, 1]
   * @param seed the same seed gives the same draws on every machine
   */
  public static List<RankStability> overWeights(
      List<SiteFigures> candidates,
      Map<SiteFigure, Double> weights,
      double spread,
      int draws,
      long seed) {
    if (!(spread >= 0 && spread <= 1)) {
      throw new IllegalArgumentException("spread must be in [0, 1], got " + spread);
    }
    double[] given = SiteRanking.weightsOf(weights);
    String what = "weights within " + Math.round(100 * spread) + " %";
    return overDraws(
        candidates,
        what,
        draws,
        seed,
        (random, f) -> given[f] * (1 + spread * (2 * random.nextDouble() - 1)));
  }

  /**
   * Rank stability over arbitrary weights of the figures that are used, all mixtures equally
   * likely: the rank acceptability of Lahdelma, Hokkanen and Salminen 1998, Eur. J. Oper. Res. 106,
   * 137-143.
   */
  public static List<RankStability> overAnyWeights(
      List<SiteFigures> candidates, Map<SiteFigure, Double> weights, int draws, long seed) {
    double[] given = SiteRanking.weightsOf(weights);
    return overDraws(
        candidates,
        "any weights",
        draws,
        seed,
        (random, f) -> given[f] > 0 ? -StrictMath.log(1 - random.nextDouble()) : 0);
  }

  /**
   * Rank stability over realisations of the ground, each ranked with the job's weights.
   *
   * @param realisations figures of all candidates, in the same order in each realisation
   */
  public static List<RankStability> overRealisations(
      List<List<SiteFigures>> realisations, Map<SiteFigure, Double> weights) {
    if (realisations.isEmpty()) {
      throw new IllegalArgumentException("no realisations");
    }
    double[] given = SiteRanking.weightsOf(weights);
    Tally tally = new Tally(realisations.get(0));
    for (List<SiteFigures> candidates : realisations) {
      tally.add(SiteRanking.scores(SiteRanking.scaled(candidates), given));
    }
    return tally.result(HEIGHT_ERROR);
  }

  /** Draws the weight of a figure. */
  @FunctionalInterface
  private interface WeightDraw {
    double weight(Random random, int figure);
  }

  private static List<RankStability> overDraws(
      List<SiteFigures> candidates, String what, int draws, long seed, WeightDraw draw) {
    if (draws < 1) {
      throw new IllegalArgumentException("draws must be at least 1, got " + draws);
    }
    double[][] scaled = SiteRanking.scaled(candidates);
    Random random = new Random(seed);
    Tally tally = new Tally(candidates);
    double[] w = new double[SiteFigure.values().length];
    for (int n = 0; n < draws; n++) {
      for (int f = 0; f < w.length; f++) {
        w[f] = draw.weight(random, f);
      }
      tally.add(SiteRanking.scores(scaled, w));
    }
    return tally.result(what);
  }

  private static final class Tally {
    private final List<SiteFigures> candidates;
    private final int[][] times;
    private int draws;

    Tally(List<SiteFigures> candidates) {
      this.candidates = candidates;
      this.times = new int[candidates.size()][candidates.size()];
    }

    void add(double[] score) {
      int[] order = SiteRanking.order(score);
      for (int rank = 0; rank < order.length; rank++) {
        times[order[rank]][rank]++;
      }
      draws++;
    }

    List<RankStability> result(String what) {
      List<RankStability> out = new ArrayList<>();
      for (int site = 0; site < times.length; site++) {
        int best = 0;
        int worst = 0;
        double sum = 0;
        for (int rank = 1; rank <= times.length; rank++) {
          int n = times[site][rank - 1];
          sum += (double) rank * n;
          best = best == 0 && n > 0 ? rank : best;
          worst = n > 0 ? rank : worst;
        }
        out.add(
            new RankStability(
                candidates.get(site).name(),
                what,
                draws,
                100.0 * times[site][0] / draws,
                sum / draws,
                best,
                worst));
      }
      return out;
    }
  }
}
