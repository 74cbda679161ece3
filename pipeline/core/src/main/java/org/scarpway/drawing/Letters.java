package org.scarpway.drawing;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Letters of straight strokes, so that a picture of pixels is the same on every machine, whatever
 * fonts it has. A letter is a list of strokes, a stroke a list of points: a digit to the right and
 * a letter upwards, 'e' on the line, 'm' as high as small letters, 'q' as high as capitals.
 */
final class Letters {
  /** Width of the white rim about a letter, both sides together, as a share of its size. */
  static final double HALO = 0.3;

  /** Size of a step of the strokes as a share of the size of the letters. */
  private static final double STEP = 0.06;

  private static final double GAP = 2.3;
  private static final double SPACE = 4.6;
  private static final char FOOT = 'e';
  private static final String UNKNOWN = "0e0q6q6e0e";

  private static final String[] GLYPHS = {
    "A0e4q8e 1i7i",
    "B0e0q5q7o7m5k0k 5k8i8g6e0e",
    "C8o6q2q0o0g2e6e8g",
    "D0e0q5q8n8h5e0e",
    "E7q0q0e7e 0k6k",
    "F7q0q0e 0k6k",
    "G8o6q2q0o0g2e6e8g8k5k",
    "H0e0q 8e8q 0k8k",
    "I0e0q",
    "J5q5g3e2e0g",
    "K0e0q 8q0j 3l8e",
    "L0q0e6e",
    "M0e0q4i8q8e",
    "N0e0q8e8q",
    "O2q6q8o8g6e2e0g0o2q",
    "P0e0q6q8o8l6j0j",
    "Q2q6q8o8g6e2e0g0o2q 5h9d",
    "R0e0q6q8o8l6j0j 4j8e",
    "S8o6q2q0o0m2k6k8i8g6e2e0g",
    "T0q8q 4q4e",
    "U0q0g2e6e8g8q",
    "V0q4e8q",
    "W0q2e4m6e8q",
    "X0q8e 8q0e",
    "Y0q4k8q 4k4e",
    "Z0q8q0e8e",
    "02q4q6o6g4e2e0g0o2q",
    "10o3q3e",
    "20o2q4q6o6l0e6e",
    "30o2q4q6o6m4k2k 4k6i6g4e2e0g",
    "45e5q0h7h",
    "56q1q0l4l6j6g4e2e0g",
    "66o4q2q0o0g2e4e6g6j4l2l0j",
    "70q6q2e",
    "82k0m0o2q4q6o6m4k2k0i0g2e4e6g6i4k",
    "90g2e4e6g6o4q2q0o0l2j4j6l",
    "a0l2m4m6k6e 6j2j0h0g2e4e6g",
    "b0q0e 0k2m4m6k6g4e2e0g",
    "c6k4m2m0k0g2e4e6g",
    "d6q6e 6k4m2m0k0g2e4e6g",
    "e0i6i6k4m2m0k0g2e4e6f",
    "f4q3q2o2e 0m4m",
    "g6m6c4a2a0b 6k4m2m0k0g2e4e6g",
    "h0q0e 0k2m4m6k6e",
    "i0e0m 0p0q",
    "j2m2c0a 2p2q",
    "k0q0e 6m0h 2j6e",
    "l0q0e",
    "m0e0m 0k2m3m5k5e 5k7m8m9k9e",
    "n0e0m 0k2m4m6k6e",
    "o2m4m6k6g4e2e0g0k2m",
    "p0m0a 0k2m4m6k6g4e2e0g",
    "q6m6a 6k4m2m0k0g2e4e6g",
    "r0e0m 0k2m4m",
    "s6l4m2m0l0j2i4i6h6f4e2e0f",
    "t2q2g3e4e 0m4m",
    "u0m0g2e4e6g 6m6e",
    "v0m3e6m",
    "w0m2e4l6e8m",
    "x0m6e 6m0e",
    "y0m3e 6m3e2b0a",
    "z0m6m0e6e",
    "!0q0i 0e0f",
    "\"0q0n 2q2n",
    "#2e4q 6e8q 0i8i 1m9m",
    "$8o6q2q0o0m2k6k8i8g6e2e0g 4c4q",
    "%0e8q 1q3q3n1n1q 5h7h7e5e5h",
    "&8e1n1p3q5p5n0i0g2e5e8i",
    "'0q0n",
    "(3q0m0g3c",
    ")0q3m3g0c",
    "*3p3j 0n6l 6n0l",
    "+0i6i 3l3f",
    ",1f0c",
    "-0i4i",
    ".0e0f",
    "/0c5q",
    ":0e0f 0l0m",
    ";1f0c 1l1m",
    "<6m0i6e",
    "=0k6k 0g6g",
    ">0m6i0e",
    "?0o2q4q6o6m3j3h 3e3f",
    "@6h6l3l2j3h6h8i8n6q2q0n0g2e7e",
    "[3q0q0c3c",
    "\\0q5c",
    "]0q3q3c0c",
    "^0m3q6m",
    "_0c8c",
    "`0q2o",
    "{4q2q2l0j2h2c4c",
    "|0q0c",
    "}0q2q2l4j2h2c0c",
    "~0i2j4h6i",
    "°1q2q3p3o2n1n0o0p1q",
    "²0p1q2q3p3o0l3l",
    "³0q3q1o3n3m2l0l",
    "±0k6k 3n3h 0f6f",
    "×0l6f 6l0f",
    "→0i8i 5l8i5f",
    "≤6m0i6e 0c6c",
    "≥0m6i0e 0c6c",
    "…0e0f 3e3f 6e6f",
    "–0i6i",
    "—0i9i",
    "·0i0j",
    "µ0m0a 0g2e4e6g 6m6e",
    "ø2m4m6k6g4e2e0g0k2m 0e6m",
    "Ø2q6q8o8g6e2e0g0o2q 0e8q",
    "ł0q0e 0j2l",
    "Ł0q0e6e 0j3l",
    "ß0e0o2q4q5o5n3k5k6i6g4e2e",
  };

