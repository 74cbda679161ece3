package org.scarpway.audit;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.scarpway.audit.SortieFacts.Call;
import org.scarpway.audit.SortieFacts.From;
import org.scarpway.audit.SortieFacts.Home;
import org.scarpway.audit.SortieFacts.Kind;
import org.scarpway.audit.SortieFacts.Limits;
import org.scarpway.audit.SortieFacts.Line;
import org.scarpway.audit.SortieFacts.Stretch;

/**
 * Drives a finished timetable of several days again, line by line, and writes down every rule that
 * it breaks. It does not look for ways or days of its own: hours, driving, walks and energy are
 * added up from the lines and the pieces of the legs, and a failure is played through minute by
 * minute ({@link SortieHome}).
 */
public final class SortieAudit {
  private static final double DAY_S = 86_400;
  private static final double OFF_S = 0.01;
  private static final double OFF_J = 1;

  private final Limits limits;
  private final SortieHome home;
  private final List<Call> calls;
  private final Set<String> must;
  private final List<String> broken = new ArrayList<>();
  private final Set<String> made = new HashSet<>();

  private double clockS;
  private double drawnJ;
  private double drivenS;
  private int walks;
  private int next;
  private double alongS;
  private boolean left;
  private boolean stayed = true;

  private SortieAudit(Limits limits, Home home, List<Call> calls, Set<String> must) {
    this.limits = limits;
    this.home = new SortieHome(limits, home);
    this.calls = calls;
    this.must = must;
  }

  /**
   * The rules that a timetable breaks.
   *
   * @param limits of a day and of the trip
   * @param home the home rule
   * @param calls stops in order, the base at the end; none if the crew stays at the base
   * @param must names of stops that must be made
   * @param lines the timetable
   * @return a line for each rule broken, with day and hour; empty if all hold
   */
  public static List<String> broken(
      Limits limits, Home home, List<Call> calls, Set<String> must, List<Line> lines) {
    SortieAudit a = new SortieAudit(limits, home, calls, must);
    for (Line line : lines) {
      a.play(line);
    }
    a.end();
    return a.broken;
  }

  private void play(Line line) {
    hold(Math.abs(line.fromS() - clockS) <= OFF_S, "does not begin when the line before ends");
    hold(line.toS() >= line.fromS() - OFF_S, "ends before it begins");
    double s = line.toS() - line.fromS();
    int day = day();
    if (line.kind() == Kind.NIGHT) {
      night(line);
      return;
    }
    double endOfDayS = day * DAY_S + limits.dayS();
    hold(line.toS() <= endOfDayS + OFF_S, "goes on after the hours of the day");
    switch (line.kind()) {
      case DRIVE -> drive(s);
      case STAY -> stay(line, s);
      case WAIT -> {
        hold(!left && !stayed, "waits on the way");
        parked(s);
      }
      default -> fail("is of no known kind");
    }
    clockS = line.toS();
  }

  private void drive(double s) {
    if (next >= calls.size()) {
      fail("drives on after the way home");
      return;
    }
    hold(stayed, "drives on without the stay");
    left = true;
    drivenS += s;
    hold(drivenS <= limits.driveS() + OFF_S, "drives longer than a day allows");
    double toGoS = s;
    double startS = 0;
    for (Stretch p : calls.get(next).leg()) {
      double inS = Math.max(0, alongS - startS);
      startS += p.timeS();
      boolean behind = inS >= p.timeS() - OFF_S && p.timeS() > 0;
      if (behind || (toGoS <= OFF_S && p.timeS() > 0)) {
        continue;
      }
      double goS = Math.min(toGoS, p.timeS() - inS);
      piece(p, goS);
      toGoS -= goS;
      alongS += goS;
    }
    hold(toGoS <= OFF_S, "drives on beyond the end of the leg");
    if (alongS >= wholeS(calls.get(next)) - OFF_S) {
      next++;
      alongS = 0;
      left = false;
      stayed = next == calls.size();
    }
  }

  private void piece(Stretch p, double goS) {
    boolean even = p.peakJ() <= p.energyJ();
    hold(even || goS >= p.timeS() - OFF_S, "stops inside a piece that draws unevenly");
    double moreJ = p.timeS() > 0 ? p.energyJ() * goS / p.timeS() : 0;
    battery(drawnJ + (even ? moreJ : p.peakJ()));
    drawnJ += moreJ;
    clockS += goS;
    hold(home.holds(clockS, drawnJ, p.from()), "nobody comes home from a failure on the way");
  }

