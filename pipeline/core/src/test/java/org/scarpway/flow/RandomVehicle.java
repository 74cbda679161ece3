package org.scarpway.flow;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** Vehicles, walkers and soils from a draw: the shipped ones, and any within the schemas. */
final class RandomVehicle {
  private final Draw draw;

  /** Files by name, as trees; those of soils are added as vehicles name them. */
  private final Map<String, Object> files;

  private final boolean earth;

  RandomVehicle(Draw draw, Map<String, Object> files, boolean earth) {
    this.draw = draw;
    this.files = files;
    this.earth = earth;
  }

  /** Adds a vehicle's file and tells the vehicle's name, which is that of the file. */
  String vehicle(int n) throws IOException {
    Map<String, Object> tree;
    if (draw.chance(0.5)) {
      String name = draw.of("field-truck", "open-buggy", "pressurised-rover", "robot-scout");
      tree = shipped("vehicles/" + name);
      if (tree.containsKey("soil")) {
        tree.put("soil", soil());
      }
      if (draw.chance(0.3)) {
        part(tree, "drive").put("turn_radius_m", draw.scaled(0.1, 30));
      }
    } else {
      tree = any();
    }
    tree.put("vehicle", "v" + n);
    files.put("v" + n + ".yaml", tree);
    return "v" + n;
  }

  String walker() throws IOException {
    Map<String, Object> tree;
    if (draw.chance(0.7)) {
      tree = shipped("walkers/" + (earth || draw.chance(0.2) ? "field-hiker" : "suited-lunar"));
      if (draw.chance(0.4)) {
        // Whose equation is not made for the body is refused: without one there is more to see.
        tree.remove("metabolic");
      }
      if (draw.chance(0.3)) {
        tree.put("max_step_m", draw.scaled(0.1, 3));
        tree.put("max_walk_km", draw.scaled(0.1, 10));
      }
    } else {
      tree = new LinkedHashMap<>();
      tree.put("scarpway", 1);
      tree.put("walker", "w");
      tree.put("speed_function", draw.of("tobler", "naismith", "naismith-langmuir"));
      tree.put("scale", draw.scaled(0.1, 2));
      tree.put("max_slope_deg", draw.scaled(1, 60));
      tree.put("max_step_m", draw.scaled(0.1, 3));
      tree.put("endurance_h", draw.scaled(0.1, 24));
    }
    files.put("walker.yaml", tree);
    return "walker.yaml";
  }

  /** Adds one of the shipped soils and tells its file. */
  String soil() throws IOException {
    String name =
        earth || draw.chance(0.02)
            ? draw.of("dry-sand", "sandy-loam", "wet-clay")
            : draw.of("dry-sand", "lunar-compact", "lunar-loose", "lunar-slope", "sandy-loam");
    Map<String, Object> tree = shipped("soils/" + name);
    // Bearing alone leaves the motion resistance to the vehicle, which may have none.
    if (name.equals("wet-clay") && draw.chance(0.5)) {
      part(tree, "cone").put("ci", draw.scaled(10, 200));
    }
    files.put("soil-" + name + ".yaml", tree);
    return "soil-" + name + ".yaml";
  }

