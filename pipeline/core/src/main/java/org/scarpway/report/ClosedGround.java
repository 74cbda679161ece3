package org.scarpway.report;

import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/** The ground that a vehicle cannot enter, as the sheets of a crew show it. */
final class ClosedGround {
  private static final int CLOSED = 1;
  private static final int ALPHA = 150;

  private ClosedGround() {}

  /** Returns the layers of a sheet's map; shares are of the ground with elevation. */
  static LayerFactory layers(FloatGrid heightM, int pixels) {
    double cells = 0;
    for (float h : heightM.values()) {
      cells += Float.isNaN(h) ? 0 : 1;
    }
    return new LayerFactory(heightM, pixels, cells * heightM.spec().cellAreaM2());
  }

  /**
   * @param closed 1 where the vehicle cannot enter a cell on any heading, or nothing is known of it
   */
  static Layer of(LayerFactory layers, String title, ByteGrid closed, String vehicle) {
    ClassStyle style =
        new ClassStyle(CLOSED, "closed to " + vehicle, Palette.VERMILION, ALPHA, Pattern.RISING);
    return layers.classes(
        "ground",
        title,
        closed,
        List.of(style),
        TilePack.Halving.LARGEST,
        "Ground without colour can be entered on at least one heading.");
  }
}
