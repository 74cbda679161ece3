package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.stage.Digits;
import org.scarpway.terrain.LayerErrors;

/** Notes on the effect of the height error on the verdicts of a vehicle. */
final class TrustNotes {
  private TrustNotes() {}

  static List<String> of(
      HeightTrust trust, Allowances allowances, MoveLimits limits, MobilityCounts counts) {
    LayerErrors errors = trust.errors();
    if (errors == null || counts.judged() == 0) {
      return List.of();
    }
    StringBuilder text = new StringBuilder();
    text.append(
        Digits.text(
            "Confidence %s: on every heading that is open the limits on slope hold together with"
                + " that probability, given a height error of %s m (a grade is off by %.2g deg,"
                + " one sigma).",
            trust.confidence(),
            errors.heights().sigmaM(),
            SlopeGeometry.deg(allowances.gradientSigma)));
    example(text, "climb", limits.climb, allowances);
    example(text, "side slope", limits.side, allowances);
    if (allowances.alongSigma != null) {
      text.append(
          " That the cell under the wheels may by itself be steeper than any heading takes counts"
              + " among them.");
    }
    text.append(" Belly and overhangs count each by itself at their nearest to a limit.");
    if (limits.stepM < Double.POSITIVE_INFINITY && allowances.step != null) {
      step(text, limits.stepM, allowances);
    }
    if (limits.needsStep() && allowances.step == null) {
      text.append(
          " Steps are measured on cells wider than the wheel spacing: no allowance is made on them.");
    }
    List<String> notes = new ArrayList<>();
    notes.add(text.toString());
    notes.add(
        Digits.text(
            "P(no-go) is %s %% on average and above %s on %s %% of the ground: how likely a"
                + " limit is broken on the best heading, from above but for belly and overhangs.",
            pct(counts.noGoPct()), 1 - trust.confidence(), pct(counts.doubtfulPct())));
    return notes;
  }

  private static String pct(double share) {
    if (share > 0 && share < 0.01) {
      return "less than 0.01";
    }
    return share < 9.5 ? Digits.of(share) : String.format(Locale.ROOT, "%.0f", share);
  }

  private static void step(StringBuilder text, double limitM, Allowances a) {
    double least = a.stepOdds == null ? a.step.broken(limitM) : a.stepOdds.onFlat(limitM);
    if (least > a.tail) {
      text.append(
          Digits.text(
              " The error alone may take all of a step of %s m, with a probability of %.2g on flat"
                  + " ground: hardly any ground keeps it. State dem.correlation_length_m where neighbouring"
                  + " heights err alike, or take heights of a smaller dem.vertical_sigma_m.",
              limitM, least));
    } else if (a.stepLossM < limitM) {
      text.append(
          Digits.text(
              " A step of %s m is used up to %s m as measured at least, on firm ground.",
              limitM, limitM - a.stepLossM));
    } else {
      text.append(
          Digits.text(
              " The error alone takes a step of %s m with a probability of %.2g on flat ground.",
              limitM, least));
    }
  }

  private static void example(StringBuilder text, String what, double limit, Allowances a) {
    if (limit < Double.POSITIVE_INFINITY) {
      double left = limit - a.z * a.gradientSigma;
      text.append(
          left > 0
              ? Digits.text(
                  " A %s of %s deg is used up to %s deg as measured.",
                  what, SlopeGeometry.deg(limit), SlopeGeometry.deg(left))
              : Digits.text(
                  " The error alone may take all of a %s of %s deg: no ground keeps it.",
                  what, SlopeGeometry.deg(limit)));
    }
  }
}
