package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.audit.Finding;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.WhyNot.Shortfall;

/**
 * The answer to a crew underway.
 *
 * @param request what was asked
 * @param vehicle name of the vehicle
 * @param state code of {@link ReachState} for coming home from here; 0 for not
 * @param end what forbids it or is undecided; empty if the crew surely comes home
 * @param ruleShort what a walk or rescue from here lacks, where the home rule fails here
 * @param home the trip home from here, by the home rule; null if there is no way
 * @param driveAlone true if it is the drive home of the vehicle by itself instead, because by the
 *     rule there is no way home, or what is left does not suffice for it
 * @param stops one for each remaining stop, in the order of the plan
 * @param turnBack where to turn for home at the latest; null if home is not sure from here, or if
 *     no stop remains
 * @param wayHome the way home of the vehicle from here; empty if there is none
 * @param planned the planned way over the stops, as far as home is sure from it
 * @param drivenAgain audit findings of the recalculated trips
 * @param warnings what limits the answer, one line each
 */
public record ReplanResult(
    ReplanRequest request,
    String vehicle,
    byte state,
    String end,
    List<Shortfall> ruleShort,
    Homeward home,
    boolean driveAlone,
    List<StopLeft> stops,
    TurnBack turnBack,
    List<ProfilePoint> wayHome,
    List<ProfilePoint> planned,
    List<Finding> drivenAgain,
    List<String> warnings) {

  /** Copies the lists. */
  public ReplanResult {
    ruleShort = List.copyOf(ruleShort);
    stops = List.copyOf(stops);
    wayHome = List.copyOf(wayHome);
    planned = List.copyOf(planned);
    drivenAgain = List.copyOf(drivenAgain);
    warnings = List.copyOf(warnings);
  }

  /** True if all stops of the plan fit, none left out. */
  public boolean wholePlanFits() {
    return turnBack != null && turnBack.whole() && stops.stream().allMatch(StopLeft::inOrder);
  }

  /** The answer where the base itself can no longer be entered: no rule leads home. */
  public static ReplanResult withoutBase(ReplanRequest request, String vehicle) {
    String end = ReachEnd.NO_WAY_HOME.label();
    double nan = Double.NaN;
    String warning =
        "base '"
            + request.question().baseName()
            + "' is itself on ground that can no longer be entered";
    return new ReplanResult(
        request,
        vehicle,
        (byte) 0,
        end,
        List.of(),
        null,
        false,
        request.stops().stream()
            .map(t -> new StopLeft(t, (byte) 0, end, nan, null, false, nan))
            .toList(),
        null,
        List.of(),
        List.of(),
        List.of(),
        List.of(warning));
  }

  /**
   * What ends the trip first if the crew goes on as planned: what forbids the rest of the plan, or,
   * if all of it fits, the quantity of which the trip to its end and home uses the largest share of
   * what may be used. Empty if nothing is limited.
   */
  public String bindsFirst() {
    if (turnBack != null && !turnBack.whole()) {
      return turnBack.end();
    }
    if (home == null) {
      return "";
    }
    List<Amount> spared = turnBack == null ? home.amounts() : turnBack.home().amounts();
    String first = "";
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < spared.size(); i++) {
      Amount here = home.amounts().get(i);
      double usable = here.now() - here.reserve();
      double share = usable > 0 ? spared.get(i).spare() / usable : 0;
      if (share < least) {
        least = share;
        first = here.of().limit();
      }
    }
    return first;
  }

  /** A limited quantity and its unit in SI. */
  public enum Consumable {
    /** Time (s). */
    TIME("time", ReachEnd.TIME),
    /** Life support (s). */
    LIFE_SUPPORT("life support", ReachEnd.LIFE_SUPPORT),
    /** Energy in the battery (J). */
    ENERGY("energy", ReachEnd.ENERGY),
    /** Distance (m). */
    DISTANCE("distance", ReachEnd.DISTANCE);

    private final String label;
    private final ReachEnd end;

    Consumable(String label, ReachEnd end) {
      this.label = label;
      this.end = end;
    }

    /** Words that users see for its limit, as for what ends a trip. */
    String limit() {
      return end.label();
    }

    /** Words that users see. */
    public String label() {
      return label;
    }
  }

  /**
   * One limited quantity of a trip home.
   *
   * @param of which quantity
   * @param now amount left when the crew stands at {@code --at}
   * @param reserve part of it that must be left at home
   * @param needed amount that the trip needs until everybody is home, by the home rule
   */
  public record Amount(Consumable of, double now, double reserve, double needed) {
    /** Amount left at home; negative if it does not suffice. */
    public double atHome() {
      return now - needed;
    }

    /** Amount left at home beyond the reserve; negative if the reserve is touched. */
    public double spare() {
      return now - needed - reserve;
    }
  }

  /**
   * A trip home.
   *
   * @param timeS time until home (s)
   * @param energyJ energy of the way (J), NaN without an energy model
   * @param distanceM length along the surface (m)
   * @param amounts the limited quantities; empty if nothing is limited
   */
  public record Homeward(double timeS, double energyJ, double distanceM, List<Amount> amounts) {
    /** Copies the list. */
    public Homeward {
      amounts = List.copyOf(amounts);
    }

    /** True if what is left covers the trip, the reserves used up if need be. */
    public boolean suffices() {
      return amounts.stream().allMatch(a -> a.atHome() >= 0);
    }

    /** True if what is left covers the trip and the reserves. */
    public boolean keepsReserves() {
      return amounts.stream().allMatch(a -> a.spare() >= 0);
    }
  }

  /**
   * A remaining stop.
   *
   * @param stop its name, place and stay
   * @param state code of {@link ReachState} for going there alone and home; 0 for not
   * @param end what forbids it or is undecided; empty if surely
   * @param timeS time from here to the stop by itself (s), NaN if not surely
   * @param home what the trip there, the stay and the way home need from here; null if not surely
   * @param inOrder true if it also fits after the stops before it
   * @param arriveS time of arrival in the order of the plan (s), NaN if it does not fit
   */
  public record StopLeft(
      Target stop,
      byte state,
      String end,
      double timeS,
      Homeward home,
      boolean inOrder,
      double arriveS) {}

  /**
   * The point of no return: the last place of the planned way up to which home is sure from every
   * place, with what is left there.
   *
   * @param xM easting (m)
   * @param yM northing (m)
   * @param timeS time from now until the crew must turn there, stays included (s)
   * @param distanceM distance along the planned way (m)
   * @param energyJ energy used until then (J), NaN without an energy model
   * @param from the stop before it on the planned way; empty before the first
   * @param to the stop after it; empty if the way ends there
   * @param stayS length of the stay at {@code from} that is still possible (s), NaN if the place
   *     lies beyond that stop
   * @param whole true if home is sure from the whole planned way, which ends there
   * @param end what forbids going on; empty if nothing does
   * @param home the trip home from there, counted from there, with what is left there
   */
  public record TurnBack(
      double xM,
      double yM,
      double timeS,
      double distanceM,
      double energyJ,
      String from,
      String to,
      double stayS,
      boolean whole,
      String end,
      Homeward home) {}
}
