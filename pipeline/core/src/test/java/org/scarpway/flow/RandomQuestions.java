package org.scarpway.flow;

import static org.scarpway.flow.RandomVehicle.part;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Questions of every kind over given places. */
record RandomQuestions(
    Draw draw,
    Map<String, Object> files,
    List<String> vehicles,
    List<String> bases,
    List<String> places,
    boolean walks) {

  /** What is asked fits the vehicle, but for a few that are to be refused. */
  @SuppressWarnings("unchecked")
  private boolean fits(String vehicle, String block, String key) {
    Object part = ((Map<String, Object>) files.get(vehicle + ".yaml")).get(block);
    return draw.chance(0.03)
        || (part instanceof Map<?, ?> m && m.get(key) instanceof Number n && n.doubleValue() > 0);
  }

  Map<String, Object> reach(String name, double acrossM) {
    Map<String, Object> q = new LinkedHashMap<>();
    q.put("name", name);
    q.put("from", draw.of(bases));
    String vehicle = draw.of(vehicles);
    if (!vehicle.equals(vehicles.get(0)) || draw.chance(0.2)) {
      q.put("vehicle", vehicle);
    }
    boolean powered = fits(vehicle, "drive", "power_w");
    String home = draw.of("none", "drive-back", "drive-back", "walk-back", "pair", "base-rescue");
    boolean can =
        switch (home) {
          case "walk-back" -> walks;
          case "pair", "base-rescue" -> fits(vehicle, "crew", "rescue_seats");
          default -> true;
        };
    home = can ? home : "drive-back";
    q.put("home", home);
    Map<String, Object> budget = new LinkedHashMap<>();
    if (draw.chance(0.7)) {
      budget.put("drive_h", draw.scaled(acrossM / 50000, acrossM / 200));
    }
    if (powered && draw.chance(0.3)) {
      budget.put("energy_kwh", draw.scaled(1e-3, 5));
    }
    if (draw.chance(0.3)) {
      budget.put("distance_km", draw.scaled(acrossM / 5000, acrossM / 200));
    }
    if (!budget.isEmpty()) {
      q.put("budget", budget);
    }
    if (draw.chance(0.6)) {
      q.put("bands", bands(acrossM, powered, budget));
    }
    double mostH = budget.getOrDefault("drive_h", 9.0) instanceof Double d ? d : 9;
    if (draw.chance(0.3) && mostH > 0.1) {
      q.put("stay", draw.whole(0, (int) Math.min(30, mostH * 30)) + "min");
    }
    if (draw.chance(0.2)) {
      q.put("beyond_budget", true);
    }
    if (home.equals("walk-back") && draw.chance(0.5)) {
      q.put("refuges", List.of(draw.of(places)));
    }
    if (home.equals("pair") && vehicles.size() > 1 && draw.chance(0.5)) {
      String second = draw.of(vehicles);
      boolean powers = !budget.containsKey("energy_kwh") || fits(second, "drive", "power_w");
      if (powers && fits(second, "crew", "rescue_seats")) {
        q.put("second", second);
      }
    }
    return q;
  }

  private List<Object> bands(double acrossM, boolean powered, Map<String, Object> budget) {
    String unit = powered ? draw.of("min", "min", "km", "Wh") : draw.of("min", "min", "km");
    String key = unit.equals("min") ? "drive_h" : unit.equals("km") ? "distance_km" : "energy_kwh";
    double per = unit.equals("min") ? 60 : unit.equals("km") ? 1 : 1000;
    double guess = unit.equals("min") ? acrossM / 60 : unit.equals("km") ? acrossM / 1000 : 500;
    double most = budget.get(key) instanceof Double d ? d * per : guess;
    List<Object> bands = new ArrayList<>();
    double last = 0;
    for (int n = draw.whole(1, 4); n > 0; n--) {
      double amount = Math.floor((last + (most - last) * draw.within(0.1, 0.9)) * 1e4) / 1e4;
      if (amount > last) {
        bands.add(java.math.BigDecimal.valueOf(amount).toPlainString() + unit);
        last = amount;
      }
    }
    return bands;
  }

  Map<String, Object> corridor(String name) {
    Map<String, Object> q = new LinkedHashMap<>();
    q.put("name", name);
    if (vehicles.size() > 1 && draw.chance(0.5)) {
      q.put("vehicle", draw.of(vehicles));
    }
    if (draw.chance(0.7)) {
      List<Object> via = new ArrayList<>();
      for (int n = draw.whole(2, 4); n > 0; n--) {
        String next = draw.of(places);
        if (via.isEmpty() || !via.get(via.size() - 1).equals(next)) {
          via.add(next);
        }
      }
      if (via.size() < 2) {
        via = new ArrayList<>(places.subList(0, 2));
      }
      q.put("via", via);
    } else {
      List<String> some = new ArrayList<>(places);
      for (int i = some.size() - 1; i > 0; i--) {
        Collections.swap(some, i, draw.whole(0, i));
      }
      q.put("start", some.get(0));
      boolean ends = some.size() > 2 && draw.chance(0.4);
      int last = ends ? some.size() - 1 : some.size();
      q.put("stops", List.copyOf(some.subList(1, last)));
      if (ends) {
        q.put("end", some.get(last));
      }
    }
    q.put("cost", draw.of("time", "time", "energy", "distance"));
    if (draw.chance(0.6)) {
      q.put("within_pct", draw.of(List.of(List.of(2), List.of(5, 10), List.of(0.5, 2, 20))));
    }
    if (draw.chance(0.3)) {
      q.put("alternatives", draw.whole(1, 3));
      q.put("shared_pct", draw.whole(0, 90));
    }
    if (draw.chance(0.2)) {
      q.put("trade_offs", draw.whole(1, 6));
    }
    return q;
  }

  /**
   * @param targets names of the targets, possibly none
   */
  Map<String, Object> sortie(String name, List<String> targets, double acrossM) {
    Map<String, Object> q = new LinkedHashMap<>();
    q.put("name", name);
    q.put("from", draw.of(bases));
    String vehicle = draw.of(vehicles);
    q.put("vehicle", vehicle);
    q.put("days", draw.whole(1, 4));
    double dayH = draw.scaled(acrossM / 20000, acrossM / 200);
    q.put("hours_a_day", Math.max(0.1, Math.min(24, dayH)));
    if (draw.chance(0.5)) {
      q.put("drive_hours_a_day", Math.max(0.1, Math.min(24, dayH * draw.within(0.4, 1))));
    }
    if (draw.chance(0.3)) {
      q.put("walks_a_day", draw.whole(0, 3));
    }
    if (draw.chance(0.5)) {
      q.put("egress_min", draw.whole(0, 10));
      q.put("ingress_min", 0);
    }
    boolean powered = fits(vehicle, "drive", "power_w");
    if (powered && draw.chance(0.4)) {
      q.put("night_charge_kwh", draw.scaled(0.1, 50));
    }
    if (powered && draw.chance(0.3)) {
      q.put("energy_kwh", draw.scaled(0.1, 50));
    }
    if (draw.chance(0.3)) {
      q.put("life_support_h", draw.scaled(1, 200));
    }
    String home = draw.of("drive-back", "drive-back", "walk-back", "pair", "base-rescue");
    boolean can =
        switch (home) {
          case "walk-back" -> walks;
          case "pair", "base-rescue" -> fits(vehicle, "crew", "rescue_seats");
          default -> true;
        };
    q.put("home", can ? home : "drive-back");
    if ((!can || home.equals("drive-back") || home.equals("walk-back")) && draw.chance(0.3)) {
      q.put("camps", draw.chance(0.3) ? List.of() : List.of(draw.of(places)));
    }
    if (!targets.isEmpty() && draw.chance(0.3)) {
      q.put("stops", targets);
    }
    return q;
  }

  Map<String, Object> sites(double acrossM) {
    Map<String, Object> q = new LinkedHashMap<>();
    boolean compared = draw.chance(0.7);
    if (compared) {
      q.put("candidates", bases);
      double axis = Draw.digits(acrossM * draw.within(0.05, 0.4));
      q.put("ellipse_m", List.of(axis, Draw.digits(axis * draw.within(0.3, 1))));
      if (draw.chance(0.3)) {
        part(q, "weights").put("reach_km2", draw.whole(0, 5));
        part(q, "weights").put("mean_hazard", 1);
      }
    }
    if (!compared || draw.chance(0.3)) {
      Map<String, Object> search = part(q, "search");
      search.put("spacing_m", Draw.digits(acrossM / draw.within(3, 9)));
      search.put("time_h", draw.scaled(acrossM / 50000, acrossM / 500));
      search.put("clear_m", draw.chance(0.5) ? 0 : Draw.digits(acrossM / 100));
    }
    return q;
  }
}
