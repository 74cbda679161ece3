package org.scarpway.flow;

import java.util.Locale;
import java.util.function.IntPredicate;
import org.scarpway.geodata.crs.CrsWriter;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.grid.Body;

/**
 * Invented ground from a draw: shapes that a vehicle meets and shapes that a program trips over, as
 * a text grid with its reference system beside it.
 */
final class RandomGround {
  private static final double[] CELLS_M = {0.5, 1, 2, 5, 10, 20, 30, 50, 100};

  final int rows;
  final int cols;

  /** Cell size east and north in metres. */
  final double cellXM;

  final double cellYM;

  /** In the units of the reference system: the south-west corner and the cell. */
  final double west;

  final double south;
  final double cellX;
  final double cellY;

  /** Empty for a plane in metres. */
  final String crs;

  final boolean degrees;
  final Body body;
  final double[] heightM;

  private final Draw draw;

  RandomGround(Draw draw) {
    this.draw = draw;
    this.rows = side();
    this.cols = draw.chance(0.4) ? rows : side();
    this.body = draw.of(Body.MOON, Body.MOON, Body.MARS, Body.EARTH);
    double cellM = draw.chance(0.8) ? draw.of(box(CELLS_M)) : draw.scaled(0.5, 100);
    this.cellXM = cellM;
    this.cellYM = draw.chance(0.8) ? cellM : Draw.digits(cellM * draw.within(0.7, 1.4));
    int kind = draw.whole(0, 9);
    this.degrees = kind >= 7;
    if (degrees) {
      MapCrs map = MapCrs.lonLat(body);
      double perDegreeM = Math.toRadians(1) * body.semiMajorM();
      double latDeg = draw.chance(0.8) ? draw.within(-60, 60) : draw.within(-88, 88);
      this.cellY = cellYM / perDegreeM;
      this.cellX = cellXM / perDegreeM / Math.cos(Math.toRadians(latDeg));
      this.south = Math.rint(latDeg * 1000) / 1000;
      this.west = Math.rint(draw.within(-180, 178) * 1000) / 1000;
      this.crs = CrsWriter.wkt(map);
    } else {
      this.cellX = cellXM;
      this.cellY = cellYM;
      double far = draw.of(0.0, 1000.0, 73000.0, 500000.0);
      this.west = draw.chance(0.3) ? far + 0.37 : far;
      this.south = draw.chance(0.5) ? -far : far;
      this.crs =
          kind < 4
              ? ""
              : CrsWriter.wkt(
                  MapCrs.local(body.name(), body.semiMajorM(), body.semiMinorM(), 31.5, -8.25));
    }
    this.heightM = new double[rows * cols];
    shape();
  }

  private static Double[] box(double[] some) {
    Double[] boxed = new Double[some.length];
    for (int i = 0; i < some.length; i++) {
      boxed[i] = some[i];
    }
    return boxed;
  }

  /** Mostly small: the same faults show there, in less time. */
  private int side() {
    double u = draw.within(0, 1);
    return 20 + (int) (100 * u * u * u);
  }

  private void shape() {
    switch (draw.whole(0, 8)) {
      case 0 -> {}
      case 1 -> plane(draw.within(0, 35));
      case 2 -> waves();
      case 3 -> hills();
      case 4 -> rough(draw.scaled(0.005, 0.5), draw.within(0.3, 1));
      case 5 -> cliffs();
      case 6 -> maze();
      // Steeper than a side slope may be and gentler than a climb: headings are open in windows.
      case 7 -> plane(draw.within(14, 26));
      default -> {
        plane(draw.within(8, 26));
        waves();
      }
    }
    if (draw.chance(0.5)) {
      rough(draw.scaled(0.001, 0.15), draw.within(0.3, 1));
    }
    if (draw.chance(0.2)) {
      islands();
    }
    if (draw.chance(0.25)) {
      voids();
    }
    double datumM = draw.of(0.0, 0.0, 1200.0, -3000.0);
    for (int i = 0; i < heightM.length; i++) {
      heightM[i] += datumM;
    }
  }

  private int row(int cell) {
    return cell / cols;
  }

  private void plane(double deg) {
    double grade = Math.tan(Math.toRadians(deg));
    double toward =
        draw.chance(0.5) ? draw.whole(0, 31) * Math.PI / 16 : draw.within(0, 2 * Math.PI);
    for (int i = 0; i < heightM.length; i++) {
      double east = i % cols * cellXM * Math.sin(toward);
      double north = -row(i) * cellYM * Math.cos(toward);
      heightM[i] += grade * (east + north);
    }
  }

  private void waves() {
    double lengthM = cellXM * draw.within(3, 30);
    double slope = draw.within(0.02, 0.5);
    double toward = draw.within(0, Math.PI);
    for (int i = 0; i < heightM.length; i++) {
      double alongM = i % cols * cellXM * Math.sin(toward) + row(i) * cellYM * Math.cos(toward);
      double phase = 2 * Math.PI * alongM / lengthM;
      heightM[i] += slope * lengthM / (2 * Math.PI) * Math.sin(phase);
    }
  }