  private Map<String, Object> any() throws IOException {
    Map<String, Object> v = new LinkedHashMap<>();
    v.put("scarpway", 1);
    v.put("vehicle", "any");
    double length = draw.scaled(0.5, 12);
    double width = Draw.digits(length * draw.within(0.4, 1));
    boolean powered = draw.chance(0.7);
    boolean wheeled = draw.chance(0.7);
    v.put("mass_kg", Draw.digits(100 * length * width * draw.within(0.5, 4)));
    Map<String, Object> body = part(v, "body");
    body.put("length_m", length);
    body.put("width_m", width);
    body.put("clearance_m", Draw.digits(length * draw.within(0.03, 0.2)));
    body.put("cg_height_m", Draw.digits(length * draw.within(0.21, 0.5)));
    if (wheeled) {
      wheels(v, length, width);
    }
    Map<String, Object> limits = part(v, "limits");
    some(limits, "climb_deg", 0.8, 5, 40);
    some(limits, "descend_deg", 0.7, 5, 40);
    some(limits, "side_deg", 0.8, 3, 30);
    some(limits, "step_m", 0.7, length * 0.02, length * 0.1);
    if (wheeled) {
      some(limits, "tip_margin_deg", 0.5, 0.5, 15);
    }
    Map<String, Object> slow = part(v, "slow_from");
    some(slow, "slope_deg", 0.4, 1, 4.9);
    some(slow, "step_m", 0.4, length * 0.005, length * 0.02);
    some(slow, "roughness_m", 0.6, 0.01, 0.3);
    slowOnSoftGround(slow, length);
    Map<String, Object> drive = part(v, "drive");
    double speed = draw.scaled(0.05, 20);
    drive.put("speed_ms", speed);
    some(drive, "crawl_ms", 0.6, speed / 20, speed);
    if (powered) {
      drive.put("power_w", draw.scaled(50, 100000));
      drive.put("efficiency", Draw.digits(draw.within(0.2, 1)));
      drive.put("rolling", draw.scaled(0.01, 0.4));
      if (draw.chance(0.4)) {
        drive.put("regeneration", Draw.digits(draw.within(0, 0.95)));
      }
    }
    some(drive, "hotel_w", 0.6, 1, 3000);
    some(drive, "turn_radius_m", 0.6, 0.1, 40);
    if (wheeled && draw.chance(0.5)) {
      v.put("soil", soil());
    }
    some(v, "battery_kwh", 0.7, 0.2, 200);
    if (draw.chance(0.7)) {
      Map<String, Object> crew = part(v, "crew");
      int seats = draw.whole(1, 4);
      crew.put("seats", seats);
      crew.put("rescue_seats", draw.chance(0.3) ? 0 : seats * draw.whole(1, 3));
      some(crew, "life_support_h", 0.7, 0.5, 100);
    }
    return v;
  }

  /** From draws of their own, so that seeds keep the jobs that they had before these keys. */
  private static void slowOnSoftGround(Map<String, Object> slow, double length) {
    Draw draw = new Draw(Double.doubleToLongBits(length));
    if (draw.chance(0.4)) {
      slow.put("slip_pct", draw.scaled(1, 60));
    }
    if (draw.chance(0.4)) {
      slow.put("sinkage_m", draw.scaled(length * 0.002, length * 0.02));
    }
    if (draw.chance(0.4)) {
      slow.put("speed_loss_pct", draw.scaled(1, 100));
    }
  }

  private void wheels(Map<String, Object> v, double length, double width) {
    Map<String, Object> wheels = part(v, "wheels");
    int axles = draw.whole(2, 4);
    double half = length * draw.within(0.25, 0.45);
    List<Object> at = new ArrayList<>();
    List<Object> tracks = new ArrayList<>();
    for (int i = 0; i < axles; i++) {
      at.add(Draw.digits(half * (1 - 2.0 * i / (axles - 1)) * (i == 0 ? 0.95 : 1)));
      tracks.add(Draw.digits(width * draw.within(0.7, 1)));
    }
    double radius = Draw.digits(length * draw.within(0.06, 0.12));
    wheels.put("axles_m", at);
    wheels.put("track_m", draw.chance(0.3) ? tracks : tracks.get(0));
    wheels.put("radius_m", radius);
    wheels.put("width_m", Draw.digits(radius * draw.within(0.3, 1)));
    some(wheels, "contact_m", 0.3, radius * 0.1, radius);
    if (draw.chance(0.1)) {
      part(v, "drive").put("running_gear", "tracks");
      part(v, "drive").put("mobility_index", draw.scaled(5, 200));
    }
    if (draw.chance(0.2)) {
      part(v, "drive").put("passes", 50);
    }
  }

  private void some(Map<String, Object> tree, String key, double p, double least, double most) {
    if (draw.chance(p)) {
      tree.put(key, draw.scaled(least, most));
    }
  }

  @SuppressWarnings("unchecked")
  static Map<String, Object> part(Map<String, Object> tree, String key) {
    return (Map<String, Object>) tree.computeIfAbsent(key, k -> new LinkedHashMap<>());
  }

  @SuppressWarnings("unchecked")
  private static Map<String, Object> shipped(String name) throws IOException {
    String text = Files.readString(Flow.ROOT.resolve("configs/" + name + ".yaml"));
    Object tree = new Load(LoadSettings.builder().build()).loadFromString(text);
    return new LinkedHashMap<>((Map<String, Object>) tree);
  }
}
