package org.scarpway.reach.question;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachRequest.HomeRule;

/**
 * How far a crew that lives in its vehicle comes by the end of each day, and home by the last.
 * Limits are those that may be planned: reserves have been subtracted.
 *
 * @param name name of the request, used in messages
 * @param baseName name of the base
 * @param baseXM east coordinate of the base in the CRS of the grid (m)
 * @param baseYM north coordinate of the base in the CRS of the grid (m)
 * @param days by the end of which day the crew is home, 1 to 30
 * @param driveS driving time of a day (s), more than 0 and at most that of a day
 * @param energyJ energy from the battery (J); infinite for no limit
 * @param nightChargeJ what a night puts into the battery before its load is taken (J)
 * @param lifeSupportS supplies of the crew from leaving the base on, day and night (s); infinite
 *     for no limit
 * @param home how the crew gets home from any place; not {@link HomeRule#NONE}
 * @param rescue times of a rescue
 * @param camps places where a night may be spent, besides the base; null for anywhere
 */
public record DayRingsRequest(
    String name,
    String baseName,
    double baseXM,
    double baseYM,
    int days,
    double driveS,
    double energyJ,
    double nightChargeJ,
    double lifeSupportS,
    HomeRule home,
    Rescue rescue,
    List<Camp> camps) {
  /** Copies the list. */
  public DayRingsRequest {
    camps = camps == null ? null : List.copyOf(camps);
  }

  /**
   * A place where a night may be spent.
   *
   * @param name name of the place
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   */
  public record Camp(String name, double xM, double yM) {}

  /** Length of a day with its night (s). */
  public static final double DAY_S = 86_400;

  /** Warnings of what is no limit because nothing is stated of it, one line each. */
  public List<String> uncounted() {
    List<String> notes = new ArrayList<>();
    if (Double.isInfinite(lifeSupportS)) {
      notes.add(
          "No life support is stated: air, water and food are no limit here, however many days are"
              + " asked for; what is surely reached is so as to them only as far as they last.");
    }
    if (Double.isInfinite(energyJ)) {
      notes.add(
          "No energy is stated: the battery is no limit here, whatever drives and nights take.");
    }
    return notes;
  }

  /** Time from the end of one day's driving to the beginning of the next (s). */
  public double nightS() {
    return DAY_S - driveS;
  }

  /** True if the answer tells the last night that may be spent in a place. */
  public boolean tellsLastNight() {
    return home == HomeRule.DRIVE_BACK && days > 1 && camps == null;
  }

  /** Day of a moment, counted from 1, given the driving time since the start (s). */
  public int dayOf(double drivenS) {
    return Math.max(1, (int) Math.ceil(drivenS / driveS));
  }
}
