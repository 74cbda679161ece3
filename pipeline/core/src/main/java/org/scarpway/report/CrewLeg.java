package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.report.CrewSheetData.TurnBack;

/** The page of one leg of a crew's sheet. */
final class CrewLeg {
  /** A time between waypoints that is earlier than theirs by less is not told (s). */
  private static final double TOLD_S = 60;

  private final CrewSheetData data;
  private final CorridorResult route;
  private final int leg;
  private final RouteLeg surveyed;
  private final List<Waypoint> at;
  private final Visit from;
  private final Visit to;

  CrewLeg(CrewSheetData data, int leg, RouteLeg surveyed) {
    this.data = data;
    this.route = data.route();
    this.leg = leg;
    this.surveyed = surveyed;
    this.at = data.waypoints().ofLeg(leg);
    this.from = route.visits().get(leg);
    this.to = route.visits().get(leg + 1);
  }

  /** A leg as the template shows it. */
  record View(
      String id,
      String title,
      String times,
      List<String> sentences,
      CrewLegMap.View map,
      List<TableView> tables) {}

  View view() {
    List<String> sentences = new ArrayList<>();
    sentences.add(
        "Rises "
            + Figures.fixed(surveyed.riseM(), 0)
            + " m, falls "
            + Figures.fixed(surveyed.fallM(), 0)
            + " m; steepest "
            + surveyed.steepestUpPct()
            + " % up, "
            + surveyed.steepestDownPct()
            + " % down.");
    straight(sentences);
    sentences.add(
        to.stayS() > 0
            ? "Stay at '" + to.name() + "': " + Figures.duration(to.stayS()) + "."
            : "No stay at '" + to.name() + "'.");
    tooLong(sentences);
    bailOut(sentences);
    between(sentences);
    return new View(
        "leg-" + (leg + 1),
        "Leg "
            + (leg + 1)
            + " of "
            + data.waypoints().legs()
            + ": "
            + from.name()
            + " to "
            + to.name(),
        "Leave "
            + earliest(at.get(0).timeS())
            + ", arrive "
            + earliest(to.timeS())
            + "; "
            + Figures.distance(surveyed.lengthM())
            + ", "
            + Figures.duration(surveyed.timeS())
            + " driving",
        sentences,
        new CrewLegMap(data, at).view(),
        new CrewLegTables(data, at, to.name()).all());
  }

  /** Tells what straight lines between the waypoints are held to. */
  private void straight(List<String> sentences) {
    double longerS = data.waypoints().longerS().get(leg);
    sentences.add(
        "Straight lines between the waypoints cross no ground that is closed to the vehicle as"
            + " mapped; the line lies within "
            + Figures.brief(Math.ceil(data.waypoints().asideM().get(leg)))
            + " m of them. Times, amounts and turn-back times are those of the line"
            + (longerS >= 1
                ? "; straight lines take up to "
                    + SafeSide.up(Consumable.TIME, longerS)
                    + " longer on this leg."
                : "."));
  }

  /** Tells that the stay at the end of the leg is longer than the crew can afford. */
  private void tooLong(List<String> sentences) {
    TurnBack t = data.turnBackAt(at.get(at.size() - 1).vertex());
    if (t.turn() != null
        && t.turn().sure()
        && !t.turn().atBase()
        && t.turn().latestS() < to.timeS() + to.stayS()) {
      sentences.add(
          "The planned stay at '"
              + to.name()
              + "' is TOO LONG: leave it for home "
              + (data.turnBackBy(t, to.timeS()).startsWith("at") ? "" : "by ")
              + data.turnBackBy(t, to.timeS())
              + ", after at most "
              + SafeSide.down(Consumable.TIME, t.turn().latestS() - to.timeS())
              + " ("
              + data.because(t)
              + ").");
    }
  }

  /** The longest time until everybody is home, over all rules asked, and the longest drive. */
  private void bailOut(List<String> sentences) {
    HomeAlong by = null;
    int far = -1;
    double longestS = -1;
    double driveM = 0;
    double curvesS = 0;
    boolean none = false;
    for (int i = 0; i < at.size(); i++) {
      for (HomeAlong h : data.home()) {
        Turn t = h.at().get(at.get(i).vertex());
        none |= !t.sure();
        if (t.way() != null) {
          driveM = Math.max(driveM, t.way().home().distanceM());
          curvesS = Math.max(curvesS, t.way().curvesS());
          if (t.way().stoppedS() > longestS) {
            longestS = t.way().stoppedS();
            by = h;
            far = i;
          }
        }
      }
    }
    if (by != null) {
      sentences.add(
          "Bail-out to '"
              + by.question().baseName()
              + "' from any waypoint of this leg before its turn-back time: at most "
              + SafeSide.up(Consumable.TIME, longestS)
              + " until everybody is home (waypoint "
              + (far + 1)
              + ", '"
              + by.question().name()
              + "': "
              + CrewRules.afterAStop(by)
              + "); drives home are at most "
              + SafeSide.up(Consumable.DISTANCE, driveM)
              + ".");
    }
    if (curvesS > TOLD_S) {
      sentences.add(
          "Curves add up to "
              + SafeSide.up(Consumable.TIME, curvesS)
              + " to a drive home, which turn-back times do not count.");
    }
    if (none) {
      sentences.add(
          "A place marked NONE has no way home by the rule named: do not go there without leave of"
              + " mission control.");
    }
  }

  private String earliest(double s) {
    return data.departs().notEarlier(s);
  }

  /** Tells turn-back times between waypoints that are earlier than at both. */
  private void between(List<String> sentences) {
    for (int i = 0; i + 1 < at.size(); i++) {
      double endsS = Math.min(latestS(at.get(i).vertex()), latestS(at.get(i + 1).vertex()));
      int worst = at.get(i).vertex();
      for (int v = worst; v <= at.get(i + 1).vertex(); v++) {
        worst = latestS(v) < latestS(worst) ? v : worst;
      }
      if (latestS(worst) < endsS - TOLD_S) {
        String by = data.turnBackBy(data.turnBackAt(worst), arrivesS(worst));
        sentences.add(
            "Between waypoints "
                + (i + 1)
                + " and "
                + (i + 2)
                + (latestS(worst) == Double.NEGATIVE_INFINITY
                    ? " there is a place with NO way home by a rule named."
                    : " there is a place to turn back "
                        + (by.startsWith("at") ? "" : "by ")
                        + by
                        + "."));
      }
    }
  }

  /** Planned arrival at a vertex of the leg (s). */
  private double arrivesS(int vertex) {
    Waypoint start = at.get(0);
    return start.timeS() + route.centreline().get(vertex).timeS() - start.at().timeS();
  }

  /** The earliest turn-back time at a vertex; before all others where home is not sure (s). */
  private double latestS(int vertex) {
    Turn t = data.turnBackAt(vertex).turn();
    if (t == null || (t.sure() && t.atBase())) {
      return Double.POSITIVE_INFINITY;
    }
    return t.sure() ? t.latestS() : Double.NEGATIVE_INFINITY;
  }
}
