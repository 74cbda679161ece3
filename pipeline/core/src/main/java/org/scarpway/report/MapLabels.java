package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;

/**
 * Symbols and names on a map. A name is placed on the first side of its symbol where it overlaps no
 * other name; if there is none, only the symbol is drawn.
 */
final class MapLabels {
  private static final double FRAME_PX = 480;
  private static final double LETTER_PX = 7.2;
  private static final double LINE_PX = 17;
  private static final double GAP_PX = 9;

  /** Symbol of a name on a line, which has no drawing of its own. */
  static final String ON_LINE = "band";

  private final GridSpec spec;
  private final double heightPx;
  private final List<double[]> taken = new ArrayList<>();
  private final List<View> views = new ArrayList<>();

  /**
   * A label in the page.
   *
   * @param left position in percent of the map's width, from the west
   * @param top position in percent of the map's height, from the north
   * @param side right, left, above, below, centre or hidden
   */
  record View(String left, String top, String symbol, String side, String text) {}

  MapLabels(GridSpec spec) {
    this.spec = spec;
    this.heightPx = FRAME_PX * SvgPath.height(spec) / SvgPath.WIDTH;
  }

  /**
   * @param symbol id of the drawing, such as base or pinch; points outside the map are left out
   */
  MapLabels add(double xM, double yM, String symbol, String text) {
    double x = (xM - spec.westM()) / (spec.cols() * spec.cellXM());
    double y = (spec.northM() - yM) / (spec.rows() * spec.cellYM());
    if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1)) {
      return this;
    }
    double px = x * FRAME_PX;
    double py = y * heightPx;
    double w = text.length() * LETTER_PX + 4;
    double h = LINE_PX / 2;
    String side = "hidden";
    if (symbol.equals(ON_LINE)) {
      if (free(px - w / 2, py - h, px + w / 2, py + h)) {
        views.add(new View(percent(x), percent(y), symbol, "centre", text));
      }
      return this;
    }
    taken.add(new double[] {px - 6, py - 6, px + 6, py + 6});
    if (free(px + GAP_PX, py - h, px + GAP_PX + w, py + h)) {
      side = "right";
    } else if (free(px - GAP_PX - w, py - h, px - GAP_PX, py + h)) {
      side = "left";
    } else if (free(px - w / 2, py - GAP_PX - LINE_PX, px + w / 2, py - GAP_PX)) {
      side = "above";
    } else if (free(px - w / 2, py + GAP_PX, px + w / 2, py + GAP_PX + LINE_PX)) {
      side = "below";
    }
    views.add(new View(percent(x), percent(y), symbol, side, text));
    return this;
  }

  private static String percent(double share) {
    return Figures.fixed(100 * share, 3);
  }

  /** Reserves the rectangle if it lies on the map and overlaps nothing; returns true if so. */
  private boolean free(double x0, double y0, double x1, double y1) {
    if (x0 < 0 || y0 < 0 || x1 > FRAME_PX || y1 > heightPx) {
      return false;
    }
    for (double[] t : taken) {
      if (x0 < t[2] && x1 > t[0] && y0 < t[3] && y1 > t[1]) {
        return false;
      }
    }
    taken.add(new double[] {x0, y0, x1, y1});
    return true;
  }

  List<View> views() {
    return views;
  }
}
