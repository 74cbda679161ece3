package org.scarpway.run.replan;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.config.SpellingSuggestion;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.Vehicle;

/** Reads what a crew has left, and checks it against what the question limits. */
final class LeftAmounts {
  private static final String OPTION = "--left";
  private static final String TIME = "time_h";
  private static final String ENERGY = "energy_kwh";
  private static final String DISTANCE = "distance_km";
  private static final String LIFE_SUPPORT = "life_support_h";
  private static final List<String> KEYS = List.of(TIME, ENERGY, DISTANCE, LIFE_SUPPORT);
  private static final double MOST = 1e6;

  /** Share by which conversions of units may be off. */
  private static final double ROUNDING = 1e-9;

  private LeftAmounts() {}

  /**
   * @throws UserError with one line for each mistake
   */
  static Left read(Map<String, String> given, Job.ReachEntry question, Vehicle vehicle) {
    List<String> mistakes = new ArrayList<>();
    Map<String, Double> amounts = new LinkedHashMap<>();
    given.forEach(
        (key, text) -> {
          if (!KEYS.contains(key)) {
            mistakes.add(
                mistake(
                    "unknown key '" + key + "'",
                    "time_h, energy_kwh, distance_km or" + " life_support_h",
                    SpellingSuggestion.remedy(key, KEYS)));
            return;
          }
          Double amount = number(text);
          if (amount == null) {
            mistakes.add(
                mistake(
                    key + " = '" + text + "'",
                    "a number from 0 to 1000000",
                    "state what is left, reserves included"));
            return;
          }
          amounts.put(key, amount);
        });
    // A misspelt key is not missing as well.
    UserError.throwAll(mistakes);
    Vehicle.Crew crew = vehicle.crew();
    boolean supplied = crew != null && crew.lifeSupportH() != null;
    Budget budget = question.budget();
    boolean powered = vehicle.hasEnergyModel();
    boolean battery = powered && vehicle.batteryKwh() != null;
    require(TIME, budget.timeS() != null, "a time budget", given, mistakes);
    require(
        ENERGY,
        budget.energyJ() != null || battery,
        budget.energyJ() != null ? "an energy budget" : "the battery of the vehicle",
        given,
        mistakes);
    require(DISTANCE, budget.distanceM() != null, "a distance budget", given, mistakes);
    require(
        LIFE_SUPPORT,
        budget.lifeSupportS() != null || budget.suits() != null || supplied,
        budget.suits() != null ? "the endurance of suits" : "life support",
        given,
        mistakes);
    if (amounts.containsKey(ENERGY) && !powered) {
      mistakes.add(
          mistake(
              "energy_kwh for vehicle '" + vehicle.name() + "', which has no energy model",
              "no energy",
              "remove it or complete the vehicle file"));
    }
    new Supplies(question, battery ? vehicle.batteryKwh() : null, supplied ? crew : null)
        .all()
        .forEach((key, of) -> bound(key, of, given.get(key), amounts.get(key), mistakes));
    UserError.throwAll(mistakes);
    return new Left(
        times(amounts.get(TIME), 3600),
        times(amounts.get(ENERGY), 3.6e6),
        times(amounts.get(DISTANCE), 1000),
        times(amounts.get(LIFE_SUPPORT), 3600));
  }

  /** Refuses more than the least of the supplies; reserves and figures rest on the whole. */
  private static void bound(
      String key, List<Supply> supplies, String text, Double amount, List<String> mistakes) {
    Supply least = supplies.stream().min(Comparator.comparingDouble(Supply::most)).orElse(null);
    if (least == null || amount == null || amount <= least.most() * (1 + ROUNDING)) {
      return;
    }
    mistakes.add(
        mistake(
            key + " = " + text,
            "at most the " + plain(least.most()) + " " + least.of(),
            "state what is left of it, not what the vehicle holds besides"));
  }

  private static String plain(double v) {
    BigDecimal rounded = BigDecimal.valueOf(v).round(new MathContext(9));
    return rounded.stripTrailingZeros().toPlainString();
  }

  /**
   * A whole supply before the trip.
   *
   * @param most in the unit of the key
   * @param of unit, and words on whose it is
   */
  private record Supply(double most, String of) {}

  /**
   * What a crew had before the trip.
   *
   * @param batteryKwh null without a battery
   * @param crew null without life support
   */
  private record Supplies(Job.ReachEntry question, Double batteryKwh, Vehicle.Crew crew) {
    Map<String, List<Supply>> all() {
      Budget budget = question.budget();
      Map<String, List<Supply>> all = new LinkedHashMap<>();
      KEYS.forEach(key -> all.put(key, new ArrayList<>()));
      String asked = "of budget.%s of question '" + question.name() + "'";
      add(all, TIME, budget.timeS(), 3600, "h " + asked.formatted("drive_h"));
      add(all, ENERGY, budget.energyJ(), 3.6e6, "kWh " + asked.formatted(ENERGY));
      add(all, ENERGY, batteryKwh, 1, "kWh of the battery of the vehicle");
      add(all, DISTANCE, budget.distanceM(), 1000, "km " + asked.formatted(DISTANCE));
      add(all, LIFE_SUPPORT, budget.lifeSupportS(), 3600, "h " + asked.formatted(LIFE_SUPPORT));
      if (crew != null) {
        add(all, LIFE_SUPPORT, crew.lifeSupportH(), 1, "h of life support of the vehicle");
      }
      if (budget.suits() != null) {
        double enduranceS = budget.suits().enduranceS();
        add(all, LIFE_SUPPORT, enduranceS, 3600, "h of the endurance of the suits");
      }
      return all;
    }

    private static void add(
        Map<String, List<Supply>> all, String key, Double amount, double unit, String of) {
      if (amount != null) {
        all.get(key).add(new Supply(amount / unit, of));
      }
    }
  }

  private static void require(
      String key, boolean limited, String by, Map<String, String> given, List<String> mistakes) {
    if (limited && !given.containsKey(key)) {
      mistakes.add(
          mistake(
              key + " is missing",
              key + ", since the question is limited by " + by,
              "add " + key + "=... with what is left"));
    }
  }

  private static String mistake(String what, String expected, String remedy) {
    return UserError.of(OPTION, what, expected, remedy).getMessage();
  }

  /** The number, or null if it is none that can be left. */
  private static Double number(String text) {
    if (!text.matches("[0-9]{0,7}(\\.[0-9]{0,30})?") || !text.matches(".*[0-9].*")) {
      return null;
    }
    double v = Double.parseDouble(text);
    return v <= MOST ? (Double) v : null;
  }

  private static Double times(Double amount, double factor) {
    return amount == null ? null : (Double) (amount * factor);
  }
}
