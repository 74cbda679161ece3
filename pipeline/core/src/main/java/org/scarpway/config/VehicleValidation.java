package org.scarpway.config;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.vehicle.Soil;

/**
 * Checks that a vehicle's numbers are consistent: its geometry is possible, its limits agree, and
 * every block has the values that it needs.
 */
final class VehicleValidation {
  private final Entry vehicle;
  private final Soil soil;
  private final Problems problems;
  private final Set<String> missing = new HashSet<>();
  private boolean good = true;

  VehicleValidation(Entry vehicle, Soil soil, Problems problems) {
    this.vehicle = vehicle;
    this.soil = soil;
    this.problems = problems;
  }

  boolean holds() {
    geometry();
    limits();
    drive();
    crew();
    return good;
  }

  private void geometry() {
    Entry body = vehicle.get("body");
    Entry wheels = vehicle.get("wheels");
    Entry length = body.get("length_m");
    Entry axlesM = wheels.get("axles_m");
    if (axlesM.sound()) {
      List<Entry> axles = axlesM.items();
      for (int i = 1; i < axles.size(); i++) {
        if (axles.get(i).number() >= axles.get(i - 1).number()) {
          fail(
              axles.get(i),
              "axle at " + axles.get(i).text() + " m after one at " + axles.get(i - 1).text(),
              "axles from front to rear, each behind the one before",
              "sort them, front first");
          return;
        }
      }
      double front = axles.get(0).number();
      double rear = axles.get(axles.size() - 1).number();
      double wheelbaseM = front - rear;
      if (front <= 0 || rear >= 0) {
        fail(
            axlesM,
            "all axles on one side of the centre of gravity",
            "a front axle ahead of 0 and a rear axle behind it",
            "count the axles from the centre of gravity");
      }
      if (length.sound() && wheelbaseM >= length.number()) {
        fail(
            axlesM,
            "a wheelbase of " + metres(wheelbaseM),
            "less than body.length_m = " + length.text(),
            "check both");
      } else if (length.sound()) {
        overhangs(body, wheelbaseM, length);
      }
    }
    tracks(wheels.get("track_m"), axlesM, body.get("width_m"));
    below(
        body.get("clearance_m"),
        body.get("cg_height_m"),
        "the belly is below the centre of gravity");
    Entry radius = wheels.get("radius_m");
    Entry step = vehicle.get("limits").get("step_m");
    Entry contact = wheels.get("contact_m");
    if (radius.sound() && contact.sound() && contact.number() > 2 * radius.number()) {
      fail(
          contact,
          "contact_m = " + contact.text(),
          "at most the wheel diameter, " + metres(2 * radius.number()),
          "check it and wheels.radius_m");
    }
    if (radius.sound() && step.sound() && step.number() > 2 * radius.number()) {
      fail(
          step,
          "step_m = " + step.text(),
          "at most the wheel diameter, " + metres(2 * radius.number()),
          "lower the step or check wheels.radius_m");
    }
  }

  private void tracks(Entry track, Entry axlesM, Entry width) {
    List<Entry> each = track.items();
    if (track.sound() && axlesM.sound() && !each.isEmpty()) {
      int axles = axlesM.items().size();
      if (each.size() != axles) {
        fail(
            track,
            each.size() + " tracks",
            "one for each of the " + axles + " axles",
            "match them");
      }
    }
    for (Entry t : each.isEmpty() ? List.of(track) : each) {
      if (t.sound() && width.sound() && t.number() > width.number()) {
        fail(
            t,
            "track_m = " + t.text(),
            "at most body.width_m = " + width.text() + " (wheels stand within the overall width)",
            "check both");
      }
    }
  }

  private void overhangs(Entry body, double wheelbaseM, Entry length) {
    Entry front = body.get("front_overhang_m");
    Entry rear = body.get("rear_overhang_m");
    double over = (front.sound() ? front.number() : 0.0) + (rear.sound() ? rear.number() : 0.0);
    if (over > 0 && wheelbaseM + over > length.number() + 1e-6) {
      fail(
          front.present() ? front : rear,
          "overhangs and wheelbase add up to " + metres(wheelbaseM + over),
          "at most body.length_m = " + length.text(),
          "check the overhangs, the axles and the length");
    }
  }

