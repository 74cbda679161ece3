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
  private final List<Mark> marks = new ArrayList<>();

  /** A symbol with its name, in the coordinates of the grid (m). */
  private record Mark(double xM, double yM, String symbol, String text) {}

  /**
   * A label in the page.
   *
   * @param left position in percent of the map's width, from the west
   * @param top position in percent of the map's height, from the north
   * @param side right, left, above, below, centre or hidden
   */
  record View(String left, String top, String symbol, String side, String text) {}

  /**
   * A label in a frame.
   *
   * @param x position as a share of the frame's width, from the west
   * @param y position as a share of the frame's height, from the north
   * @param side right, left, above, below, centre or hidden
   */
  record Placed(double x, double y, String symbol, String side, String text) {}

  MapLabels(GridSpec spec) {
    this.spec = spec;
  }

  /**
   * @param symbol id of the drawing, such as base or pinch; points outside the map are left out
   */
  MapLabels add(double xM, double yM, String symbol, String text) {
    marks.add(new Mark(xM, yM, symbol, text));
    return this;
  }

  List<View> views() {
    return placed(spec.westM(), spec.southM(), spec.eastM(), spec.northM(), FRAME_PX).stream()
        .map(p -> new View(percent(p.x), percent(p.y), p.symbol, p.side, p.text))
        .toList();
  }

  private static String percent(double share) {
    return Figures.fixed(100 * share, 3);
  }

  /**
   * Places the labels in a frame that shows part of the ground.
   *
   * @param framePx width of the frame, where a line of letters is {@value #LINE_PX} high
   */
  List<Placed> placed(double westM, double southM, double eastM, double northM, double framePx) {
    double heightPx = framePx * (northM - southM) / (eastM - westM);
    Room room = new Room(framePx, heightPx);
    List<Placed> all = new ArrayList<>();
    for (Mark m : marks) {
      double x = (m.xM - westM) / (eastM - westM);
      double y = (northM - m.yM) / (northM - southM);
      if (x >= 0 && x <= 1 && y >= 0 && y <= 1) {
        String side = room.side(x * framePx, y * heightPx, m);
        if (!side.isEmpty()) {
          all.add(new Placed(x, y, m.symbol, side, m.text));
        }
      }
    }
    return all;
  }

  /** The room of a frame that labels take one after another. */
  private static final class Room {
    private final double widthPx;
    private final double heightPx;
    private final List<double[]> taken = new ArrayList<>();

    Room(double widthPx, double heightPx) {
      this.widthPx = widthPx;
      this.heightPx = heightPx;
    }

    /** Returns the side where the name of a mark has room; empty if nothing of it is drawn. */
    String side(double px, double py, Mark m) {
      double w = m.text.length() * LETTER_PX + 4;
      double h = LINE_PX / 2;
      if (m.symbol.equals(ON_LINE)) {
        return free(px - w / 2, py - h, px + w / 2, py + h) ? "centre" : "";
      }
      taken.add(new double[] {px - 6, py - 6, px + 6, py + 6});
      if (free(px + GAP_PX, py - h, px + GAP_PX + w, py + h)) {
        return "right";
      }
      if (free(px - GAP_PX - w, py - h, px - GAP_PX, py + h)) {
        return "left";
      }
      if (free(px - w / 2, py - GAP_PX - LINE_PX, px + w / 2, py - GAP_PX)) {
        return "above";
      }
      return free(px - w / 2, py + GAP_PX, px + w / 2, py + GAP_PX + LINE_PX) ? "below" : "hidden";
    }

    /** Reserves the rectangle if it lies on the map and overlaps nothing; returns true if so. */
    private boolean free(double x0, double y0, double x1, double y1) {
      if (x0 < 0 || y0 < 0 || x1 > widthPx || y1 > heightPx) {
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
  }
}
