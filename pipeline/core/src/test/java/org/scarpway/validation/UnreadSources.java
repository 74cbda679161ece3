package org.scarpway.validation;

import java.util.List;

/**
 * Citations in main code, and in the soils that come with it, that nobody opened: neither the
 * publication nor a second text that gives what is taken from it. Code names them like any other.
 */
final class UnreadSources {
  /**
   * @param where simple name of a class, with # and a method where only that one uses it, or a file
   *     from the root
   * @param citation as it stands there
   * @param taken what is used of it
   */
  record Unread(String where, String citation, String taken) {}

  static final List<Unread> ALL =
      List.of(
          // grid, terrain
          new Unread("Body", "GM 4902.800 and 42828.375 km3/s2", "gravity of the Moon and of Mars"),
          new Unread("EvansYoungGradient", "Young M. 1978", "the weights (its title is in a list)"),
          new Unread("EvansYoungGradient", "Sharpnack and Akin 1969", "that its gradient is equal"),
          new Unread(
              "ZevenbergenThorneGradient", "Fleming and Hoffer 1979", "that its gradient is equal"),
          new Unread(
              "Curvature",
              "Florinsky I.V. 1998",
              "names and signs of curvatures; last page 61 or 62: lists differ"),
          new Unread("Derivative", "Frankel and Dolan 2007, JGR 112:F02025", "the approach"),
          new Unread(
              "WindowDeviation", "Frankel K.L. and Dolan J.F. 2007", "deviation of slope, 3 x 3"),
          new Unread("RiceGradient", "Rice S.O. 1944-45", "the law of the slope under an error"),
          new Unread("RiceGradient", "Abramowitz and Stegun 9.6.12 and 9.7.1", "Bessel functions"),
          new Unread(
              "ErrorFunction", "Abramowitz and Stegun 1964", "series 7.1.6, fraction 7.1.14"),
          new Unread("NormalTail", "Abramowitz and Stegun 1964, 26.2.29", "tail by error function"),
          new Unread("SlopeAspect", "Abramowitz and Stegun 4.4.49", "arc tangent"),
          new Unread("SelfAffine#t975", "Abramowitz and Stegun 26.7.5", "quantile of Student's t"),
          new Unread(
              "StepOdds#bothAbove",
              "Drezner and Wesolowsky 1990",
              "the integral over the arc sine of the correlation"),
          new Unread("SlopeClass", "FM 5-33", "the limits of the classes, 3 to 45 %"),
          new Unread("SlopeClass", "FM 34-130 and ATP 2-01.3", "30 and 45 % of terrain classes"),
          // light
          new Unread("Ecliptic", "Lieske et al. 1977", "obliquity and angles of precession"),
          new Unread(
              "SunSeries",
              "Meeus, Astronomical Algorithms, 2nd ed. 1998, chapter 25",
              "the Sun's series; an example of it is met exactly"),
          new Unread(
              "MoonSeries", "Chapront-Touz\u00e9 and Chapront 1983", "that the terms come from it"),
          new Unread(
              "MoonSeries",
              "Meeus, Astronomical Algorithms, 2nd ed. 1998, chapter 47",
              "all terms; an example of them is met exactly, and hours of a published table"),
          new Unread(
              "EarthSky",
              "Meeus, Astronomical Algorithms, 2nd ed. 1998, chapters 12, 22 and 25",
              "sidereal time, nutation, aberration"),
          new Unread(
              "BodyAxes#moon",
              "Archinal et al. 2011",
              "the closed formulae of the Moon's axes; published poles are met"),
          new Unread(
              "BodyAxes#mars",
              "Archinal et al. 2018",
              "the slow terms of the axes of Mars; the linear ones were seen"),
          new Unread(
              "MarsSky",
              "Standish E.M., Keplerian elements for approximate positions of the major planets",
              "mean orbit of Mars"),
          new Unread(
              "HorizonSweep",
              "Dozier, Bruno and Downey 1981",
              "the order of its work; the title was in a list"),
          new Unread("RadioPath", "Recommendation ITU-R P.526", "the loss behind a sharp edge"),
          new Unread("SkyPosition", "IAU 2015 resolution B3", "radius of the sun"),
          new Unread("SunSeries", "IAU 2012 resolution B2", "astronomical unit"),
          // hazard
          new Unread(
              "ExponentialIntegral",
              "Abramowitz and Stegun 1964",
              "series 5.1.11, fraction 5.1.22"),
          new Unread(
              "RockModel", "Shoemaker E.M. and Morris E.C. 1970", "exponent 2.56 at Surveyor III"),
          new Unread(
              "RockModel",
              "Phys. Rev. E 76:051115",
              "volume and page; the threshold itself was seen"),
          // vehicle
          new Unread("BekkerSinkage", "Wong 2008", "sinkage of a rigid wheel"),
          new Unread("CompactionResistance", "Bekker 1969; Wong 2008, ch. 2", "the resistance"),
          new Unread(
              "DriveModel#drawbarPullN", "Wong 2008, ch. 2", "pull as thrust less resistance"),
          new Unread(
              "JanosiShear", "Janosi & Hanamoto 1961", "the integral; the stress law was seen"),
          new Unread("ConeBearing#speedShare", "field manual FM 5-33", "the soil factor"),
          new Unread("ConeIndex", "vehicle cone index reports", "VCI50 of tracked vehicles"),
          new Unread("WismerLuth", "Wismer & Luth 1974", "the gross pull"),
          new Unread(
              "GeeClough",
              "Gee-Clough, McAllister, Pearson & Evernden 1978",
              "mobility number and resistance"),
          new Unread(
              "MetabolicEquation",
              "Pandolf, Givoni & Goldman 1977",
              "bounds of speed and load; the relation was seen"),
          new Unread(
              "MetabolicEquation",
              "Minetti et al. 2002",
              "the polynomial of walking; that of running was seen"),
          // reach
          new Unread("Cuts", "Hopcroft & Tarjan 1973", "articulation by one search in depth"),
          new Unread("Refinement", "Networks 10:293-309", "last page 309 or 310: lists differ"),
          // sortie
          new Unread(
              "LabelSearch",
              "Righini & Salani 2008, Networks 51:155-170",
              "labels over sets of stops with dominance"),
          new Unread(
              "RelaxedTours",
              "Christofides, Mingozzi & Toth 1981, Networks 11:145-164",
              "tours that may repeat stops as a bound, priced by subgradient steps"),
          // geodata, run
          new Unread(
              "UtmZone",
              "NGA.SIG.0012_2.0.0_UTMUPS, 2014",
              "zones about Norway and Svalbard (the others are compared with PROJ)"),
          new Unread(
              "PolarStereographic",
              "Snyder 1987, USGS Prof. Paper 1395",
              "equations of this and other projections (PROJ gives the same positions)"),
          new Unread("StacCatalogue", "STAC 1.1.0", "what a catalogue and an item must hold"),
          // sample
          new Unread("Crater", "Pike 1977", "depth and rim height by diameter"),
          new Unread("DemoGround", "Trask 1966", "its title; the figure was seen elsewhere"),
          new Unread("FractalGround", "The Science of Fractal Images, 1988", "Saupe's chapter"),
          // soils
          new Unread(
              "configs/soils/dry-sand.yaml",
              "Wong, Theory of Ground Vehicles, chapter 2",
              "all values but k"),
          new Unread(
              "configs/soils/sandy-loam.yaml",
              "Wong, Theory of Ground Vehicles, chapter 2",
              "all values"),
          new Unread(
              "configs/soils/lunar-compact.yaml", "Lunar Sourcebook", "cohesion and friction"),
          new Unread(
              "pipeline/core/src/main/resources/begin/soil-earth.yaml",
              "Wong, Theory of Ground Vehicles, chapter 2",
              "all values of the soil that a first job on Earth gets"),
          new Unread(
              "pipeline/core/src/main/resources/begin/soil-moon.yaml",
              "Lunar Sourcebook",
              "friction of the soil that a first job on the Moon gets"));

  private UnreadSources() {}

  /** The part of reports/validation.md that lists them. */
  static String section() {
    StringBuilder md = new StringBuilder("## Citations that nobody opened\n\n");
    md.append("What is taken from these was written down without the text at hand. Most ");
    md.append("citations that are not listed were met in reference lists or a second text only, ");
    md.append("which is not the same as having read them.\n\n");
    md.append("| citation | where | taken from it |\n|---|---|---|\n");
    for (Unread u : ALL) {
      md.append("| ").append(ValidationReport.cell(u.citation));
      md.append(" | ").append(u.where);
      md.append(" | ").append(ValidationReport.cell(u.taken)).append(" |\n");
    }
    return md.toString();
  }
}