  private static final Map<Character, String> BY_CHAR = byChar();

  private Letters() {}

  private static Map<Character, String> byChar() {
    Map<Character, String> all = new HashMap<>();
    for (String glyph : GLYPHS) {
      all.put(glyph.charAt(0), glyph.substring(1));
    }
    return Map.copyOf(all);
  }

  /** Room that words take on their line (mm). */
  static double widthMm(String text, double sizeMm) {
    return STEP * sizeMm * steps(known(text));
  }

  private static double steps(String known) {
    double steps = 0;
    for (int i = 0; i < known.length(); i++) {
      steps += steps(known.charAt(i));
    }
    return steps;
  }

  private static double steps(char c) {
    if (c == ' ') {
      return SPACE;
    }
    int most = 0;
    String glyph = BY_CHAR.getOrDefault(c, UNKNOWN);
    for (int i = 0; i < glyph.length(); i++) {
      if (Character.isDigit(glyph.charAt(i))) {
        most = Math.max(most, glyph.charAt(i) - '0');
      }
    }
    return most + GAP;
  }

  /** Replaces letters with marks by the same letters without; those not known stay. */
  private static String known(String text) {
    StringBuilder out = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c <= ' ' || c == '\u00A0') {
        out.append(' ');
      } else if (BY_CHAR.containsKey(c)) {
        out.append(c);
      } else if (!Character.isLowSurrogate(c)) {
        char plain = Normalizer.normalize(String.valueOf(c), Normalizer.Form.NFKD).charAt(0);
        out.append(BY_CHAR.containsKey(plain) ? plain : c);
      }
    }
    return out.toString();
  }

  /**
   * Returns the strokes of words (mm).
   *
   * @param before share of the words that lies before x
   */
  static List<double[]> strokes(
      String text, double x, double y, double turnDeg, double sizeMm, double before) {
    String known = known(text);
    double unit = STEP * sizeMm;
    double begin = -before * unit * (steps(known) - GAP);
    double cos = Math.cos(Math.toRadians(turnDeg));
    double sin = Math.sin(Math.toRadians(turnDeg));
    List<double[]> all = new ArrayList<>();
    for (int i = 0; i < known.length(); i++) {
      char c = known.charAt(i);
      if (c != ' ') {
        for (String stroke : BY_CHAR.getOrDefault(c, UNKNOWN).split(" ", -1)) {
          double[] points = new double[stroke.length()];
          for (int k = 0; k < points.length; k += 2) {
            double right = begin + unit * (stroke.charAt(k) - '0');
            double down = unit * (FOOT - stroke.charAt(k + 1));
            points[k] = x + right * cos - down * sin;
            points[k + 1] = y + right * sin + down * cos;
          }
          all.add(points);
        }
      }
      begin += unit * steps(c);
    }
    return all;
  }
}
