package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.terrain.LayerErrors;

/** What the error of the heights did to the verdicts of a vehicle, in words. */
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
        String.format(
            Locale.ROOT,
            "Confidence %.3g: on every heading that is open the limits on slope hold together with"
                + " that probability, given a height error of %.3g m (a grade is off by %.2g deg,"
                + " one sigma).",
            trust.confidence(),
            errors.heights().sigmaM(),
            SlopeGeometry.deg(allowances.gradientSigma)));
    example(text, "climb", limits.climb, allowances);
    example(text, "side slope", limits.side, allowances);
    text.append(allowances.stepSigmaM > 0 ? " Belly, overhangs and steps" : " Belly and overhangs");
    text.append(" count each by itself at their nearest to a limit.");
    if (limits.needsStep() && allowances.stepSigmaM == 0) {
      text.append(
          " Steps are told from cells wider than the wheel spacing: no allowance is made on them.");
    }
    List<String> notes = new ArrayList<>();
    notes.add(text.toString());
    notes.add(
        String.format(
            Locale.ROOT,
            "P(no-go) is %.2g %% on average and above %.3g on %.2g %% of the ground: how likely a"
                + " limit is broken on the best heading, from above.",
            counts.noGoPct(),
            1 - trust.confidence(),
            counts.doubtfulPct()));
    return notes;
  }

  private static void example(StringBuilder text, String what, double limit, Allowances a) {
    if (limit < Double.POSITIVE_INFINITY) {
      double left = limit - a.z * a.gradientSigma;
      text.append(
          left > 0
              ? String.format(
                  Locale.ROOT,
                  " A %s of %.3g deg is used up to %.3g deg as measured.",
                  what,
                  SlopeGeometry.deg(limit),
                  SlopeGeometry.deg(left))
              : String.format(
                  Locale.ROOT,
                  " The error alone may take all of a %s of %.3g deg: no ground keeps it.",
                  what,
                  SlopeGeometry.deg(limit)));
    }
  }
}
