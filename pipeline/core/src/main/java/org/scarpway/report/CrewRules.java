package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;

/** Words on the rules by which the turn-back times of a crew's sheet hold. */
final class CrewRules {
  private CrewRules() {}

  static TableView table(List<HomeAlong> home) {
    TableView table =
        new TableView(
            "Rules that turn-back times keep",
            "question",
            "home",
            "kept in reserve",
            "home after a stop for good");
    for (HomeAlong h : home) {
      List<String> kept = new ArrayList<>();
      for (Consumable c : h.limited()) {
        kept.add(c.label() + " " + Figures.brief(keptPct(h.question().reserves(), c)) + " %");
      }
      table.row(
          h.question().name(),
          name(h) + " to " + h.question().baseName(),
          kept.isEmpty() ? "nothing is limited" : String.join(", ", kept),
          afterAStop(h));
    }
    return table;
  }

  private static double keptPct(Reserves kept, Consumable of) {
    return switch (of) {
      case TIME -> kept.timePct();
      case LIFE_SUPPORT -> kept.lifeSupportPct();
      case ENERGY -> kept.energyPct();
      case DISTANCE -> kept.distancePct();
    };
  }

  static String name(HomeAlong h) {
    return h.question().home().name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** True if the crew comes home in its own vehicle whatever happens. */
  static boolean drives(HomeAlong h) {
    return h.question().home() == HomeRule.DRIVE_BACK;
  }

  /** Words on what counts until everybody is home after the vehicle stops for good. */
  static String afterAStop(HomeAlong h) {
    Rescue r = h.question().rescue();
    return switch (h.question().home()) {
      case NONE -> Figures.NONE;
      case DRIVE_BACK -> "the drive";
      case WALK_BACK -> "the walk";
      case PAIR -> Figures.duration(r.transferS()) + " to change vehicles, and the ride";
      case BASE_RESCUE ->
          Figures.duration(r.alarmS())
              + " of alarm, the way out, "
              + Figures.duration(r.loadS())
              + " to load, and the way home";
    };
  }
}
