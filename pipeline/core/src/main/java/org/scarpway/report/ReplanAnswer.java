package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.question.ReplanResult.StopLeft;
import org.scarpway.reach.question.ReplanResult.TurnBack;
import org.scarpway.reach.question.WhyNot.Shortfall;

/** The answer to a crew underway in sentences: home or not, what binds, and what to do next. */
public final class ReplanAnswer {
  /** The last sentence of every answer. */
  public static final String CAUTION =
      "Planning aid from models of ground and vehicle, not clearance to drive: flight rules and"
          + " mission control decide.";

  private static final double MINUTE_S = 60;

  private ReplanAnswer() {}

  /** Returns the sentences, the most important first. */
  public static List<String> sentences(ReplanResult r, PlaceText places) {
    List<String> all = new ArrayList<>();
    all.add(home(r));
    all.add("Next: " + next(r, places));
    if (!r.stops().isEmpty()) {
      all.add(stops(r));
    }
    return all;
  }

  /** Returns the caution that limits of the vehicle are not resolved. */
  public static String notResolved(String limits) {
    return "Not resolved by the cells, so not fully checked in this answer: " + limits + ".";
  }

  static String state(byte state) {
    return state == ReachState.SURELY
        ? "surely"
        : state == ReachState.POSSIBLY ? "possibly" : "not";
  }

  private static String home(ReplanResult r) {
    String base = "'" + r.request().question().baseName() + "'";
    if (r.home() == null) {
      return "Home to " + base + ": NOT (" + r.end() + "); no way home is known.";
    }
    Homeward h = r.home();
    String trip =
        SafeSide.up(Consumable.TIME, h.timeS())
            + (r.driveAlone() ? "" : byRule(r.request().question().home()))
            + ", "
            + SafeSide.up(Consumable.DISTANCE, h.distanceM())
            + (Double.isFinite(h.energyJ())
                ? ", " + SafeSide.up(Consumable.ENERGY, h.energyJ())
                : "");
    if (r.state() == ReachState.SURELY) {
      String first = r.bindsFirst();
      return "Home to "
          + base
          + ": SURELY by every rule, in "
          + trip
          + "; beyond the reserves "
          + spare(h)
          + (first.isEmpty() ? "." : binds(r) + first + ".");
    }
    boolean open = r.state() == ReachState.POSSIBLY;
    String verdict =
        "Home to "
            + base
            + (open ? ": POSSIBLY, undecided (" : ": NOT by the rules (")
            + r.end()
            + "). ";
    if (!r.driveAlone()) {
      return verdict + "The way home takes " + trip + "; by it " + shortages(h) + ".";
    }
    return verdict
        + (h.suffices()
            ? "The vehicle itself can drive home in "
            : "The drive home of the vehicle itself takes ")
        + trip
        + (h.keepsReserves() ? "; only the home rule fails" : "; by it " + shortages(h))
        + (r.ruleShort().isEmpty()
            ? "."
            : " ("
                + String.join("; ", r.ruleShort().stream().map(Shortfall::text).toList())
                + ").");
  }

  /** What is said to bind: the way home, or the plan if the crew goes on. */
  private static String binds(ReplanResult r) {
    return r.turnBack() == null ? "; first to bind: " : "; going on as planned, first to bind: ";
  }

  /** What the time home holds besides the drive. */
  private static String byRule(HomeRule home) {
    return switch (home) {
      case NONE, DRIVE_BACK, BASE_RESCUE -> "";
      case WALK_BACK -> " (on foot, should the vehicle stop)";
      case PAIR -> " (all in one vehicle, the change included)";
    };
  }

  private static String spare(Homeward h) {
    if (h.amounts().isEmpty()) {
      return "nothing is limited";
    }
    List<String> parts =
        h.amounts().stream().map(a -> of(a, SafeSide.down(a.of(), a.spare()))).toList();
    return String.join(", ", parts) + " are spare";
  }

  /** What runs short on the way home, and whether the reserve would cover it. */
  private static String shortages(Homeward h) {
    List<String> parts = new ArrayList<>();
    for (Amount a : h.amounts()) {
      if (a.atHome() < 0) {
        parts.add(
            of(a, SafeSide.up(a.of(), -a.atHome())) + " are missing even with the reserve used up");
      } else if (a.spare() < 0) {
        parts.add(of(a, SafeSide.up(a.of(), -a.spare())) + " of the reserve would be used");
      }
    }
    return parts.isEmpty() ? "no amount runs short" : String.join(", ", parts);
  }

