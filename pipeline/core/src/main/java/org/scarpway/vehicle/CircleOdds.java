package org.scarpway.vehicle;

/**
 * Upper bound on the probability that the {@link FrictionCircle} is exceeded, with normal errors of
 * grade and cross grade. The allowed region is replaced by an inscribed polygon, and the
 * probabilities of lying beyond each of its edges are added (Boole's inequality). The polygon
 * includes the traction bounds straight up and down.
 */
final class CircleOdds {
  private static final int FEWEST = 4;
  private static final int MOST = 12;

  /**
   * Shortest edge in standard deviations: shorter edges are exceeded together and would be counted
   * several times.
   */
  private static final double SIGMAS = 3;

  private static final int HALVINGS = 40;

  /** Standard deviations beyond which the probability is negligible. */
  private static final double FAR = 5;

  // Edges of one side, mirrored to the other: along x + across y is at most the distance.
  private final double[] along;
  private final double[] across;
  private final double[] distance;
  private final double[] sigma;

  /** Steepest slope up to which exceeding the circle is negligible on every heading. */
  final double near;

  /**
   * @param circle a circle that limits some heading
   * @param descent steepest grade that the wheels hold straight down, rise over run
   */
  CircleOdds(
      FrictionCircle circle, double climb, double descent, double alongSigma, double acrossSigma) {
    double highest = Math.min(circle.to, climb);
    double lowest = -Math.min(circle.to, descent);
    double middle = (highest + lowest) / 2;
    double radius = (highest - lowest) / 2;
    double most = Math.PI * radius / (SIGMAS * Math.max(alongSigma, acrossSigma));
    int edges = (int) Math.max(FEWEST, Math.min(MOST, most));
    along = new double[edges];
    across = new double[edges];
    distance = new double[edges];
    sigma = new double[edges];
    double[] x = new double[edges + 1];
    double[] y = new double[edges + 1];
    for (int i = 0; i < x.length; i++) {
      double angle = Math.PI * i / edges;
      double low = 0;
      double high = 2 * circle.to;
      for (int k = 0; k < HALVINGS; k++) {
        double r = (low + high) / 2;
        double grade = middle + r * Math.cos(angle);
        if (grade >= lowest && grade <= climb && circle.holds(grade, r * Math.sin(angle))) {
          low = r;
        } else {
          high = r;
        }
      }
      x[i] = middle + low * Math.cos(angle);
      y[i] = low * Math.sin(angle);
    }
    double nearest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < edges; i++) {
      double length = Math.hypot(x[i + 1] - x[i], y[i + 1] - y[i]);
      if (length == 0) {
        // The region left by a circle that closes all headings but the one straight down.
        distance[i] = Double.NEGATIVE_INFINITY;
        sigma[i] = 1;
      } else {
        along[i] = (y[i + 1] - y[i]) / length;
        across[i] = (x[i] - x[i + 1]) / length;
        distance[i] = along[i] * x[i] + across[i] * y[i];
        // Gradient errors are the same in every direction; others may have any correlation.
        sigma[i] =
            alongSigma == acrossSigma
                ? alongSigma
                : Math.abs(along[i]) * alongSigma + Math.abs(across[i]) * acrossSigma;
      }
      nearest = Math.min(nearest, distance[i] - FAR * sigma[i]);
    }
    near = nearest;
  }

  /** Upper bound on the probability that the circle is exceeded; at most 1. */
  double broken(double grade, double cross) {
    if (grade * grade + cross * cross <= near * Math.max(0, near)) {
      return 0;
    }
    double sum = 0;
    for (int i = 0; i < along.length; i++) {
      double left = distance[i] - along[i] * grade;
      double over = across[i] * cross;
      sum += Allowances.broken(over, left, sigma[i]) + Allowances.broken(-over, left, sigma[i]);
    }
    return Math.min(1, sum);
  }
}
