package org.scarpway.report;

import java.util.List;
import org.scarpway.drawing.Surface.Box;
import org.scarpway.drawing.Surface.Stroke;

/** The lines of printed maps, in the looks of those of the page. */
final class MapStrokes {
  static final int INK = 0x17202A;
  static final int WHITE = 0xFFFFFF;
  static final Stroke FRAME = new Stroke(INK, 0.35);
  static final Stroke KILOMETRES = new Stroke(INK, 0.15, 0.3, List.of());
  static final Stroke DEGREES = new Stroke(0x1B4F8F, 0.15, 0.75, List.of());
  static final Stroke KEEP_OUT = new Stroke(Palette.BLACK, 0.4, 1, List.of(1.8, 0.8));
  static final Stroke ELLIPSE = new Stroke(INK, 0.45);
  static final Stroke CASING = new Stroke(WHITE, 1.3);

  private MapStrokes() {}

  /** Returns the stroke of a way by its class in the style sheet of the page. */
  static Stroke way(String css) {
    List<Double> dash = List.of();
    if (css.contains("alt1")) {
      dash = List.of(2.4, 1.0);
    } else if (css.contains("alt2")) {
      dash = List.of(0.8, 0.8);
    } else if (css.contains("alt3")) {
      dash = List.of(2.9, 0.8, 0.5, 0.8);
    } else if (css.contains("alt4")) {
      dash = List.of(0.4, 1.3);
    }
    return new Stroke(Palette.BLACK, 0.6, 1, dash);
  }

  /** Returns the outline of a box. */
  static double[] outline(Box b) {
    double right = b.x() + b.w();
    double bottom = b.y() + b.h();
    return new double[] {b.x(), b.y(), right, b.y(), right, bottom, b.x(), bottom, b.x(), b.y()};
  }
}
