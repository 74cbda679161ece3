package org.scarpway.terrain;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;

/**
 * Roughness as a function of scale: RMS deviation and median differential slope over lags of 1, 2,
 * 4, ... cells east and south, up to an eighth of the ground, and the self-affine law fitted to the
 * deviations. Regional tilt is removed from the deviations; rows are sampled evenly on large grids.
 * Sources: {@link RmsDeviation}, {@link MedianDifferentialSlope}, {@link SelfAffine}.
 *
 * @param law fitted law, null on ground that is level or too small
 * @param estimate the law evaluated at the footprint's diameter, null without a law
 */
public record Scaling(List<Lag> lags, SelfAffine law, Estimate estimate) {
  public Scaling {
    lags = List.copyOf(lags);
  }

  /**
   * One lag.
   *
   * @param along "east" or "north"
   * @param deviationM RMS height difference over the lag
   * @param rmsSlopeDeg atan(deviation / lag)
   * @param medianDifferentialSlopeDeg over the lag as baseline; NaN if half of the lag is not a
   *     whole number of cells or the ground is too small
   */
  public record Lag(
      String along,
      double lagM,
      double deviationM,
      double rmsSlopeDeg,
      double medianDifferentialSlopeDeg) {}

  /** RMS deviation (m) by the law at a lag, with the ends of the 95 % interval of its exponent. */
  public record Estimate(double lagM, double deviationM, double lowM, double highM) {}

  /**
   * @param baselineM lag (m) at which the law is evaluated
   */
  public static Scaling of(HeightRows ground, double baselineM) {
    GridSpec spec = ground.spec();
    int rowStep = GroundLaw.rowStep(spec.rows(), spec.cols());
    List<Lag> lags = new ArrayList<>();
    for (int lag = 1; lag <= Math.max(spec.rows(), spec.cols()) / 8; lag *= 2) {
      if (lag <= spec.cols() / 8) {
        lags.add(lag(ground, "east", 0, lag, rowStep));
      }
      if (lag <= spec.rows() / 8) {
        lags.add(lag(ground, "north", lag, 0, rowStep));
      }
    }
    SelfAffine law =
        SelfAffine.fit(
            lags.stream().mapToDouble(Lag::lagM).toArray(),
            lags.stream().mapToDouble(Lag::deviationM).toArray());
    return new Scaling(lags, law, law == null ? null : estimate(law, lags, baselineM));
  }

  private static Lag lag(HeightRows ground, String along, int lagRows, int lagCols, int rowStep) {
    GridSpec spec = ground.spec();
    RmsDeviation.Rows heights = (row, into) -> ground.read(row, 1, into);
    double lagM = lagRows * spec.cellYM() + lagCols * spec.cellXM();
    double deviationM =
        RmsDeviation.detrended(heights, spec.rows(), spec.cols(), lagRows, lagCols, rowStep);
    boolean halves = (lagRows + lagCols) % 2 == 0;
    double differential =
        halves
            ? MedianDifferentialSlope.of(
                heights, spec.rows(), spec.cols(), lagRows / 2, lagCols / 2, lagM, rowStep)
            : Double.NaN;
    return new Lag(
        along,
        lagM,
        deviationM,
        Math.toDegrees(Math.atan(deviationM / lagM)),
        Math.toDegrees(Math.atan(differential)));
  }

  /** The interval widens from the middle of the fitted lags, where the law is most certain. */
  private static Estimate estimate(SelfAffine law, List<Lag> lags, double baselineM) {
    double pivotM =
        Math.exp(lags.stream().mapToDouble(l -> Math.log(l.lagM())).average().orElseThrow());
    double atPivot = law.deviationM(pivotM);
    double a = atPivot * Math.pow(baselineM / pivotM, law.hurstLow());
    double b = atPivot * Math.pow(baselineM / pivotM, law.hurstHigh());
    return new Estimate(baselineM, law.deviationM(baselineM), Math.min(a, b), Math.max(a, b));
  }
}
