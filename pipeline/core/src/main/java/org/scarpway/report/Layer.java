package org.scarpway.report;

import java.util.List;
import org.scarpway.drawing.Picture;

/**
 * One thematic image over the relief, with its legend.
 *
 * @param id of the image in the page, letters, digits and hyphens
 * @param alt description of the image, for those who cannot see it
 */
record Layer(String id, String title, String alt, Image image, Legend legend) {

  /**
   * An image of the whole window.
   *
   * @param width in the drawing units of a map; slightly more than the window's width if the last
   *     block of cells extends beyond it
   */
  record Image(Picture picture, String width, String height) {
    static Image of(PixelGrid pixels, Picture picture) {
      double height = SvgPath.height(pixels.spec()) * pixels.overhangY();
      return new Image(
          picture, Figures.fixed(SvgPath.WIDTH * pixels.overhangX(), 2), Figures.fixed(height, 2));
    }

    String uri() {
      return picture.uri();
    }
  }

  /** A legend of either classes or a ramp; the other is empty or null. */
  record Legend(List<Entry> classes, Ramp ramp, String note) {
    Legend {
      classes = List.copyOf(classes);
    }
  }

  /** A class with its sample and, if known, its area and share. */
  record Entry(Picture sample, String label, String amount) {
    String swatch() {
      return sample.uri();
    }
  }

  /** A continuous scale with labelled values. */
  record Ramp(Picture picture, String unit, List<Mark> marks) {
    Ramp {
      marks = List.copyOf(marks);
    }

    String bar() {
      return picture.uri();
    }
  }

  /** Text at a position along the scale in percent. */
  record Mark(String at, String text) {}
}
