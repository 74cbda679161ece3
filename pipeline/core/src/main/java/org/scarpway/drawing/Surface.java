package org.scarpway.drawing;

import java.util.List;

/** What can be drawn on. Lengths are millimetres from the upper left corner of the paper. */
public interface Surface {
  /** Where a word begins. */
  enum Anchor {
    START,
    MIDDLE,
    END
  }

  /**
   * A rectangle.
   *
   * @param x of its left side
   * @param y of its upper side
   * @param w its width
   * @param h its height
   */
  record Box(double x, double y, double w, double h) {}

  /**
   * How a line is drawn.
   *
   * @param rgb colour, 0xRRGGBB
   * @param widthMm of the line
   * @param alpha opacity, 0 to 1
   * @param dash lengths drawn and left out in turn (mm); empty for a whole line
   */
  record Stroke(int rgb, double widthMm, double alpha, List<Double> dash) {
    public Stroke {
      dash = List.copyOf(dash);
    }

    /** A whole, opaque line. */
    public Stroke(int rgb, double widthMm) {
      this(rgb, widthMm, 1, List.of());
    }
  }

  /**
   * How words are written.
   *
   * @param sizeMm of the letters, about the height of a line of them
   * @param anchor the part of the words that lies at their place
   * @param bold true for thick letters
   * @param halo true for a white rim, which keeps words readable on a picture
   */
  record Hand(double sizeMm, Anchor anchor, boolean bold, boolean halo) {}

  /** Room that words take on their line (mm), the same on all surfaces. */
  static double widthMm(String text, double sizeMm) {
    return Letters.widthMm(text, sizeMm);
  }

  /** Draws the following inside a box only, until {@link #whole}. */
  void within(Box box);

  /** Ends {@link #within}. */
  void whole();

  /** Draws a picture into a box; its pixels stay apart. */
  void picture(Picture picture, Box box);

  /**
   * Draws lines.
   *
   * @param lines each as x, y, x, y ...
   */
  void lines(List<double[]> lines, Stroke stroke);

  /**
   * Fills a polygon.
   *
   * @param ring x, y, x, y ...
   */
  void fill(double[] ring, int rgb);

  void disc(double x, double y, double radius, int rgb);

  /**
   * Writes words on one line.
   *
   * @param y of the foot of the letters
   * @param turnDeg turn about (x, y), clockwise
   */
  void words(String text, double x, double y, double turnDeg, Hand hand);
}
