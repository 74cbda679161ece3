package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.drawing.Surface.Box;
import org.scarpway.grid.GridSpec;

/**
 * A sheet of paper with the part of the ground that it shows at a scale. The frame of the map
 * contains exactly that part.
 *
 * @param paper the sheet, with its corner at 0, 0 (mm)
 * @param map the frame of the map (mm)
 * @param scale metres on the ground to a metre on the paper
 * @param number of the sheet, from 1, row by row from the north-west
 * @param across number of sheets side by side
 * @param of number of all sheets
 */
record PrintPage(
    Box paper,
    Box map,
    double scale,
    double westM,
    double southM,
    double eastM,
    double northM,
    int number,
    int across,
    int of) {

  static final double MARGIN = 10;

  /** Room above the frame of the map, within the margins: title, answer and degrees. */
  static final double HEAD = 22;

  /** Room below it: kilometres, scale bar, what the map rests on. */
  static final double FOOT = 29;

  /** Room on its left: kilometres. */
  static final double LEFT = 10;

  /** Room on its right: degrees. */
  static final double DEGREES = 14;

  /** Width of the legend with its gap, right of the degrees. */
  static final double LEGEND = 58;

  /** Round scales within a power of ten. */
  private static final double[] ROUND = {
    1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10
  };

  /** Sheets of ISO 216. */
  enum Paper {
    A4(210, 297),
    A3(297, 420);

    final double shortMm;
    final double longMm;

    Paper(double shortMm, double longMm) {
      this.shortMm = shortMm;
      this.longMm = longMm;
    }

    Box upright() {
      return new Box(0, 0, shortMm, longMm);
    }

    Box across() {
      return new Box(0, 0, longMm, shortMm);
    }
  }

  /** Returns one sheet with all ground, at the largest round scale that it has room for. */
  static List<PrintPage> whole(GridSpec spec, Paper paper) {
    double across = roundScale(spec, paper.across());
    double upright = roundScale(spec, paper.upright());
    return upright < across
        ? sheets(spec, paper.upright(), upright)
        : sheets(spec, paper.across(), across);
  }

  /** Returns as few sheets as show all ground at a scale. */
  static List<PrintPage> atScale(GridSpec spec, Paper paper, double scale) {
    long across = count(spec, paper.across(), scale);
    long upright = count(spec, paper.upright(), scale);
    return sheets(spec, upright < across ? paper.upright() : paper.across(), scale);
  }

  /** Returns the least number of sheets that show all ground at a scale. */
  static long count(GridSpec spec, Paper paper, double scale) {
    return Math.min(count(spec, paper.across(), scale), count(spec, paper.upright(), scale));
  }

  private static double roomW(Box sheet) {
    return sheet.w() - 2 * MARGIN - LEFT - DEGREES - LEGEND;
  }

  private static double roomH(Box sheet) {
    return sheet.h() - 2 * MARGIN - HEAD - FOOT;
  }

  private static double widthM(GridSpec spec) {
    return spec.cols() * spec.cellXM();
  }

  private static double heightM(GridSpec spec) {
    return spec.rows() * spec.cellYM();
  }

  private static double roundScale(GridSpec spec, Box sheet) {
    double least =
        Math.max(1000 * widthM(spec) / roomW(sheet), 1000 * heightM(spec) / roomH(sheet));
    double power = Math.pow(10, Math.floor(Math.log10(least)));
    for (double round : ROUND) {
      if (round * power >= least * (1 - 1e-9)) {
        return round * power;
      }
    }
    throw new IllegalStateException("no round scale from " + least);
  }

  private static long across(GridSpec spec, Box sheet, double scale) {
    return parts(1000 * widthM(spec) / scale / roomW(sheet));
  }

  private static long down(GridSpec spec, Box sheet, double scale) {
    return parts(1000 * heightM(spec) / scale / roomH(sheet));
  }

  private static long parts(double rooms) {
    return Math.max(1, (long) Math.ceil(rooms - 1e-9));
  }

  private static long count(GridSpec spec, Box sheet, double scale) {
    return across(spec, sheet, scale) * down(spec, sheet, scale);
  }

  private static List<PrintPage> sheets(GridSpec spec, Box sheet, double scale) {
    int across = Math.toIntExact(across(spec, sheet, scale));
    int down = Math.toIntExact(down(spec, sheet, scale));
    double partXM = widthM(spec) / across;
    double partYM = heightM(spec) / down;
    Box map = new Box(MARGIN + LEFT, MARGIN + HEAD, 1000 * partXM / scale, 1000 * partYM / scale);
    List<PrintPage> all = new ArrayList<>();
    for (int r = 0; r < down; r++) {
      for (int c = 0; c < across; c++) {
        double west = spec.westM() + c * partXM;
        double north = spec.northM() - r * partYM;
        all.add(
            new PrintPage(
                sheet,
                map,
                scale,
                west,
                north - partYM,
                west + partXM,
                north,
                all.size() + 1,
                across,
                across * down));
      }
    }
    return all;
  }

  double x(double eastingM) {
    return map.x() + 1000 * (eastingM - westM) / scale;
  }

  double y(double northingM) {
    return map.y() + 1000 * (northM - northingM) / scale;
  }

  /** Left side of the legend (mm). */
  double legendX() {
    return map.x() + map.w() + DEGREES + 2;
  }
}
