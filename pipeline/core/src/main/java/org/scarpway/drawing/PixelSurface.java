package org.scarpway.drawing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Draws into pixels, with smooth edges, to a PNG that has its size on paper. */
public final class PixelSurface implements Surface {
  private static final int INK = 0x17202A;
  private static final int WHITE = 0xFFFFFF;

  /** Points a side of a pixel that decide how much of it a polygon covers. */
  private static final int POINTS = 4;

  private final int width;
  private final int height;
  private final double perMm;
  private final int[] rgb;

  /** Share of each pixel that the shape being drawn covers; zero between shapes. */
  private final float[] cover;

  private int left;
  private int top;
  private int right;
  private int bottom;
  private int dirtyLeft;
  private int dirtyTop;
  private int dirtyRight;
  private int dirtyBottom;

  /**
   * @param dpi pixels per inch
   */
  public PixelSurface(double widthMm, double heightMm, double dpi) {
    this.perMm = dpi / 25.4;
    this.width = (int) Math.round(widthMm * perMm);
    this.height = (int) Math.round(heightMm * perMm);
    this.rgb = new int[width * height];
    this.cover = new float[width * height];
    Arrays.fill(rgb, WHITE);
    whole();
    nothingDirty();
  }

  /** Returns the finished drawing as a PNG file. */
  public byte[] png() {
    return Png.colours(width, height, rgb, (int) Math.round(perMm * 1000));
  }

  @Override
  public void within(Box box) {
    left = clamp(Math.rint(box.x() * perMm), width);
    top = clamp(Math.rint(box.y() * perMm), height);
    right = clamp(Math.rint((box.x() + box.w()) * perMm), width);
    bottom = clamp(Math.rint((box.y() + box.h()) * perMm), height);
  }

  @Override
  public void whole() {
    left = 0;
    top = 0;
    right = width;
    bottom = height;
  }

  private static int clamp(double v, int most) {
    return (int) Math.max(0, Math.min(most, v));
  }

  @Override
  public void picture(Picture picture, Box box) {
    byte[] indices = picture.indices();
    double x0 = box.x() * perMm;
    double y0 = box.y() * perMm;
    double pixelW = box.w() * perMm / picture.width();
    double pixelH = box.h() * perMm / picture.height();
    int y1 = Math.min(bottom, (int) Math.ceil(y0 + pixelH * picture.height() - 0.5));
    int x1 = Math.min(right, (int) Math.ceil(x0 + pixelW * picture.width() - 0.5));
    for (int y = Math.max(top, (int) Math.ceil(y0 - 0.5)); y < y1; y++) {
      int from = within((y + 0.5 - y0) / pixelH, picture.height()) * picture.width();
      for (int x = Math.max(left, (int) Math.ceil(x0 - 0.5)); x < x1; x++) {
        int index = indices[from + within((x + 0.5 - x0) / pixelW, picture.width())] & 0xFF;
        int argb = picture.argb(index);
        blend(y * width + x, argb, (argb >>> 24) / 255f);
      }
    }
  }

  private static int within(double at, int size) {
    return Math.max(0, Math.min(size - 1, (int) at));
  }

  @Override
  public void lines(List<double[]> lines, Stroke stroke) {
    double half = Math.max(0.35, stroke.widthMm() * perMm / 2);
    for (double[] line : lines) {
      for (double[] part : stroke.dash().isEmpty() ? List.of(line) : dashes(line, stroke.dash())) {
        for (int i = 0; i + 3 < part.length; i += 2) {
          double ax = part[i] * perMm;
          double ay = part[i + 1] * perMm;
          segment(ax, ay, part[i + 2] * perMm, part[i + 3] * perMm, half);
        }
      }
    }
    paint(stroke.rgb(), (float) stroke.alpha());
  }

  /** Cuts a line into the parts that a dashed stroke draws. */
  static List<double[]> dashes(double[] line, List<Double> dash) {
    List<double[]> parts = new ArrayList<>();
    int at = 0;
    double rest = dash.get(0);
    for (int i = 0; i + 3 < line.length; i += 2) {
      double dx = line[i + 2] - line[i];
      double dy = line[i + 3] - line[i + 1];
      double length = Math.hypot(dx, dy);
      double done = 0;
      while (done < length) {
        double step = Math.min(rest, length - done);
        if (at % 2 == 0) {
          double a = done / length;
          double b = (done + step) / length;
          parts.add(
              new double[] {
                line[i] + a * dx, line[i + 1] + a * dy, line[i] + b * dx, line[i + 1] + b * dy
              });
        }
        done += step;
        rest -= step;
        if (rest <= 1e-9) {
          at++;
          rest = dash.get(at % dash.size());
        }
      }
    }
    return parts;
  }

