package org.scarpway.audit;

import java.util.List;
import java.util.Set;

/** What the audit of a sortie of several days is told: limits, stops, ways and the timetable. */
public final class SortieFacts {
  private SortieFacts() {}

  /**
   * Limits of a day and of the whole trip.
   *
   * @param days number of days
   * @param dayS hours of a day for driving, stays and waiting (s)
   * @param driveS of these for driving (s)
   * @param walks walks a day
   * @param usableJ energy that may be drawn before the next charge (J)
   * @param chargeJ energy that a night gives (J)
   * @param parkedW load of the parked vehicle (W)
   * @param usableS life support by the clock (s)
   * @param campsOnly whether nights need a camp
   */
  public record Limits(
      int days,
      double dayS,
      double driveS,
      int walks,
      double usableJ,
      double chargeJ,
      double parkedW,
      double usableS,
      boolean campsOnly) {}

  /** Ways home after a failure. */
  public enum Rule {
    /** The vehicle drives home; nothing else is asked. */
    DRIVE,
    /** The crew walks. */
    WALK,
    /** Both crews ride in the second vehicle. */
    RIDE,
    /** Rescuers come from the base. */
    RESCUE
  }

  /**
   * The home rule.
   *
   * @param rule which
   * @param changeS time to change vehicles (s)
   * @param alarmS time until rescuers leave (s)
   * @param loadS time to take the crew aboard (s)
   * @param byNight whether rescuers drive day and night
   */
  public record Home(Rule rule, double changeS, double alarmS, double loadS, boolean byNight) {}

  /**
   * What coming home takes from somewhere.
   *
   * @param driveS driving time of the loaded vehicle (s)
   * @param driveJ most energy that it draws (J)
   * @param outS driving time of rescuers to there (s)
   * @param walkS walk to a refuge (s)
   */
  public record From(double driveS, double driveJ, double outS, double walkS) {}

  /**
   * A piece of a leg.
   *
   * @param timeS driving time (s)
   * @param energyJ energy drawn (J)
   * @param peakJ most energy drawn at any place of it (J)
   * @param camp whether a night may be spent there
   * @param from what coming home takes from the worst place of it
   */
  public record Stretch(double timeS, double energyJ, double peakJ, boolean camp, From from) {}

  /**
   * A stop of the plan with the leg to it; the base at the end is one without a stay.
   *
   * @param name its name
   * @param leg the leg to it, in pieces
   * @param takesS the stay with its walks (s)
   * @param walks walks there
   * @param after stops that must come before
   * @param opensS earliest start of the stay (s)
   * @param closesS latest end of it (s)
   * @param camp whether a night may be spent there
   * @param from what coming home takes from there
   * @param home legs straight home to choose from; not asked of the base
   */
  public record Call(
      String name,
      List<Stretch> leg,
      double takesS,
      int walks,
      Set<String> after,
      double opensS,
      double closesS,
      boolean camp,
      From from,
      List<List<Stretch>> home) {}

  /** Kinds of a line of the timetable. */
  public enum Kind {
    /** Driving. */
    DRIVE,
    /** Waiting at a stop. */
    WAIT,
    /** The stay at a stop. */
    STAY,
    /** Evening and night, to the first hour of the next day. */
    NIGHT
  }

  /**
   * A line of the timetable.
   *
   * @param kind what is done
   * @param fromS start by the clock (s)
   * @param toS end by the clock (s)
   */
  public record Line(Kind kind, double fromS, double toS) {}
}
