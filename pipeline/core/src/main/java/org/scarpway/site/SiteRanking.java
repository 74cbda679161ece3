package org.scarpway.site;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * Ranks candidates by a weighted mean of figures, each scaled between the worst (0) and the best
 * (1) candidate (additive value model; common practice, no source), and finds the Pareto front. An
 * unknown figure is scored as the worst. Candidates with equal scores keep their order. The area in
 * reach is scaled for each question by itself, and the mean of these counts: areas by unlike home
 * rules and budgets are no amounts of one kind.
 */
public final class SiteRanking {
  private SiteRanking() {}

  /** Returns the ranked candidates, best first. */
  public static List<SiteScore> rank(
      List<SiteFigures> candidates, Map<SiteFigure, Double> weights) {
    double[][] scaled = scaled(candidates);
    double[] w = weightsOf(weights);
    double[] score = scores(scaled, w);
    List<SiteScore> ranked = new ArrayList<>();
    for (int site : order(score)) {
      ranked.add(
          new SiteScore(
              candidates.get(site), ranked.size() + 1, score[site], onFront(scaled, w, site)));
    }
    return ranked;
  }

  /** Returns the scaled figures: one row per candidate, one column per figure, 1 is best. */
  static double[][] scaled(List<SiteFigures> candidates) {
    SiteFigure[] figures = SiteFigure.values();
    double[][] out = new double[candidates.size()][figures.length];
    for (int f = 0; f < figures.length; f++) {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (SiteFigures c : candidates) {
        double v = c.value(figures[f]);
        if (Double.isFinite(v)) {
          low = Math.min(low, v);
          high = Math.max(high, v);
        }
      }
      for (int site = 0; site < out.length; site++) {
        out[site][f] = scaled(candidates.get(site).value(figures[f]), low, high, figures[f]);
      }
    }
    scaleReach(candidates, out);
    return out;
  }

  private static void scaleReach(List<SiteFigures> candidates, double[][] out) {
    int questions = candidates.stream().mapToInt(c -> c.areas().size()).min().orElse(0);
    if (questions == 0 || candidates.stream().anyMatch(c -> c.areas().size() != questions)) {
      return;
    }
    int f = SiteFigure.REACH_AREA.ordinal();
    for (double[] site : out) {
      site[f] = 0;
    }
    for (int q = 0; q < questions; q++) {
      int question = q;
      double[] areas =
          candidates.stream().mapToDouble(c -> c.areas().get(question).surelyM2()).toArray();
      double low = Arrays.stream(areas).min().orElse(0);
      double high = Arrays.stream(areas).max().orElse(0);
      for (int site = 0; site < out.length; site++) {
        out[site][f] += scaled(areas[site], low, high, SiteFigure.REACH_AREA) / questions;
      }
    }
  }

  /**
   * Returns what each weighted figure adds to the score of each candidate; the parts of a candidate
   * sum to its score.
   *
   * @param ranked all candidates; figures are scaled between the worst and the best of them
   */
  public static List<Map<SiteFigure, Double>> contributions(
      List<SiteScore> ranked, Map<SiteFigure, Double> weights) {
    double[][] scaled = scaled(ranked.stream().map(SiteScore::figures).toList());
    Map<SiteFigure, Double> most = shares(weights);
    List<Map<SiteFigure, Double>> all = new ArrayList<>();
    for (double[] site : scaled) {
      Map<SiteFigure, Double> adds = new EnumMap<>(SiteFigure.class);
      most.forEach((f, share) -> adds.put(f, share * site[f.ordinal()]));
      all.add(adds);
    }
    return all;
  }

  /** Returns the weights above zero as shares of their sum: the most that each figure can add. */
  public static Map<SiteFigure, Double> shares(Map<SiteFigure, Double> weights) {
    double[] w = weightsOf(weights);
    double sum = Arrays.stream(w).sum();
    Map<SiteFigure, Double> shares = new EnumMap<>(SiteFigure.class);
    for (SiteFigure f : SiteFigure.values()) {
      if (w[f.ordinal()] > 0) {
        shares.put(f, w[f.ordinal()] / sum);
      }
    }
    return shares;
  }

  /**
   * Returns by how much each weighted figure puts the first candidate ahead of the second in score;
   * negative where the second is better.
   *
   * @param ranked at least two candidates, best first
   */
  public static Map<SiteFigure, Double> lead(
      List<SiteScore> ranked, Map<SiteFigure, Double> weights) {
    List<Map<SiteFigure, Double>> adds = contributions(ranked, weights);
    Map<SiteFigure, Double> lead = new EnumMap<>(adds.get(0));
    lead.replaceAll((f, first) -> first - adds.get(1).get(f));
    return lead;
  }

  private static double scaled(double v, double low, double high, SiteFigure figure) {
    if (Double.isNaN(v)) {
      return 0;
    }
    if (Double.isInfinite(v)) {
      return v > 0 == figure.moreIsBetter() ? 1 : 0;
    }
    if (high == low) {
      return 1;
    }
    double up = (v - low) / (high - low);
    return figure.moreIsBetter() ? up : 1 - up;
  }

  static double[] weightsOf(Map<SiteFigure, Double> weights) {
    SiteFigure[] figures = SiteFigure.values();
    double[] w = new double[figures.length];
    for (int f = 0; f < w.length; f++) {
      w[f] = weights.getOrDefault(figures[f], 0.0);
    }
    return w;
  }

  static double[] scores(double[][] scaled, double[] weights) {
    double[] score = new double[scaled.length];
    double sum = 0;
    for (double w : weights) {
      sum += w;
    }
    for (int site = 0; site < score.length; site++) {
      double s = 0;
      for (int f = 0; f < weights.length; f++) {
        s += weights[f] * scaled[site][f];
      }
      score[site] = s / sum;
    }
    return score;
  }

  /** Returns the candidates in descending order of score. */
  static int[] order(double[] score) {
    return IntStream.range(0, score.length)
        .boxed()
        .sorted(Comparator.comparingDouble((Integer site) -> -score[site]))
        .mapToInt(Integer::intValue)
        .toArray();
  }

  private static boolean onFront(double[][] scaled, double[] weights, int site) {
    for (double[] other : scaled) {
      boolean worse = false;
      boolean better = false;
      for (int f = 0; f < weights.length; f++) {
        if (weights[f] > 0) {
          worse |= other[f] < scaled[site][f];
          better |= other[f] > scaled[site][f];
        }
      }
      if (better && !worse) {
        return false;
      }
    }
    return true;
  }
}
