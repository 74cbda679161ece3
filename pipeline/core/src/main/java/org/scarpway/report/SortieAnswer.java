package org.scarpway.report;

import java.util.List;

/**
 * Which stops a sortie makes on which day, and its timetable.
 *
 * @param found false if no plan keeps every rule with all stops that must be done
 * @param value what the stops of the plan bring together
 * @param wholeValue what all stops would bring
 * @param proven true if no plan brings more
 * @param mostMorePct by how many percent at most any plan could bring more
 * @param supply what a day holds and the vehicle carries
 * @param steps the timetable in the order of time
 * @param stops all stops to choose from, those of the plan first, in its order
 * @param ways the lines driven, day by day
 * @param more what a longer sortie or a larger battery would bring, one sentence each
 * @param notes remarks that a reviewer must know, one line each
 */
public record SortieAnswer(
    boolean found,
    double value,
    double wholeValue,
    boolean proven,
    double mostMorePct,
    Supply supply,
    List<Step> steps,
    List<Stop> stops,
    List<Way> ways,
    List<String> more,
    List<String> notes) {
  public SortieAnswer {
    steps = List.copyOf(steps);
    stops = List.copyOf(stops);
    ways = List.copyOf(ways);
    more = List.copyOf(more);
    notes = List.copyOf(notes);
  }

  /**
   * @param days number of days
   * @param daySpanS time of a day for driving and stops, reserve included (s)
   * @param perDayS part of it that is planned (s)
   * @param driveS driving that is planned on a day (s)
   * @param walks walks on a day
   * @param batteryJ energy when setting out (J), NaN if it is not limited
   * @param keptJ part of it that is the reserve (J)
   * @param lifeS supplies of the crew (s), NaN if they are not limited
   * @param keptS part of it that is the reserve (s)
   */
  public record Supply(
      int days,
      double daySpanS,
      double perDayS,
      double driveS,
      int walks,
      double batteryJ,
      double keptJ,
      double lifeS,
      double keptS) {}

  /** What the crew does. */
  public enum Told {
    DRIVE,
    WAIT,
    STOP,
    WALK,
    RESERVE,
    NIGHT,
    REST
  }

  /**
   * One line of the timetable.
   *
   * @param day counted from 1
   * @param fromS start, after setting out by the clock (s)
   * @param toS end (s)
   * @param from place where the crew was last
   * @param to place where it is at the end, or to which it is underway
   * @param xM position at the end (m)
   * @param yM position at the end (m)
   * @param distanceM length driven (m)
   * @param energyJ energy drawn, less what a night charges (J); NaN if it is unknown
   * @param batteryJ energy in the battery at the end (J), NaN if it is not limited
   * @param leastJ least energy in the battery meanwhile, at the worst place of the ground (J)
   * @param lifeS supplies of the crew at the end (s), NaN if they are not limited
   * @param walks walks made
   * @param binds what ends it, or what least is left of; empty if nothing is limited
   */
  public record Step(
      int day,
      double fromS,
      double toS,
      Told act,
      String from,
      String to,
      double xM,
      double yM,
      double distanceM,
      double energyJ,
      double batteryJ,
      double leastJ,
      double lifeS,
      int walks,
      String binds) {
    public double lengthS() {
      return toS - fromS;
    }
  }

  /**
   * A stop to choose from.
   *
   * @param day on which it is done, counted from 1; 0 if it is left out
   * @param arriveS arrival, after setting out by the clock (s); NaN if it is left out
   * @param staysS time there with leaving and entering the cabin (s)
   * @param why why it is left out; empty if it is done
   */
  public record Stop(
      String name,
      double xM,
      double yM,
      double value,
      boolean must,
      int day,
      double arriveS,
      double staysS,
      int walks,
      String why) {}

  /**
   * What is driven in one go on one day.
   *
   * @param from place where the crew was last
   * @param to place to which it is underway
   */
  public record Way(
      int day,
      String from,
      String to,
      double distanceM,
      double timeS,
      double energyJ,
      List<Point> line) {
    public Way {
      line = List.copyOf(line);
    }
  }

  /** A place on the map of the products (m). */
  public record Point(double xM, double yM) {}
}
