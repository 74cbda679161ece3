package org.scarpway.run.closing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.reach.question.DayRings;
import org.scarpway.report.SortieAnswer;
import org.scarpway.report.SortieData;
import org.scarpway.run.unit.ReachProducts;
import org.scarpway.stage.Digits;

/** The answer to a sortie in a few lines of the summary. */
final class SortieLines {
  private SortieLines() {}

  static List<String> of(SortieData s) {
    DayRings r = s.rings();
    List<String> days = new ArrayList<>();
    int last = r.request().days();
    int k = 1;
    while (k <= last) {
      String now = area(r, k);
      // Days that add nothing are told once.
      int same = k;
      while (same < last && area(r, same + 1).equals(now)) {
        same++;
      }
      days.add((same > k ? "days " + k + " to " + same : "day " + k) + " " + now);
      k = same + 1;
    }
    String of = r.request().name() + " (" + r.vehicle() + "): ";
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "%ssurely reached from %s and home by day %d by %s: %s; possibly further %.3f km2",
            of,
            r.request().baseName(),
            r.request().days(),
            ReachProducts.rule(r.request().home()),
            String.join(", ", days),
            r.possiblyM2() / 1e6));
    if (s.plan() != null) {
      lines.add(of + plan(s.plan()));
      s.plan().more().forEach(m -> lines.add(of + m));
    }
    return lines;
  }

  private static String area(DayRings r, int day) {
    return String.format(
        Locale.ROOT,
        "%.3f km2%s",
        r.surelyM2().get(day - 1) / 1e6,
        r.edgeM().get(day - 1) > 0 ? " or more" : "");
  }

  private static String plan(SortieAnswer p) {
    if (!p.found()) {
      return "no plan keeps every rule with all stops that must be done";
    }
    List<String> done = new ArrayList<>();
    for (SortieAnswer.Stop stop : p.stops()) {
      if (stop.day() > 0) {
        done.add(stop.name() + " on day " + stop.day());
      }
    }
    return Digits.text(
        "%d of %d stops, value %s of %s, %s%s",
        done.size(),
        p.stops().size(),
        p.value(),
        p.wholeValue(),
        p.proven()
            ? "no plan brings more"
            : Digits.text("any plan could bring at most %s %% more", p.mostMorePct()),
        done.isEmpty() ? "" : ": " + String.join(", ", done));
  }
}
