package org.scarpway.drawing;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Locale;

/** Writes a drawing as SVG 1.1 (W3C Recommendation, second edition 2011), one unit a millimetre. */
public final class SvgSurface implements Surface {
  private static final String INK = "#17202a";

  private final StringBuilder svg = new StringBuilder(1 << 16);
  private int clips;

  /**
   * @param title of the drawing, for those who cannot see it
   */
  public SvgSurface(double widthMm, double heightMm, String title) {
    svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\"")
        .append(" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"")
        .append(number(widthMm))
        .append("mm\" height=\"")
        .append(number(heightMm))
        .append("mm\" viewBox=\"0 0 ")
        .append(number(widthMm))
        .append(' ')
        .append(number(heightMm))
        .append("\" role=\"img\">\n<title>")
        .append(quoted(title))
        .append("</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n")
        .append("<g font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\" fill=\"")
        .append(INK)
        .append("\">\n");
  }

  /** Returns the finished drawing. */
  public String text() {
    return svg + "</g>\n</svg>\n";
  }

  @Override
  public void within(Box box) {
    clips++;
    svg.append("<clipPath id=\"in").append(clips).append("\"><rect").append(sides(box));
    svg.append("/></clipPath><g clip-path=\"url(#in").append(clips).append(")\">\n");
  }

  @Override
  public void whole() {
    svg.append("</g>\n");
  }

  @Override
  public void picture(Picture picture, Box box) {
    svg.append("<image").append(sides(box));
    svg.append(" preserveAspectRatio=\"none\" style=\"image-rendering:pixelated\" xlink:href=\"");
    svg.append(picture.uri()).append("\"/>\n");
  }

  @Override
  public void lines(List<double[]> lines, Stroke stroke) {
    if (lines.isEmpty()) {
      return;
    }
    svg.append("<path d=\"");
    for (double[] line : lines) {
      path(line);
    }
    svg.append("\" fill=\"none\" stroke=\"").append(colour(stroke.rgb()));
    svg.append("\" stroke-width=\"").append(number(stroke.widthMm()));
    svg.append("\" stroke-linejoin=\"round\" stroke-linecap=\"");
    svg.append(stroke.dash().isEmpty() ? "round" : "butt").append('"');
    if (stroke.alpha() < 1) {
      svg.append(" stroke-opacity=\"").append(number(stroke.alpha())).append('"');
    }
    if (!stroke.dash().isEmpty()) {
      svg.append(" stroke-dasharray=\"");
      stroke.dash().forEach(d -> svg.append(number(d)).append(' '));
      svg.setCharAt(svg.length() - 1, '"');
    }
    svg.append("/>\n");
  }

  private void path(double[] points) {
    for (int i = 0; i < points.length; i += 2) {
      svg.append(i == 0 ? 'M' : 'L').append(number(points[i])).append(' ');
      svg.append(number(points[i + 1]));
    }
  }

  @Override
  public void fill(double[] ring, int rgb) {
    svg.append("<path d=\"");
    path(ring);
    svg.append("Z\" fill=\"").append(colour(rgb)).append("\"/>\n");
  }

  @Override
  public void disc(double x, double y, double radius, int rgb) {
    svg.append("<circle cx=\"").append(number(x)).append("\" cy=\"").append(number(y));
    svg.append("\" r=\"").append(number(radius)).append("\" fill=\"").append(colour(rgb));
    svg.append("\"/>\n");
  }

  @Override
  public void words(String text, double x, double y, double turnDeg, Hand hand) {
    if (text.isBlank()) {
      return;
    }
    svg.append("<text x=\"").append(number(x)).append("\" y=\"").append(number(y)).append('"');
    if (turnDeg != 0) {
      svg.append(" transform=\"rotate(").append(number(turnDeg)).append(' ');
      svg.append(number(x)).append(' ').append(number(y)).append(")\"");
    }
    svg.append(" font-size=\"").append(number(hand.sizeMm())).append('"');
    // The same room in every font, so that nothing overlaps.
    svg.append(" textLength=\"").append(number(Letters.widthMm(text, hand.sizeMm())));
    svg.append("\" lengthAdjust=\"spacingAndGlyphs\"");
    if (hand.anchor() != Anchor.START) {
      svg.append(" text-anchor=\"").append(hand.anchor().name().toLowerCase(Locale.ROOT));
      svg.append('"');
    }
    if (hand.bold()) {
      svg.append(" font-weight=\"bold\"");
    }
    if (hand.halo()) {
      svg.append(" stroke=\"#fff\" stroke-width=\"").append(number(Letters.HALO * hand.sizeMm()));
      svg.append("\" stroke-linejoin=\"round\" paint-order=\"stroke\"");
    }
    svg.append('>').append(quoted(text)).append("</text>\n");
  }

  private static String sides(Box box) {
    return " x=\""
        + number(box.x())
        + "\" y=\""
        + number(box.y())
        + "\" width=\""
        + number(box.w())
        + "\" height=\""
        + number(box.h())
        + '"';
  }

  private static String colour(int rgb) {
    return String.format(Locale.ROOT, "#%06x", rgb & 0xFFFFFF);
  }

  private static String number(double v) {
    BigDecimal d = BigDecimal.valueOf(v).setScale(3, RoundingMode.HALF_UP).stripTrailingZeros();
    return d.signum() == 0 ? "0" : d.toPlainString();
  }

  private static String quoted(String text) {
    StringBuilder out = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      switch (c) {
        case '&' -> out.append("&amp;");
        case '<' -> out.append("&lt;");
        case '>' -> out.append("&gt;");
        case '"' -> out.append("&quot;");
        // XML 1.0 has no place for other control characters.
        default -> out.append(c < ' ' ? ' ' : c);
      }
    }
    return out.toString();
  }
}