  private static String of(Amount a, String figure) {
    return a.of() == Consumable.LIFE_SUPPORT ? figure + " of life support" : figure;
  }

  private static String next(ReplanResult r, PlaceText places) {
    if (r.state() != ReachState.SURELY) {
      return nextUnsure(r);
    }
    TurnBack t = r.turnBack();
    if (t == null) {
      return "no stop of the plan remains; go home.";
    }
    if (t.whole() && !r.stops().isEmpty() && r.stops().stream().noneMatch(StopLeft::inOrder)) {
      return "no way leads to any stop of the plan; go home.";
    }
    if (t.whole()) {
      return fits(r)
          + "; it ends after "
          + SafeSide.up(Consumable.TIME, t.timeS())
          + " and "
          + SafeSide.up(Consumable.DISTANCE, t.distanceM())
          + (r.request().endsAtBase()
              ? " at the base."
              : ", and from there home is sure, with " + spare(t.home()) + ".");
    }
    if (!(t.distanceM() > 0) && !(t.timeS() > 0)) {
      return "turn for home now: already the next cells of the planned way are beyond ("
          + t.end()
          + ").";
    }
    String now = t.timeS() < MINUTE_S ? "start home now; at the very latest " : "";
    if (!Double.isNaN(t.stayS())) {
      return now
          + "leave '"
          + t.from()
          + "' for home within "
          + SafeSide.down(Consumable.TIME, t.timeS())
          + " from now, after at most "
          + SafeSide.down(Consumable.TIME, t.stayS())
          + " of its stay ("
          + t.end()
          + ").";
    }
    return now
        + "turn for home within "
        + SafeSide.down(Consumable.TIME, t.timeS())
        + " from now, at most "
        + SafeSide.down(Consumable.DISTANCE, t.distanceM())
        + " on, at "
        + places.of(t.xM(), t.yM())
        + (t.from().isEmpty() ? "" : ", after '" + t.from() + "'")
        + (t.to().isEmpty() ? "" : ", before '" + t.to() + "'")
        + " (what forbids going on: "
        + t.end()
        + ").";
  }

  private static String fits(ReplanResult r) {
    List<String> out =
        r.stops().stream().filter(s -> !s.inOrder()).map(s -> "'" + s.stop().name() + "'").toList();
    return out.isEmpty()
        ? "the rest of the plan fits"
        : "all of the plan fits but " + String.join(", ", out) + ", to which no way leads";
  }

  /** Whoever can still drive home starts: waiting uses up what the drive needs. */
  private static String nextUnsure(ReplanResult r) {
    if (r.home() == null) {
      return "call for help now: the vehicle has no way home.";
    }
    if (!r.home().suffices()) {
      return "call for help now: what is left does not suffice for the way home that is drawn.";
    }
    if (r.state() == ReachState.POSSIBLY) {
      return "start home now, and let mission control decide: no way is known that keeps every"
          + " rule.";
    }
    return "start home now, and call mission control. What is left suffices for the way home that"
        + " is drawn, but "
        + (r.home().keepsReserves()
            ? "the home rule is not kept on it"
            : "not with every reserve kept")
        + "; waiting costs the reserve.";
  }

  private static String stops(ReplanResult r) {
    List<String> inOrder =
        r.stops().stream().filter(StopLeft::inOrder).map(s -> s.stop().name()).toList();
    List<String> alone =
        r.stops().stream()
            .filter(s -> !s.inOrder() && s.state() == ReachState.SURELY)
            .map(s -> s.stop().name())
            .toList();
    return inOrder.size()
        + " of "
        + r.stops().size()
        + " remaining stops fit in the plan's order"
        + (inOrder.isEmpty() ? "" : " (" + String.join(", ", inOrder) + ")")
        + (alone.isEmpty()
            ? "; no other fits alone."
            : "; alone also: "
                + String.join(", ", alone)
                + " (--done with the stops before plans without them).");
  }
}
