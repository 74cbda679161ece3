package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The colours of a legend are apart to every kind of colour vision, over the grey of the relief.
 */
class LegendColoursCheck {
  private static final int RELIEF = 0xB8B8B8;

  /** Pairs of colours with their difference, Sharma, Wu and Dalal 2005, table 1. */
  @Test
  void theMeasureGivesThePublishedDifferences() {
    double[][] pairs = {
      {50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425},
      {50, 0, 0, 50, -1, 2, 2.3669},
      {50, 2.49, -0.001, 50, -2.49, 0.0009, 7.1792},
      {50, 2.5, 0, 50, 0, -2.5, 4.3065},
      {50, 2.5, 0, 73, 25, -18, 27.1492},
      {60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644},
      {22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373},
      {2.0776, 0.0795, -1.1350, 0.9033, -0.0636, -0.5514, 0.9082}
    };
    for (double[] p : pairs) {
      double[] a = {p[0], p[1], p[2]};
      double[] b = {p[3], p[4], p[5]};
      assertEquals(p[6], ColourSight.ciede2000(a, b), 5e-5);
      assertEquals(p[6], ColourSight.ciede2000(b, a), 5e-5);
    }
  }

  /** Ten is four times a difference that is seen at a glance (2.3, common practice, no source). */
  @Test
  void classesOfOneLegendAreApart() {
    for (List<ClassStyle> legend :
        List.of(
            ClassStyle.mobility(),
            ClassStyle.limits(),
            ClassStyle.ends(),
            ClassStyle.reachChanges(),
            ClassStyle.classChanges())) {
      for (ClassStyle a : legend) {
        for (ClassStyle b : legend) {
          double apart = ColourSight.difference(shown(a), shown(b));
          assertTrue(
              a.equals(b) || apart >= 10, a.label() + " and " + b.label() + " differ by " + apart);
        }
      }
    }
  }

  /** Bands are steps of one scale: neighbours need only be told apart side by side. */
  @Test
  void bandsOfAReachAreApart() {
    ReportData data = ReportFixture.full();
    var bands =
        new ReachBands(new PixelGrid(data.dem().heightM().spec(), 100), data.reaches().get(0));
    for (ClassStyle a : bands.styles) {
      for (ClassStyle b : bands.styles) {
        double apart = ColourSight.difference(shown(a), shown(b));
        assertTrue(
            a.equals(b) || apart >= 5, a.label() + " and " + b.label() + " differ by " + apart);
      }
    }
  }

  @Test
  void classesAreApartFromBareGround() {
    for (List<ClassStyle> legend : List.of(ClassStyle.limits(), ClassStyle.ends())) {
      for (ClassStyle a : legend) {
        double apart = ColourSight.difference(shown(a), RELIEF);
        assertTrue(apart >= 8, a.label() + " differs from bare ground by " + apart);
      }
    }
  }

  private static int shown(ClassStyle style) {
    return Palette.mix(RELIEF, style.rgb(), style.alpha() / 255.0);
  }
}
