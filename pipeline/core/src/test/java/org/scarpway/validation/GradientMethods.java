package org.scarpway.validation;

/**
 * The 3 x 3 slope estimates that published rankings compare and that the product does not offer:
 * slope (deg) at one cell, written here from their definitions.
 */
enum GradientMethods {
  /** Two perpendicular neighbours, one each way. */
  TWO_NEIGHBOUR {
    @Override
    double gradient(float[] z, int cols, int i, double h) {
      return Math.hypot((z[i] - z[i - 1]) / h, (z[i - cols] - z[i]) / h);
    }
  },
  /** Central differences along both diagonals. */
  DIAGONAL {
    @Override
    double gradient(float[] z, int cols, int i, double h) {
      double a = (z[i - cols + 1] - z[i + cols - 1]) / (2 * Math.sqrt(2) * h);
      double b = (z[i - cols - 1] - z[i + cols + 1]) / (2 * Math.sqrt(2) * h);
      return Math.hypot(a, b);
    }
  },
  /** Central differences of three rows and columns, weighted by one over the distance. */
  INVERSE_DISTANCE {
    @Override
    double gradient(float[] z, int cols, int i, double h) {
      double w = Math.sqrt(2);
      double p =
          (z[i - cols + 1] - z[i - cols - 1])
              + w * (z[i + 1] - z[i - 1])
              + (z[i + cols + 1] - z[i + cols - 1]);
      double q =
          (z[i - cols - 1] - z[i + cols - 1])
              + w * (z[i - cols] - z[i + cols])
              + (z[i - cols + 1] - z[i + cols + 1]);
      return Math.hypot(p, q) / ((2 + w) * 2 * h);
    }
  },
  /** Steepest of the eight lines to a neighbour, up or down. */
  STEEPEST_OF_EIGHT {
    @Override
    double gradient(float[] z, int cols, int i, double h) {
      double most = 0;
      for (int k = 0; k < 9; k++) {
        if (k != 4) {
          most = Math.max(most, Math.abs(drop(z, cols, i, h, k)));
        }
      }
      return most;
    }
  },
  /** Steepest of the eight ways down; negative in a pit. */
  STEEPEST_DROP {
    @Override
    double gradient(float[] z, int cols, int i, double h) {
      double most = Double.NEGATIVE_INFINITY;
      for (int k = 0; k < 9; k++) {
        if (k != 4) {
          most = Math.max(most, drop(z, cols, i, h, k));
        }
      }
      return most;
    }
  };

  abstract double gradient(float[] z, int cols, int i, double h);

  /** Fall per length towards neighbour k of the window, row by row from the north-west. */
  static double drop(float[] z, int cols, int i, double h, int k) {
    int row = k / 3 - 1;
    int col = k % 3 - 1;
    return (z[i] - z[i + row * cols + col]) / (h * Math.hypot(row, col));
  }

  double slopeDeg(float[] z, int cols, int i, double h) {
    return Math.toDegrees(Math.atan(gradient(z, cols, i, h)));
  }
}
