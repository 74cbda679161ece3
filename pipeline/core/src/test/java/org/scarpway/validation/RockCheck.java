package org.scarpway.validation;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.scarpway.hazard.RockBody;
import org.scarpway.hazard.RockCount;
import org.scarpway.hazard.RockModel;

/** Rocks: covered fraction, number per m2, hits per km. Relative tolerance 1e-5, or as printed. */
class RockCheck {
  private static final String SOURCE = "Golombek and Rapp 1997";

  /** k, F(.1) F(.3) F(.5) F(1), N(>.1) N(>.3) N(>.5) N(>1). */
  private static final String[][] TABLE = {
    {
      ".01",
      "1.82866e-3",
      "6.11506e-5",
      "2.04488e-6",
      "4.18e-10",
      ".120807",
      "6.42614e-4",
      "8.56521e-6",
      "4.788e-10"
    },
    {
      ".02",
      "7.82037e-3",
      "1.1957e-3",
      "1.82817e-4",
      "1.67111e-6",
      ".388779",
      ".0106261",
      "6.78035e-4",
      "1.77816e-6"
    },
    {
      ".05",
      ".0308465",
      ".0117402",
      "4.46837e-3",
      "3.99326e-4",
      "1.0342",
      ".0803576",
      ".0135534",
      "3.72843e-4"
    },
    {
      ".07",
      ".0471037",
      ".021329",
      "9.65795e-3",
      "1.33251e-3",
      "1.38435",
      ".132935",
      ".0271793",
      "1.18189e-3"
    },
    {
      ".10",
      ".0718205",
      ".0370464",
      ".0191092",
      "3.65162e-3",
      "1.86351",
      ".210778",
      ".0499338",
      "3.07463e-3"
    },
    {
      ".19",
      ".146646",
      ".0873588",
      ".0520406",
      ".0142538",
      "3.18579",
      ".434722",
      ".12171",
      ".0110794"
    },
    {
      ".30",
      ".23844",
      ".150623",
      ".0951495",
      ".0301781",
      "4.73397",
      ".699183",
      ".209901",
      ".0224686"
    },
  };

  private static final double[] DIAMETERS = {.1, .3, .5, 1.0};

  @Test
  void fractionAndNumber() {
    for (String[] row : TABLE) {
      double k = Double.parseDouble(row[0]);
      RockModel rocks = RockModel.of(RockCount.ALL, k);
      if (k < .05) {
        notFewer(row, rocks);
        continue;
      }
      for (int d = 0; d < 4; d++) {
        String at = "k " + row[0] + ", D " + DIAMETERS[d] + " m: ";
        String id = "3-rocks-k" + row[0] + "-D" + DIAMETERS[d];
        printed(
            id + "-covered", at + "covered fraction", row[1 + d], rocks.coveredBy(DIAMETERS[d]));
        printed(id + "-number", at + "rocks per m2", row[5 + d], rocks.perM2(DIAMETERS[d]));
      }
    }
    Validation.near(
        "3-rocks-total",
        "F(0) is k",
        SOURCE,
        "C",
        0.07,
        RockModel.of(RockCount.ALL, .07).coveredBy(0),
        1e-15);
    Validation.near(
        "3-rocks-none",
        "no coverage, no rocks",
        SOURCE,
        "C",
        0,
        RockModel.of(RockCount.ALL, 0).perM2(.1),
        0);
  }

  /** Below the fitted range the law loses its large rocks; ours keeps those of its edge. */
  private static void notFewer(String[] row, RockModel rocks) {
    boolean more = true;
    for (int d = 1; d < 4; d++) {
      more &= rocks.perM2(DIAMETERS[d]) >= Double.parseDouble(row[5 + d]);
    }
    Validation.holds(
        "3-rocks-k" + row[0] + "-below",
        "k " + row[0] + ", below the fit: no fewer rocks of 0.3, 0.5 and 1 m than the law extended",
        SOURCE,
        "C",
        more);
    Validation.nearRel(
        "3-rocks-k" + row[0] + "-edge",
        "k " + row[0] + ": rocks of 0.5 m or more by the shape at 0.05, per m2",
        SOURCE + "; own choice",
        "C",
        Double.parseDouble(row[0]) / .05 * Double.parseDouble(TABLE[2][7]),
        rocks.perM2(.5),
        1e-5);
  }

