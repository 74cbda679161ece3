package org.scarpway.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.config.Job.ReachEntry;
import org.scarpway.reach.question.ReachRequest.Band;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachRequest.Suits;
import org.scarpway.reach.question.Rescue;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walker;

/** Reads the reach questions of a job. */
final class ReachSectionReader {
  private final JobNames names;
  private final Rescue rescue;
  private final ReserveSettings reserves;
  private final Walker walker;
  private final Problems problems;

  /**
   * @param walker null if the job names none
   */
  ReachSectionReader(
      JobNames names, Entry rescue, ReserveSettings reserves, Walker walker, Problems problems) {
    this.names = names;
    this.walker = walker;
    this.reserves = reserves;
    this.rescue = rescue(rescue);
    this.problems = problems;
  }

  static Rescue rescue(Entry rescue) {
    return new Rescue(
        60 * rescue.number("alarm_min"),
        60 * rescue.number("transfer_min"),
        60 * rescue.number("load_min"),
        rescue.number("person_kg"));
  }

  List<ReachEntry> read(Entry reach) {
    return JobNames.questions(reach, this::question, this::soundParts, problems);
  }

  /** Checks the valid parts of a question of which another part violates the schema. */
  private void soundParts(Entry entry) {
    if (entry.get("from").sound()) {
      names.requireBase(entry.get("from"), problems);
    }
    boolean named = !entry.has("vehicle") || entry.get("vehicle").sound();
    Vehicle vehicle = named ? names.vehicle(entry.get("vehicle"), problems) : null;
    Entry home = entry.get("home");
    Entry given = entry.get("budget");
    if (home.sound()) {
      // A budget that cannot be read may state what the home rule requires.
      boolean mayState = given.present() && !given.isMapping();
      Vehicle second = entry.get("second").sound() ? second(entry, vehicle) : null;
      boolean supplied = mayState || statesLifeSupport(given);
      checkHome(home, rule(home), vehicle, second, supplied, names, problems);
      if (entry.get("refuges").sound()) {
        refuges(entry.get("refuges"), rule(home));
      }
    }
    if (given.sound() || !given.present()) {
      Budget budget = budget(given, vehicle);
      checkBudget(given, vehicle);
      if (entry.get("bands").sound()) {
        bands(entry.get("bands"), budget, vehicle);
      }
      if (entry.get("stay").sound()) {
        staySeconds(entry.get("stay"), budget);
      }
    }
  }

