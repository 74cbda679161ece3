package org.scarpway.report;

import java.util.Arrays;
import java.util.List;
import org.scarpway.drawing.Surface;
import org.scarpway.drawing.Surface.Stroke;

/** The symbols of places on a printed map, in the shapes of those of the page. */
final class MapSymbols {
  private static final Stroke EDGE = new Stroke(MapStrokes.INK, 0.45);

  /** Millimetres to a unit of the page's symbols. */
  private static final double UNIT = 0.22;

  private MapSymbols() {}

  /** Returns what a symbol stands for; empty if it has no drawing. */
  static String meaning(String symbol) {
    return switch (symbol) {
      case "base" -> "base";
      case "target" -> "target";
      case "candidate" -> "candidate site";
      case "found" -> "place found by the search";
      case "stop" -> "stop of the corridor";
      case "pinch" -> "pinch point";
      default -> "";
    };
  }

  static void draw(Surface on, String symbol, double x, double y) {
    switch (symbol) {
      case "base" -> {
        shape(on, x, y, 0, -7, 7, 0, 0, 7, -7, 0);
        on.fill(points(x, y, 0, -3, 3, 0, 0, 3, -3, 0), MapStrokes.INK);
      }
      case "target" -> {
        disc(on, x, y, 4.6);
        on.disc(x, y, 1.3 * UNIT, MapStrokes.INK);
      }
      case "candidate" -> {
        shape(on, x, y, -5, -5, 5, -5, 5, 5, -5, 5);
        on.lines(List.of(points(x, y, -5, 5, 5, -5)), EDGE);
      }
      case "found" -> {
        disc(on, x, y, 6);
        on.lines(List.of(points(x, y, -4, 0, 4, 0), points(x, y, 0, -4, 0, 4)), EDGE);
      }
      case "stop" -> {
        on.disc(x, y, 6 * UNIT, MapStrokes.WHITE);
        on.disc(x, y, 4.6 * UNIT, MapStrokes.INK);
      }
      case "pinch" -> shape(on, x, y, -6, -5, 6, -5, 0, 6);
      default -> {
        // A name on a line has no symbol.
      }
    }
  }

  private static void disc(Surface on, double x, double y, double radius) {
    on.disc(x, y, (radius + 1) * UNIT, MapStrokes.INK);
    on.disc(x, y, (radius - 1) * UNIT, MapStrokes.WHITE);
  }

  private static void shape(Surface on, double x, double y, double... at) {
    double[] ring = points(x, y, at);
    on.fill(ring, MapStrokes.WHITE);
    double[] closed = Arrays.copyOf(ring, ring.length + 2);
    closed[ring.length] = ring[0];
    closed[ring.length + 1] = ring[1];
    on.lines(List.of(closed), EDGE);
  }

  private static double[] points(double x, double y, double... at) {
    double[] out = new double[at.length];
    for (int i = 0; i < at.length; i += 2) {
      out[i] = x + UNIT * at[i];
      out[i + 1] = y + UNIT * at[i + 1];
    }
    return out;
  }
}
