package org.scarpway.site;

import java.util.ArrayList;
import java.util.List;

/**
 * Spread of a figure of a candidate over realisations of the ground.
 *
 * @param known number of realisations in which the figure applies and is finite
 * @param mean mean over these, NaN if there are none
 * @param sigma sample standard deviation, NaN for fewer than two
 * @param least minimum, NaN if there are none
 * @param most maximum, NaN if there are none
 */
public record FigureSpread(
    String site,
    SiteFigure figure,
    int known,
    double mean,
    double sigma,
    double least,
    double most) {

  /**
   * Computes the spread of every figure of every candidate.
   *
   * @param realisations figures of all candidates, in the same order in each realisation
   */
  public static List<FigureSpread> of(List<List<SiteFigures>> realisations) {
    List<FigureSpread> all = new ArrayList<>();
    for (int site = 0; site < realisations.get(0).size(); site++) {
      for (SiteFigure figure : SiteFigure.values()) {
        int at = site;
        double[] values =
            realisations.stream()
                .mapToDouble(r -> r.get(at).value(figure))
                .filter(Double::isFinite)
                .toArray();
        all.add(of(realisations.get(0).get(site).name(), figure, values));
      }
    }
    return all;
  }

  private static FigureSpread of(String site, SiteFigure figure, double[] values) {
    double sum = 0;
    double least = Double.NaN;
    double most = Double.NaN;
    for (double v : values) {
      sum += v;
      least = v >= least ? least : v;
      most = v <= most ? most : v;
    }
    double mean = values.length == 0 ? Double.NaN : sum / values.length;
    double squares = 0;
    for (double v : values) {
      squares += (v - mean) * (v - mean);
    }
    double sigma = values.length < 2 ? Double.NaN : Math.sqrt(squares / (values.length - 1));
    return new FigureSpread(site, figure, values.length, mean, sigma, least, most);
  }
}