  private void hills() {
    for (int n = draw.whole(1, 8); n > 0; n--) {
      double row = draw.within(0, rows);
      double col = draw.within(0, cols);
      double radius = draw.within(2, 20);
      double high = radius * cellXM * draw.within(-0.6, 0.6);
      for (int i = 0; i < heightM.length; i++) {
        double away = Math.hypot(row(i) - row, i % cols - col) / radius;
        heightM[i] += high * Math.exp(-away * away);
      }
    }
  }

  /** Sum of waves of halved length, each lower by 2^-hurst: self-affine over the grid. */
  private void rough(double slopeAtCell, double hurst) {
    double low = slopeAtCell * cellXM / Math.pow(2, hurst);
    for (double cells = 2; cells < 2 * Math.max(rows, cols); cells *= 2) {
      double high = low * Math.pow(cells, hurst);
      for (int n = 0; n < 6; n++) {
        double toward = draw.within(0, 2 * Math.PI);
        double phase = draw.within(0, 2 * Math.PI);
        double perCell = 2 * Math.PI / (cells * draw.within(1, 2));
        double x = perCell * Math.sin(toward);
        double y = perCell * Math.cos(toward);
        for (int i = 0; i < heightM.length; i++) {
          heightM[i] += high / 3 * Math.sin(x * (i % cols) + y * row(i) + phase);
        }
      }
    }
  }

  private void cliffs() {
    for (int n = draw.whole(1, 3); n > 0; n--) {
      boolean across = draw.chance(0.5);
      int at = draw.whole(3, (across ? rows : cols) - 4);
      int gap = draw.whole(0, across ? cols : rows);
      int wide = draw.whole(0, 5);
      double high = cellXM * draw.within(0.1, 3);
      for (int i = 0; i < heightM.length; i++) {
        int along = across ? i % cols : i / cols;
        int over = across ? i / cols : i % cols;
        if (over >= at) {
          boolean ramp = along >= gap && along < gap + wide;
          heightM[i] += ramp ? high * Math.min(1, (over - at) / 12.0) : high;
        }
      }
    }
  }

  private void maze() {
    int pitch = draw.whole(3, 12);
    double high = cellXM * draw.within(0.3, 2);
    for (int row = pitch; row < rows; row += pitch) {
      int gap = draw.whole(0, cols - 1);
      int wide = draw.whole(1, 4);
      for (int col = 0; col < cols; col++) {
        if (col < gap || col >= gap + wide) {
          heightM[row * cols + col] += high;
        }
      }
    }
    for (int col = pitch; draw.chance(0.8) && col < cols; col += pitch) {
      int gap = draw.whole(0, rows - 1);
      for (int row = 0; row < rows; row++) {
        if (Math.abs(row - gap) > 1) {
          heightM[row * cols + col] += high;
        }
      }
    }
  }

  /** Single cells that nothing leads to: heights apart, or a ring without heights. */
  private void islands() {
    for (int n = draw.whole(1, 4); n > 0; n--) {
      int row = draw.whole(1, rows - 2);
      int col = draw.whole(1, cols - 2);
      double high = draw.chance(0.5) ? 3 * cellXM : Double.NaN;
      for (int k = 0; k < 9; k++) {
        if (k != 4) {
          heightM[(row + k / 3 - 1) * cols + col + k % 3 - 1] += high;
        }
      }
    }
  }

  private void voids() {
    int kind = draw.whole(0, 3);
    int a = draw.whole(0, rows - 1);
    int b = draw.whole(0, cols - 1);
    int size = draw.whole(1, 8);
    double share = draw.scaled(0.001, 0.1);
    IntPredicate none =
        i ->
            switch (kind) {
              case 0 -> Math.abs(i / cols - a) <= size && Math.abs(i % cols - b) <= size;
              case 1 -> Math.abs(i / cols - a) <= size / 4 && i % cols != b;
              case 2 -> i / cols < size / 2 || i % cols >= cols - size / 2;
              default -> draw.chance(share);
            };
    for (int i = 0; i < heightM.length; i++) {
      if (none.test(i)) {
        heightM[i] = Double.NaN;
      }
    }
  }

  /** The grid as text; NaN is -9999. */
  static String text(RandomGround g, double[] values, String format) {
    StringBuilder s = new StringBuilder();
    s.append("ncols ").append(g.cols).append("\nnrows ").append(g.rows);
    s.append("\nxllcorner ").append(g.west).append("\nyllcorner ").append(g.south);
    if (g.cellX == g.cellY) {
      s.append("\ncellsize ").append(g.cellX);
    } else {
      s.append("\ndx ").append(g.cellX).append("\ndy ").append(g.cellY);
    }
    s.append("\nNODATA_value -9999\n");
    for (int i = 0; i < values.length; i++) {
      s.append(Double.isNaN(values[i]) ? "-9999" : String.format(Locale.ROOT, format, values[i]));
      s.append(i % g.cols == g.cols - 1 ? '\n' : ' ');
    }
    return s.toString();
  }

  /** Coordinates of a point in cells from the north-west corner, in the reference system. */
  double x(double col) {
    return west + col * cellX;
  }

  double y(double row) {
    return south + (rows - row) * cellY;
  }
}