  /** A stop at the same place is reached without a line. */
  private void arriveAtOnce() {
    boolean none = next < calls.size() && wholeS(calls.get(next)) <= OFF_S;
    if (stayed && !left && none) {
      next++;
      stayed = next == calls.size();
    }
  }

  private static double wholeS(Call c) {
    return c.leg().stream().mapToDouble(Stretch::timeS).sum();
  }

  private void stay(Line line, double s) {
    arriveAtOnce();
    if (left || stayed || next == 0) {
      fail("stays where no stop is");
      return;
    }
    Call at = calls.get(next - 1);
    stayed = true;
    hold(Math.abs(s - at.takesS()) <= OFF_S, "stays for another time than the stop takes");
    hold(line.fromS() >= at.opensS() - OFF_S, "stays before the stop opens");
    hold(line.toS() <= at.closesS() + OFF_S, "stays after the stop closes");
    hold(made.containsAll(at.after()), "comes before a stop that it must come after");
    hold(made.add(at.name()), "is made twice");
    walks += at.walks();
    hold(walks <= limits.walks(), "makes more walks than a day allows");
    parked(s);
    hold(home.holds(line.toS(), drawnJ, at.from()), "nobody comes home from a failure at the stop");
    // With nights at camps the way home may lead over some; the rest of the plan is one.
    hold(
        limits.campsOnly()
            || at.home().stream().anyMatch(leg -> home.drives(line.toS(), drivenS, drawnJ, leg)),
        "is not left in time to drive straight home");
  }

  private void night(Line line) {
    int day = day();
    hold(Math.abs(line.toS() - (day + 1) * DAY_S) <= OFF_S, "does not end in the morning");
    hold(day + 1 < limits.days(), "is a night after the last day");
    Place at = place();
    hold(!limits.campsOnly() || at.camp(), "is a night where there is no camp");
    double eveningS = day * DAY_S + limits.dayS();
    double thenJ = drawnJ + limits.parkedW() * Math.max(0, eveningS - clockS);
    hold(
        home.holds(Math.max(clockS, eveningS), thenJ, at.from()),
        "nobody comes home from a failure in the evening");
    parked(line.toS() - clockS);
    drawnJ = Math.max(0, drawnJ - limits.chargeJ());
    clockS = line.toS();
    drivenS = 0;
    walks = 0;
  }

  private record Place(boolean camp, From from) {}

  /** Where the vehicle stands; between two pieces, the one that was left. */
  private Place place() {
    if (next == 0 && alongS <= OFF_S) {
      return new Place(true, new From(0, 0, 0, 0));
    }
    if (!left || alongS <= OFF_S) {
      Call at = calls.get(next - 1);
      // Before the stay the vehicle may still stand at the end of the last piece.
      Stretch end = at.leg().get(at.leg().size() - 1);
      boolean before = !stayed && !at.camp() && end.camp();
      return before ? new Place(true, end.from()) : new Place(at.camp(), at.from());
    }
    double startS = 0;
    for (Stretch p : calls.get(next).leg()) {
      startS += p.timeS();
      if (alongS <= startS + OFF_S) {
        return new Place(p.camp(), p.from());
      }
    }
    throw new IllegalStateException("beyond the end of a leg");
  }

  private void parked(double s) {
    drawnJ += limits.parkedW() * s;
    battery(drawnJ);
  }

  private void battery(double j) {
    if (j > limits.usableJ() + OFF_J) {
      fail(String.format(Locale.ROOT, "draws %.0f J of %.0f J", j, limits.usableJ()));
    }
  }

  private void end() {
    arriveAtOnce();
    hold(next == calls.size() && !left, "does not end at the base");
    hold(made.containsAll(must), "leaves a stop out that must be made");
    hold(clockS <= limits.usableS() + OFF_S, "is longer than life support lasts");
    double endS = (limits.days() - 1) * DAY_S + limits.dayS();
    hold(clockS <= endS + OFF_S, "ends after the last day");
  }

  private int day() {
    return (int) Math.floor((clockS + OFF_S) / DAY_S);
  }

  private void hold(boolean holds, String what) {
    if (!holds) {
      fail(what);
    }
  }

  private void fail(String what) {
    double inDayS = clockS - day() * DAY_S;
    broken.add(String.format(Locale.ROOT, "day %d, hour %.2f: %s", day() + 1, inDayS / 3600, what));
  }
}