  private void limits() {
    Entry limits = vehicle.get("limits");
    Entry slow = vehicle.get("slow_from");
    below(slow.get("slope_deg"), limits.get("climb_deg"), "slow ground comes before the limit");
    below(slow.get("step_m"), limits.get("step_m"), "slow ground comes before the limit");
    below(
        slow.get("sinkage_m"),
        vehicle.get("body").get("clearance_m"),
        "slow ground comes before the limit");
    Entry margin = limits.get("tip_margin_deg");
    needs(margin, vehicle.get("wheels"));
    needs(margin, vehicle.get("body").get("cg_height_m"));
  }

  private void drive() {
    Entry drive = vehicle.get("drive");
    atMost(drive.get("crawl_ms"), drive.get("speed_ms"), "crawling is no faster than driving");
    Entry gear = drive.get("running_gear");
    if (gear.sound() && gear.text().equals("tracks") && !drive.has("mobility_index")) {
      fail(
          gear,
          "tracks without a mobility index",
          "drive.mobility_index as published for the vehicle",
          "add it or choose wheels");
    }
    Entry power = drive.get("power_w");
    Entry regeneration = drive.get("regeneration");
    needs(power, vehicle.get("mass_kg"));
    needs(power, drive.get("efficiency"));
    if (power.sound() && !drive.has("rolling") && !vehicle.has("soil")) {
      fail(
          power,
          "power_w without a motion resistance",
          "drive.rolling or soil beside it",
          "add one of them");
    }
    if (regeneration.sound() && regeneration.number() > 0) {
      needs(regeneration, power);
    }
    needs(drive.get("brake_ms2"), drive.get("sight_m"));
    if (soil == null || soil.shear() == null) {
      needs(drive.get("sight_m"), drive.get("brake_ms2"));
    }
    if (soil != null) {
      needs(vehicle.get("soil"), vehicle.get("mass_kg"));
      needs(vehicle.get("soil"), vehicle.get("wheels"));
    }
    Entry width = vehicle.get("wheels").get("width_m");
    if (soil != null && soil.bekker() != null && width.sound()) {
      if (!soil.bekker().bears(width.number())) {
        fail(
            vehicle.get("soil"),
            "soil " + soil.name() + " bears no wheel " + width.text() + " m wide",
            "kc + width_m kphi above 0",
            "correct kc or kphi in its file");
      }
    }
    if (soil != null && !soil.resists() && power.sound() && !drive.has("rolling")) {
      fail(
          vehicle.get("soil"),
          "a soil without bekker or cone gives no motion resistance",
          "a soil with one of them, or drive.rolling",
          "add one of them");
    }
  }

  private void crew() {
    Entry crew = vehicle.get("crew");
    Entry seats = crew.get("seats");
    Entry rescue = crew.get("rescue_seats");
    if (seats.sound()
        && rescue.sound()
        && rescue.number() > 0
        && rescue.number() < seats.number()) {
      fail(
          rescue,
          "rescue_seats = " + rescue.text(),
          "0, or at least seats = " + seats.text(),
          "count everybody aboard in a rescue");
    }
  }

  private void needs(Entry given, Entry needed) {
    if (given.sound() && !needed.present() && missing.add(needed.pointer())) {
      String name = needed.pointer().substring(1).replace('/', '.');
      fail(given, given.name() + " needs " + name, name + " beside it", "add " + name);
    }
  }

  private void atMost(Entry small, Entry large, String because) {
    if (small.sound() && large.sound() && small.number() > large.number()) {
      disagree(small, "at most ", large, because);
    }
  }

  private void below(Entry small, Entry large, String because) {
    if (small.sound() && large.sound() && small.number() >= large.number()) {
      disagree(small, "less than ", large, because);
    }
  }

  private void disagree(Entry small, String relation, Entry large, String because) {
    String name = large.pointer().substring(1).replace('/', '.');
    fail(
        small,
        small.name() + " = " + small.text(),
        relation + name + " = " + large.text() + " (" + because + ")",
        "check both");
  }

  private void fail(Entry at, String what, String expected, String remedy) {
    problems.add(at.at(), what, expected, remedy);
    good = false;
  }

  private static String metres(double m) {
    return Math.round(m * 1000) / 1000.0 + " m";
  }
}