  static HomeRule rule(Entry home) {
    return HomeRule.valueOf(home.text().toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  private Budget budget(Entry given, Vehicle vehicle) {
    return new Budget(
        times(given.get("drive_h").number(), 3600),
        times(given.get("energy_kwh").number(), 3.6e6),
        times(given.get("distance_km").number(), 1000),
        times(given.get("life_support_h").number(), 3600),
        suits(vehicle, walker));
  }

  /** Returns the suits worn by the crew in an open vehicle; null if there are none. */
  static Suits suits(Vehicle vehicle, Walker walker) {
    boolean worn = vehicle != null && vehicle.crew() != null && vehicle.crew().suited();
    return worn && walker != null
        ? new Suits(3600 * walker.enduranceH(), 3600 * walker.reserveH())
        : null;
  }

  private ReachEntry question(Entry entry) {
    names.requireBase(entry.get("from"), problems);
    Vehicle vehicle = names.vehicle(entry.get("vehicle"), problems);
    Entry given = entry.get("budget");
    Vehicle second = second(entry, vehicle);
    Budget budget = budget(given, second != null && isSuited(second) ? second : vehicle);
    HomeRule home = rule(entry.get("home"));
    names.requireSuits(vehicle, entry, problems);
    names.requireSuits(second, entry, problems);
    checkBudget(given, vehicle);
    checkHome(entry.get("home"), home, vehicle, second, statesLifeSupport(given), names, problems);
    if (second != null) {
      checkSecond(entry, home, second, vehicle);
    }
    return new ReachEntry(
        entry.get("name").text(),
        entry.get("from").text(),
        budget,
        home,
        bands(entry.get("bands"), budget, vehicle),
        staySeconds(entry.get("stay"), budget),
        second == null ? rescue : rescue.with(second.name(), breathing(vehicle, second)),
        second == null ? reserves.of(vehicle) : reserves.of(vehicle).orMore(reserves.of(second)),
        entry.get("audit_trips").node().intValue(),
        entry.get("beyond_budget").node().booleanValue(),
        refuges(entry.get("refuges"), home),
        maxWalkKm(entry.get("max_walk_km"), home),
        vehicle == null ? "" : vehicle.name(),
        entry.at().toString());
  }

  private Double maxWalkKm(Entry given, HomeRule home) {
    if (given.present() && home != HomeRule.WALK_BACK) {
      problems.add(
          given.keyAt(),
          "max_walk_km without home: walk-back",
          "a bound where the crew walks home",
          "remove it or set home: walk-back");
    }
    return given.number();
  }

  private List<String> refuges(Entry given, HomeRule home) {
    List<String> refuges = new ArrayList<>();
    for (Entry refuge : given.items()) {
      names.requireStop(refuge, problems);
      refuges.add(refuge.text());
    }
    if (!refuges.isEmpty() && home != HomeRule.WALK_BACK) {
      problems.add(
          given.keyAt(),
          "refuges without home: walk-back",
          "refuges where the crew walks home",
          "remove them or set home: walk-back");
    }
    return refuges;
  }

  /** Returns the other vehicle of a pair; null if it is of the same kind. */
  private Vehicle second(Entry entry, Vehicle vehicle) {
    Entry named = entry.get("second");
    Vehicle second = named.present() ? names.vehicle(named, problems) : null;
    boolean same = second == null || vehicle == null || second.name().equals(vehicle.name());
    return same ? null : second;
  }

  private static boolean isSuited(Vehicle v) {
    return v.crew() != null && v.crew().suited();
  }

  /** Life support that both crews in one vehicle use, in units of its own, the worse of the two. */
  private static double breathing(Vehicle a, Vehicle b) {
    if (a.crew() == null || b.crew() == null) {
      return 2;
    }
    double all = (double) a.crew().seats() + b.crew().seats();
    return all / Math.min(a.crew().seats(), b.crew().seats());
  }

  private void checkSecond(Entry entry, HomeRule home, Vehicle second, Vehicle first) {
    Entry named = entry.get("second");
    if (home != HomeRule.PAIR) {
      problems.add(
          named.keyAt(),
          "second without home: pair",
          "a second vehicle where either brings everybody home",
          "remove it or set home: pair");
      return;
    }
    checkHome(named, home, second, first, true, names, problems);
    if (entry.get("budget").has("energy_kwh")) {
      JobNames.requireEnergyModel(second, named, "energy_kwh", problems);
    }
  }

  private void checkBudget(Entry given, Vehicle vehicle) {
    Entry energy = given.get("energy_kwh");
    if (!energy.present() || vehicle == null) {
      return;
    }
    JobNames.requireEnergyModel(vehicle, energy, "energy_kwh", problems);
    if (vehicle.batteryKwh() != null && energy.number() > vehicle.batteryKwh()) {
      problems.add(
          energy.at(),
          "energy_kwh = " + energy.text(),
          "at most the battery of " + vehicle.name() + ", " + vehicle.batteryKwh() + " kWh",
          "lower the budget or name another vehicle");
    }
  }

  private static boolean statesLifeSupport(Entry budget) {
    return budget.get("life_support_h").present();
  }

  /**
   * Requires what the home rule needs of the job and the vehicle.
   *
   * @param vehicle null if it is unknown
   * @param other the other vehicle of a pair; null if it is of the same kind
   * @param supplied true if the question itself states the life support
   */
  static void checkHome(
      Entry at,
      HomeRule home,
      Vehicle vehicle,
      Vehicle other,
      boolean supplied,
      JobNames names,
      Problems problems) {
    if (home == HomeRule.WALK_BACK && !names.walker()) {
      problems.add(
          at.at(), "home: walk-back without a walker", "a walker file", "add the key walker");
    }
    if (vehicle == null || (home != HomeRule.PAIR && home != HomeRule.BASE_RESCUE)) {
      return;
    }
    Vehicle.Crew crew = vehicle.crew();
    if (crew == null) {
      problems.add(
          at.at(),
          "home: " + at.text() + " with vehicle " + vehicle.name() + ", which has no crew block",
          "crew with seats and rescue_seats in its file",
          "add them or choose another rule");
      return;
    }
    // In a pair both crews ride home in one vehicle; a rescue needs a seat for its driver.
    int others = other == null || other.crew() == null ? crew.seats() : other.crew().seats();
    int needed = crew.seats() + (home == HomeRule.PAIR ? others : 1);
    if (crew.rescueSeats() < needed) {
      problems.add(
          at.at(),
          "home: "
              + at.text()
              + " with crew.rescue_seats = "
              + crew.rescueSeats()
              + " of vehicle "
              + vehicle.name(),
          home == HomeRule.PAIR && other != null
              ? "at least " + needed + " for both crews"
              : "at least " + needed + " for " + crew.seats() + " crew per vehicle",
          "raise rescue_seats or choose another rule");
    }
    if (home == HomeRule.BASE_RESCUE && crew.lifeSupportH() == null && !supplied) {
      problems.add(
          at.at(),
          "home: base-rescue with vehicle " + vehicle.name() + ", whose supplies are not stated",
          "crew.life_support_h in its file, or life_support_h of the question",
          "add one of them: how long the crew can wait");
    }
  }

  private List<Band> bands(Entry given, Budget budget, Vehicle vehicle) {
    List<Band> bands = new ArrayList<>();
    Band first = null;
    for (Entry entry : given.items()) {
      Amount a = Amount.parse(entry.text());
      Band band = new Band(a.label(), a.quantity(), a.si());
      Double allowed = of(budget, a.quantity());
      if (first != null && a.quantity() != first.quantity()) {
        problems.add(
            entry.at(),
            "band " + a.label() + " is " + Amount.word(a.quantity()),
            Amount.word(first.quantity()) + " like the first band, " + first.label(),
            a.label().endsWith("m") && !a.label().endsWith("km")
                ? "m is metres; write min for minutes"
                : "use one quantity for all bands");
      } else if (a.si() <= (bands.isEmpty() ? 0 : bands.get(bands.size() - 1).amount())) {
        problems.add(
            entry.at(),
            "band " + a.label(),
            bands.isEmpty()
                ? "more than 0"
                : "more than the band before, " + bands.get(bands.size() - 1).label(),
            "sort the bands, smallest first");
      } else if (allowed != null && a.si() > allowed * (1 + 1e-12)) {
        problems.add(
            entry.at(),
            "band " + a.label() + " is beyond the budget",
            "at most the budget of the same quantity",
            "drop the band or raise the budget");
      } else {
        bands.add(band);
      }
      if (first == null) {
        first = band;
        if (a.quantity() == Quantity.ENERGY_J) {
          JobNames.requireEnergyModel(vehicle, entry, "an energy band", problems);
        }
      }
    }
    return bands;
  }

  private double staySeconds(Entry given, Budget budget) {
    Amount stay = Amount.parse(given.text());
    if (stay.quantity() != Quantity.TIME_S) {
      problems.add(
          given.at(),
          "stay is " + stay.label() + ", " + Amount.word(stay.quantity()),
          "a time in h, min or s",
          stay.label().endsWith("m") ? "write min for minutes" : "write a time");
    } else if (budget.timeS() != null && stay.si() >= budget.timeS()) {
      problems.add(
          given.at(),
          "stay is " + stay.label(),
          "less than the budget drive_h, which covers out, stay and home",
          "shorten the stay or raise the budget");
    }
    return stay.si();
  }

  private static Double of(Budget budget, Quantity quantity) {
    return switch (quantity) {
      case TIME_S -> budget.timeS();
      case ENERGY_J -> budget.energyJ();
      case DISTANCE_M -> budget.distanceM();
    };
  }

  private static Double times(Double value, double factor) {
    return value == null ? null : Double.valueOf(value * factor);
  }
}
