package org.scarpway.run;

import java.util.List;
import java.util.Locale;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.OnFoot;

/** Says which of a walker's limits shut a place: a way home on foot crosses no such ground. */
final class OnFootLines {
  private OnFootLines() {}

  static List<String> of(String walker, OnFoot w) {
    return List.of(
        "",
        String.format(
            Locale.ROOT, "%-14s on foot, %s", walker, w.walkable() ? "walkable" : "not walkable"),
        line(Limit.KEEP_OUT.label(), w.keptOut() ? "yes" : "no", "no", !w.keptOut()),
        line("slope", w.slopeDeg(), w.maxSlopeDeg(), "deg", w.slopeHeld()),
        line(
            "step to neighbouring cells", w.stepM(), w.maxStepM(), "m (max_step_m)", w.stepHeld()));
  }

  private static String line(String what, double got, double most, String unit, boolean held) {
    String is = Double.isFinite(got) ? String.format(Locale.ROOT, "%.4g", got) : "not known";
    return line(what, is, String.format(Locale.ROOT, "%.4g %s", most, unit), held);
  }

  private static String line(String what, String got, String most, boolean held) {
    String verdict = held ? "ok" : got.equals("not known") ? "no verdict" : "EXCEEDED";
    return String.format(
        Locale.ROOT, "  %-27s got %-10s allowed %-20s %s", what, got, most, verdict);
  }
}
