package org.scarpway.report;

/**
 * The texture of a class, so that classes are not distinguished by colour alone. A pattern repeats
 * every {@code period} pixels.
 */
enum Pattern {
  PLAIN {
    @Override
    boolean ink(int x, int y, int period) {
      return false;
    }
  },
  RISING {
    @Override
    boolean ink(int x, int y, int period) {
      return (x + y) % period < line(period);
    }
  },
  FALLING {
    @Override
    boolean ink(int x, int y, int period) {
      return Math.floorMod(x - y, period) < line(period);
    }
  },
  DOTS {
    @Override
    boolean ink(int x, int y, int period) {
      int row = y / period;
      int dx = (x + (row % 2) * (period / 2)) % period - period / 2;
      int dy = y % period - period / 2;
      return 25 * (dx * dx + dy * dy) < period * period;
    }
  },
  LEVEL {
    @Override
    boolean ink(int x, int y, int period) {
      return y % period < line(period);
    }
  },
  UPRIGHT {
    @Override
    boolean ink(int x, int y, int period) {
      return x % period < line(period);
    }
  },
  MESH {
    @Override
    boolean ink(int x, int y, int period) {
      return RISING.ink(x, y, period) || FALLING.ink(x, y, period);
    }
  },
  GRATE {
    @Override
    boolean ink(int x, int y, int period) {
      return LEVEL.ink(x, y, period) || UPRIGHT.ink(x, y, period);
    }
  };

  /** True if the pixel belongs to the lines or dots of the texture. */
  abstract boolean ink(int x, int y, int period);

  private static int line(int period) {
    return Math.max(1, period / 5);
  }
}
