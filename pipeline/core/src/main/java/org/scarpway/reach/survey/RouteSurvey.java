package org.scarpway.reach.survey;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.corridor.Track;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;

/**
 * Computes the grades and curves of a centreline, leg by leg. The grade is that of the ground along
 * the line, over the baseline used for slope. The radius at a corner of the line is that of the
 * circle through it and the corners before and after, exact on the arcs of a line that keeps to a
 * turning circle; a line that turns at a corner by more than a chord of such an arc turns on the
 * spot there.
 */
public final class RouteSurvey {
  /** Points closer than this define no direction (m). */
  private static final double APART_M = 1e-3;

  /** A line that turns by less is straight (rad). */
  private static final double STRAIGHT = 1e-5;

  private final List<ProfilePoint> points;
  private double riseM;
  private double fallM;
  private double steepestUp;
  private double steepestDown;
  private double steepestAtM;
  private double recordedM;
  private double obstructedM;
  private double curvesS;
  private double slowestCurveMs = Double.NaN;
  private double tightestM = Double.POSITIVE_INFINITY;
  private double tightestAtM = Double.NaN;

  private RouteSurvey(List<ProfilePoint> points) {
    this.points = points;
  }

  /** The legs between the stops, in the order of travel. */
  public static List<RouteLeg> legs(CorridorResult corridor) {
    List<Visit> visits = corridor.visits();
    List<List<ProfilePoint>> lines = lines(corridor);
    List<RouteLeg> legs = new ArrayList<>();
    for (int i = 1; i < visits.size(); i++) {
      legs.add(
          new RouteSurvey(lines.get(i - 1)).leg(visits.get(i - 1).name(), visits.get(i).name()));
    }
    return legs;
  }

  /** The vertices of each leg, both stops included. */
  public static List<List<ProfilePoint>> lines(CorridorResult corridor) {
    List<ProfilePoint> line = corridor.centreline();
    List<Visit> visits = corridor.visits();
    List<List<ProfilePoint>> lines = new ArrayList<>();
    int from = 0;
    for (int i = 1; i < visits.size(); i++) {
      int to = from;
      while (line.get(to).distanceM() < visits.get(i).distanceM()) {
        to++;
      }
      lines.add(line.subList(from, to + 1));
      from = Math.min(to + 1, line.size() - 1);
    }
    return lines;
  }

  private RouteLeg leg(String from, String to) {
    for (int i = 0; i + 1 < points.size(); i++) {
      stretch(points.get(i), points.get(i + 1));
    }
    curves();
    return new RouteLeg(
        from,
        to,
        points.get(points.size() - 1).distanceM() - points.get(0).distanceM(),
        riseM,
        fallM,
        RouteGrade.pct(steepestUp),
        RouteGrade.pct(steepestDown),
        steepestAtM,
        recordedM,
        obstructedM,
        points.get(points.size() - 1).timeS() - points.get(0).timeS(),
        curvesS,
        slowestCurveMs,
        tightestM,
        tightestAtM);
  }

  private void stretch(ProfilePoint p, ProfilePoint next) {
    double rise = next.heightM() - p.heightM();
    riseM += rise > 0 ? rise : 0;
    fallM += rise < 0 ? -rise : 0;
    double grade = Math.tan(Math.toRadians(p.pitchDeg()));
    if (Math.abs(grade) > Math.max(steepestUp, steepestDown)) {
      steepestAtM = p.distanceM();
    }
    steepestUp = Math.max(steepestUp, grade);
    steepestDown = Math.max(steepestDown, -grade);
    RouteGrade g = RouteGrade.of(RouteGrade.pct(grade));
    double lengthM = next.distanceM() - p.distanceM();
    recordedM += g == RouteGrade.BELOW_5 ? 0 : lengthM;
    obstructedM += g.obstructs() ? lengthM : 0;
    if (p.speedMs() < p.straightMs()) {
      curvesS += p.curvesS(next);
      slowestCurveMs = slowestCurveMs <= p.speedMs() ? slowestCurveMs : p.speedMs();
    }
  }

  private void curves() {
    List<ProfilePoint> c = corners();
    for (int i = 1; i + 1 < c.size(); i++) {
      ProfilePoint a = c.get(i - 1);
      ProfilePoint b = c.get(i);
      ProfilePoint d = c.get(i + 1);
      double turn = Math.abs(turn(a, b, d));
      boolean onTheSpot = turn > Track.MOST_TURN * (1 + 1e-3);
      double radiusM = onTheSpot ? 0 : apartM(a, d) / (2 * Math.sin(turn));
      if (radiusM < tightestM) {
        tightestM = radiusM;
        tightestAtM = b.distanceM();
      }
    }
  }

  /** The points where the line changes direction, and both ends. */
  private List<ProfilePoint> corners() {
    List<ProfilePoint> kept = new ArrayList<>();
    for (ProfilePoint p : points) {
      int n = kept.size();
      if (n > 0 && apartM(kept.get(n - 1), p) < APART_M) {
        continue;
      }
      if (n > 1 && Math.abs(turn(kept.get(n - 2), kept.get(n - 1), p)) < STRAIGHT) {
        kept.remove(n - 1);
      }
      kept.add(p);
    }
    return kept;
  }

  private static double apartM(ProfilePoint a, ProfilePoint b) {
    return Math.hypot(b.xM() - a.xM(), b.yM() - a.yM());
  }

  /** Angle by which the line from a to c turns at b (rad). */
  private static double turn(ProfilePoint a, ProfilePoint b, ProfilePoint c) {
    double before = Math.atan2(b.yM() - a.yM(), b.xM() - a.xM());
    double after = Math.atan2(c.yM() - b.yM(), c.xM() - b.xM());
    return Math.IEEEremainder(after - before, 2 * Math.PI);
  }
}
