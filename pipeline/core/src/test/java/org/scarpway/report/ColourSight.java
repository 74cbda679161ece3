package org.scarpway.report;

/**
 * How different colours look to people with full and with dichromatic colour vision. Simulation of
 * dichromacy: Machado, Oliveira and Fernandes 2009, IEEE TVCG 15(6):1283-1291, table 1 at severity
 * 1.0, on linear sRGB. Difference: CIEDE2000, Sharma, Wu and Dalal 2005, Color Res. Appl. 30:21-30.
 */
final class ColourSight {
  private static final double[][] SEEN_BY = {
    {1, 0, 0, 0, 1, 0, 0, 0, 1},
    {0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998},
    {0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940, 0.968881},
    {1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.303900}
  };

  private ColourSight() {}

  /** The least difference of two colours over the four kinds of sight. */
  static double difference(int rgbA, int rgbB) {
    double least = Double.POSITIVE_INFINITY;
    for (double[] sight : SEEN_BY) {
      least = Math.min(least, ciede2000(lab(rgbA, sight), lab(rgbB, sight)));
    }
    return least;
  }

  /** CIELAB under D65 of a colour of sRGB (IEC 61966-2-1) as the given sight has it. */
  private static double[] lab(int rgb, double[] sight) {
    double[] c = {linear(rgb >> 16 & 0xFF), linear(rgb >> 8 & 0xFF), linear(rgb & 0xFF)};
    double[] s = new double[3];
    for (int k = 0; k < 3; k++) {
      double v = sight[3 * k] * c[0] + sight[3 * k + 1] * c[1] + sight[3 * k + 2] * c[2];
      s[k] = Math.max(0, Math.min(1, v));
    }
    double x = (0.4124564 * s[0] + 0.3575761 * s[1] + 0.1804375 * s[2]) / 0.95047;
    double y = 0.2126729 * s[0] + 0.7151522 * s[1] + 0.0721750 * s[2];
    double z = (0.0193339 * s[0] + 0.1191920 * s[1] + 0.9503041 * s[2]) / 1.08883;
    return new double[] {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
  }

  private static double f(double t) {
    return t > 216.0 / 24389 ? Math.cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  }

  private static double linear(int channel) {
    double c = channel / 255.0;
    return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
  }

  /** Difference of two colours of CIELAB. */
  static double ciede2000(double[] a, double[] b) {
    double meanC = (Math.hypot(a[1], a[2]) + Math.hypot(b[1], b[2])) / 2;
    double g = 0.5 * (1 - Math.sqrt(pow7(meanC)));
    double a1 = a[1] * (1 + g);
    double a2 = b[1] * (1 + g);
    double c1 = Math.hypot(a1, a[2]);
    double c2 = Math.hypot(a2, b[2]);
    double h1 = hue(a1, a[2]);
    double h2 = hue(a2, b[2]);
    double turn = h2 - h1;
    boolean grey = c1 * c2 == 0;
    if (grey) {
      turn = 0;
    } else if (Math.abs(turn) > 180) {
      turn -= Math.copySign(360, turn);
    }
    double dL = b[0] - a[0];
    double dC = c2 - c1;
    double dH = 2 * Math.sqrt(c1 * c2) * Math.sin(Math.toRadians(turn / 2));
    double l = (a[0] + b[0]) / 2;
    double c = (c1 + c2) / 2;
    double h = (h1 + h2) / 2;
    if (grey) {
      h = h1 + h2;
    } else if (Math.abs(h1 - h2) > 180) {
      h += h1 + h2 < 360 ? 180 : -180;
    }
    double t =
        1 - 0.17 * cos(h - 30) + 0.24 * cos(2 * h) + 0.32 * cos(3 * h + 6) - 0.20 * cos(4 * h - 63);
    double off = (h - 275) / 25;
    double rc = 2 * Math.sqrt(pow7(c));
    double rt = -Math.sin(Math.toRadians(60 * Math.exp(-off * off))) * rc;
    double fromMiddle = (l - 50) * (l - 50);
    double sl = 1 + 0.015 * fromMiddle / Math.sqrt(20 + fromMiddle);
    double tl = dL / sl;
    double tc = dC / (1 + 0.045 * c);
    double th = dH / (1 + 0.015 * c * t);
    return Math.sqrt(tl * tl + tc * tc + th * th + rt * tc * th);
  }

  private static double pow7(double c) {
    double p = Math.pow(c, 7);
    return p / (p + Math.pow(25, 7));
  }

  private static double hue(double a, double b) {
    double h = Math.toDegrees(Math.atan2(b, a));
    return h < 0 ? h + 360 : h;
  }

  private static double cos(double deg) {
    return Math.cos(Math.toRadians(deg));
  }
}
