package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.drawing.Surface;
import org.scarpway.drawing.Surface.Anchor;
import org.scarpway.drawing.Surface.Hand;

/**
 * Paragraphs broken into lines of a width.
 *
 * @param sizeMm of the letters
 */
record TextBlock(List<String> lines, double sizeMm, boolean isBold) {
  /** Distance of lines as a share of the size of their letters. */
  private static final double LEADING = 1.3;

  private static final double SMALLER = 0.94;

  TextBlock {
    lines = List.copyOf(lines);
  }

  static double widthMm(String text, double sizeMm) {
    return Surface.widthMm(text, sizeMm);
  }

  static TextBlock of(List<String> paragraphs, double widthMm, double sizeMm) {
    List<String> lines = new ArrayList<>();
    for (String paragraph : paragraphs) {
      StringBuilder line = new StringBuilder();
      for (String word : paragraph.split(" ")) {
        String longer = line.length() == 0 ? word : line + " " + word;
        if (line.length() > 0 && widthMm(longer, sizeMm) > widthMm) {
          lines.add(line.toString());
          line.setLength(0);
          line.append(word);
        } else {
          line.setLength(0);
          line.append(longer);
        }
      }
      lines.add(line.toString());
    }
    return new TextBlock(lines, sizeMm, false);
  }

  /** Breaks paragraphs in the largest letters, up to a size, that fit a room. */
  static TextBlock fitted(List<String> paragraphs, double widthMm, double heightMm, double sizeMm) {
    TextBlock block = of(paragraphs, widthMm, sizeMm);
    while (block.heightMm() > heightMm || block.widestMm() > widthMm) {
      block = of(paragraphs, widthMm, block.sizeMm * SMALLER);
    }
    return block;
  }

  TextBlock bold() {
    return new TextBlock(lines, sizeMm, true);
  }

  double heightMm() {
    return lines.size() * sizeMm * LEADING;
  }

  private double widestMm() {
    return lines.stream().mapToDouble(l -> widthMm(l, sizeMm)).max().orElse(0);
  }

  /** Draws the lines below a height. */
  void draw(Surface on, double x, double y) {
    Hand hand = new Hand(sizeMm, Anchor.START, isBold, false);
    for (int i = 0; i < lines.size(); i++) {
      on.words(lines.get(i), x, y + (i * LEADING + 0.95) * sizeMm, 0, hand);
    }
  }
}