  /** Counts at Surveyor III: 3.3e6 y^-2.56 rocks of y mm or more on 100 m2. */
  @Test
  void againstCountsOnTheMoon() {
    String source = "Shoemaker and Morris 1970 (from memory)";
    double covered = Math.PI / 4 * 2.56 / .56 * 3.3e4 * Math.pow(1000, -2.56) * Math.pow(.05, -.56);
    double half = 3.3e4 * Math.pow(500, -2.56);
    Validation.nearRel(
        "4-rocks-power",
        "Surveyor III: rocks of 0.5 m or more per m2 from the cover of those above 0.05 m, power law",
        source,
        "M",
        half,
        RockModel.of(new RockCount(.05, 2.56), covered).perM2(.5),
        1e-9);
    // Two laws of different form, extrapolated to the size at which the count itself ends.
    Validation.nearRel(
        "4-rocks-surveyor",
        "the same by the exponential law, whose shape at 0.05 is kept",
        source,
        "M",
        half,
        RockModel.of(new RockCount(.05, null), covered).perM2(.5),
        .2);
    // The curve of all rocks 0.10 covers 3.65162e-3 with those of 1 m or more.
    Validation.nearRel(
        "4-rocks-abundance",
        "an abundance of rocks of 1 m or more names its curve: rocks of 0.5 m or more per m2",
        SOURCE,
        "C",
        .0499338,
        RockModel.of(new RockCount(1, null), 3.65162e-3).perM2(.5),
        1e-5);
  }

  private static void printed(String id, String check, String expected, double got) {
    BigDecimal want = new BigDecimal(expected);
    // Half a unit of the last printed digit, not stricter than 1e-5.
    double tolerance = Math.max(0.5000001 * want.ulp().doubleValue(), 1e-5 * want.doubleValue());
    Validation.near(id, check, SOURCE, "C", want.doubleValue(), got, tolerance);
  }

  @Test
  void sweptSwath() {
    String[] k = {".05", ".07", ".10", ".19"};
    String[] perKm = {"11.308", "27.465", "58.467", "168.65"};
    for (int i = 0; i < k.length; i++) {
      printed(
          "3-swath-k" + k[i],
          "rocks of 0.7 m or more met by a swath of 3 m per km, k " + k[i],
          perKm[i],
          1000 * RockModel.of(RockCount.ALL, Double.parseDouble(k[i])).hitsPerM(3, .7));
    }
    printed(
        "3-freepath-k.05",
        "mean free path, m",
        "88.43",
        RockModel.of(RockCount.ALL, .05).meanFreePathM(3, .7));
    printed(
        "3-freepath-k.07",
        "mean free path, m",
        "36.41",
        RockModel.of(RockCount.ALL, .07).meanFreePathM(3, .7));
    printed(
        "3-area-k.05",
        "at least one in 100 m2",
        ".254812",
        RockModel.of(RockCount.ALL, .05).probabilityIn(100, .7));
    printed(
        "3-area-k.10",
        "at least one in 100 m2",
        ".777445",
        RockModel.of(RockCount.ALL, .10).probabilityIn(100, .7));
  }

  @Test
  void familyAndHeights() {
    boolean apart = true;
    for (double k = .05; k < .395; k += .005) {
      for (double d = 0; d <= 3; d += .05) {
        apart &=
            RockModel.of(RockCount.ALL, k).coveredBy(d)
                < RockModel.of(RockCount.ALL, k + .005).coveredBy(d);
      }
    }
    Validation.holds(
        "3-rocks-family",
        "curves of coverages 0.05 to 0.40 do not cross, D 0 to 3 m",
        "Golombek et al. 2003",
        "V",
        apart);
    Validation.near(
        "3-rocks-height",
        "clearance of 0.35 m is blocked from D, m (height D / 2)",
        SOURCE + " (from memory)",
        "M",
        .7,
        RockBody.blockingDiameterM(.35),
        1e-15);
    Validation.holds(
        "3-rocks-trap",
        "as the coverage goes to 0 the number of large rocks goes to 0 with it, not before",
        "own choice",
        "C",
        Math.abs(
                RockModel.of(RockCount.ALL, 1e-6).perM2(1)
                        / RockModel.of(RockCount.ALL, .05).perM2(1)
                        / 2e-5
                    - 1)
            < 1e-9);
  }

  @Test
  void numberAgainstQuadrature() {
    // N(>D) = integral of f(x) / (pi x2 / 4), f = k q exp(-q x), by Simpson's rule in log x.
    double k = .1;
    double q = 1.79 + .152 / k;
    int n = 20_000;
    double a = Math.log(.35);
    double h = (Math.log(40) - a) / n;
    double sum = 0;
    for (int i = 0; i <= n; i++) {
      double x = Math.exp(a + i * h);
      double f = k * q * Math.exp(-q * x) * 4 / (Math.PI * x * x) * x;
      sum += f * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    Validation.nearRel(
        "3-rocks-quadrature",
        "rocks per m2 above 0.35 m, k 0.1, against numerical integration",
        SOURCE,
        "C",
        sum * h / 3,
        RockModel.of(RockCount.ALL, k).perM2(.35),
        1e-9);
  }
}