  /** Covers what lies within {@code half} of a stretch, its round ends included. */
  private void segment(double ax, double ay, double bx, double by, double half) {
    int x0 = Math.max(left, (int) Math.floor(Math.min(ax, bx) - half - 1));
    int x1 = Math.min(right, (int) Math.ceil(Math.max(ax, bx) + half + 1));
    int y0 = Math.max(top, (int) Math.floor(Math.min(ay, by) - half - 1));
    int y1 = Math.min(bottom, (int) Math.ceil(Math.max(ay, by) + half + 1));
    double dx = bx - ax;
    double dy = by - ay;
    double length2 = dx * dx + dy * dy;
    for (int y = y0; y < y1; y++) {
      for (int x = x0; x < x1; x++) {
        double px = x + 0.5 - ax;
        double py = y + 0.5 - ay;
        double t = length2 == 0 ? 0 : Math.max(0, Math.min(1, (px * dx + py * dy) / length2));
        float share = (float) (half + 0.5 - Math.hypot(px - t * dx, py - t * dy));
        if (share > 0) {
          cover(x, y, Math.min(1, share));
        }
      }
    }
  }

  private void cover(int x, int y, float share) {
    int i = y * width + x;
    cover[i] = Math.max(cover[i], share);
    dirtyLeft = Math.min(dirtyLeft, x);
    dirtyRight = Math.max(dirtyRight, x + 1);
    dirtyTop = Math.min(dirtyTop, y);
    dirtyBottom = Math.max(dirtyBottom, y + 1);
  }

  @Override
  public void fill(double[] ring, int colour) {
    double[] p = new double[ring.length];
    double[] low = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
    double[] high = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
    for (int i = 0; i < ring.length; i++) {
      p[i] = ring[i] * perMm;
      low[i % 2] = Math.min(low[i % 2], p[i]);
      high[i % 2] = Math.max(high[i % 2], p[i]);
    }
    for (int y = Math.max(top, (int) Math.floor(low[1])); y < Math.min(bottom, high[1]); y++) {
      for (int x = Math.max(left, (int) Math.floor(low[0])); x < Math.min(right, high[0]); x++) {
        int inside = 0;
        for (int k = 0; k < POINTS * POINTS; k++) {
          double px = x + (k % POINTS + 0.5) / POINTS;
          double py = y + (Math.floorDiv(k, POINTS) + 0.5) / POINTS;
          inside += isInside(p, px, py) ? 1 : 0;
        }
        if (inside > 0) {
          cover(x, y, inside / (float) (POINTS * POINTS));
        }
      }
    }
    paint(colour, 1);
  }

  /** True if a ray from the point crosses the ring an odd number of times. */
  private static boolean isInside(double[] ring, double x, double y) {
    boolean in = false;
    for (int i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      if (ring[i + 1] > y != ring[j + 1] > y) {
        double at = ring[j] + (y - ring[j + 1]) / (ring[i + 1] - ring[j + 1]) * (ring[i] - ring[j]);
        in ^= x < at;
      }
    }
    return in;
  }

  @Override
  public void disc(double x, double y, double radius, int colour) {
    segment(x * perMm, y * perMm, x * perMm, y * perMm, radius * perMm);
    paint(colour, 1);
  }

  @Override
  public void words(String text, double x, double y, double turnDeg, Hand hand) {
    double before =
        switch (hand.anchor()) {
          case START -> 0;
          case MIDDLE -> 0.5;
          case END -> 1;
        };
    List<double[]> strokes = Letters.strokes(text, x, y, turnDeg, hand.sizeMm(), before);
    double thick = hand.sizeMm() * (hand.bold() ? 0.125 : 0.085);
    if (hand.halo()) {
      lines(strokes, new Stroke(WHITE, thick + Letters.HALO * hand.sizeMm()));
    }
    lines(strokes, new Stroke(INK, thick));
  }

  /** Lays a colour over all that is covered, and uncovers it. */
  private void paint(int colour, float alpha) {
    for (int y = dirtyTop; y < dirtyBottom; y++) {
      for (int i = y * width + dirtyLeft; i < y * width + dirtyRight; i++) {
        if (cover[i] > 0) {
          blend(i, colour, cover[i] * alpha);
          cover[i] = 0;
        }
      }
    }
    nothingDirty();
  }

  private void nothingDirty() {
    dirtyLeft = width;
    dirtyTop = height;
    dirtyRight = 0;
    dirtyBottom = 0;
  }

  private void blend(int i, int colour, float share) {
    int out = 0;
    for (int shift = 16; shift >= 0; shift -= 8) {
      int from = rgb[i] >> shift & 0xFF;
      int to = colour >> shift & 0xFF;
      out |= Math.round(from + (to - from) * share) << shift;
    }
    rgb[i] = out;
  }
}
