package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.validation.Validation;

/** Detour and closure of boulder fields against shortest ways among rocks drawn at random. */
class BoulderFieldsCheck {
  private static final String SOURCE = "own Monte Carlo of a body among discs";

  /** The detour is not below the one drawn, beyond its error, nor far above it. */
  private static void holds(String id, String what, BoulderFields.Result drawn, double density) {
    double model = RockModel.detourFactor(density);
    double slack = 2 * drawn.standardError();
    String got =
        String.format(
            Locale.ROOT,
            "%s (density %.2f): drawn %.3f +- %.3f, model %.3f",
            what,
            density,
            drawn.meanDetour(),
            drawn.standardError(),
            model);
    Validation.holds(
        id,
        got + ", not below and at most 1.5 times the surplus",
        SOURCE,
        "C",
        model >= drawn.meanDetour() - slack
            && model - 1 <= 1.5 * (drawn.meanDetour() + slack - 1) + 0.003);
    assertTrue(drawn.closed() <= drawn.fields() / 4, got + " closed " + drawn.closed());
  }

  @Test
  void discsOfOneSize() {
    double[] densities = {0.2, 0.4, 0.6, 0.75};
    for (double density : densities) {
      BoulderFields.Result drawn = BoulderFields.equal(density, 14, 40, new Random(11));
      holds("13-boulders-" + density, "discs of one size", drawn, density);
    }
    // Beyond the endless barrier hardly a field has a way; the smaller they are, the more have.
    BoulderFields.Result barred = BoulderFields.equal(1.5, 10, 40, new Random(12));
    Validation.holds(
        "13-boulders-barrier",
        "density 1.5, above the barrier of 4.51235 / 4: closed are "
            + barred.closed()
            + " of 10 fields",
        "percolation of discs: arXiv 2010.02895",
        "V",
        barred.closed() >= 9);
  }

  /** Sizes by the law, some met by wheels alone: two discs, as far apart as the wheels. */
  @Test
  void rocksOfAllSizesUnderBellyAndWheels() {
    RockBody body = new RockBody(3, 0.35, 0.25, 0.35, 2);
    for (double k : new double[] {0.1, 0.19}) {
      RockModel rocks = RockModel.of(RockCount.ALL, k);
      double least = body.wheelDiameterM();
      double perM2 = rocks.perM2(least);
      BoulderFields.Rock rock =
          (x, y, random, discs) -> {
            double d = diameterM(rocks, least, perM2 * (1 - random.nextDouble()));
            if (d >= body.bellyDiameterM()) {
              discs.add(new double[] {x, y, (body.swathM() + d) / 2});
            } else {
              discs.add(new double[] {x, y - 1.2, (body.wheelWidthM() + d) / 2});
              discs.add(new double[] {x, y + 1.2, (body.wheelWidthM() + d) / 2});
            }
          };
      BoulderFields.Result drawn = new BoulderFields(70, 0.25).run(12, perM2, rock, new Random(13));
      holds("13-boulders-k" + k, "rocks by coverage " + k, drawn, rocks.density(body));
    }
  }

  /** The diameter above which there are so many rocks per m2. */
  private static double diameterM(RockModel rocks, double least, double perM2) {
    double low = least;
    double high = 20;
    for (int i = 0; i < 40; i++) {
      double mid = (low + high) / 2;
      if (rocks.perM2(mid) > perM2) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return low;
  }
}
