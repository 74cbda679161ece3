package org.scarpway.dem;

import java.util.Locale;

/**
 * Unit of height in metres, by the unit names used in raster files; {@code known} is false for a
 * name not recognised.
 */
record HeightUnit(double metres, boolean known) {

  /**
   * Looks up a unit name. An empty name counts as metres, not stated; an unrecognised one as
   * metres, with {@code known} false.
   */
  static HeightUnit named(String name) {
    String plain = name.toLowerCase(Locale.ROOT).replaceAll("[^a-z]", "");
    double metres =
        switch (plain) {
          case "", "m", "metre", "metres", "meter", "meters" -> 1;
          case "ft", "foot", "feet", "footinternational", "internationalfoot", "ftint" -> 0.3048;
          case "usft",
              "ftus",
              "usfoot",
              "usfeet",
              "ussurveyfoot",
              "ussurveyfeet",
              "footus",
              "ussurveyft",
              "footussurvey",
              "ftsurveyus" ->
              1200.0 / 3937.0;
          case "km", "kilometre", "kilometres", "kilometer", "kilometers" -> 1000;
          case "dm", "decimetre", "decimetres", "decimeter", "decimeters" -> 0.1;
          case "cm", "centimetre", "centimetres", "centimeter", "centimeters" -> 0.01;
          case "mm", "millimetre", "millimetres", "millimeter", "millimeters" -> 0.001;
          default -> Double.NaN;
        };
    return Double.isNaN(metres) ? new HeightUnit(1, false) : new HeightUnit(metres, true);
  }
}
