package org.scarpway.config;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** A folder with one good file of every kind, to be spoilt by tests. */
final class JobFolder {
  static final String JOB =
      """
      scarpway: 1
      job: north-bench
      body: moon
      dem:
        source: ground.tif
        window: {centre: [1000, 2000], size_m: [4000, 3000]}
        cell_size_m: 5
        voids: no-go
        vertical_sigma_m: 0.4
        correlation_length_m: 30
      terrain: {slope: horn, baseline_m: auto}
      hazard: {rock_coverage: 0.05, keep_out: [areas.geojson], margin_m: 10}
      vehicles: [rover.yaml, buggy.yaml]
      walker: walker.yaml
      bases:
        alpha: [1200, 1800]
        beta: {lon: 12.5, lat: -88.5}
      targets: targets.csv
      reach:
        - name: day-trip
          from: alpha
          budget: {drive_h: 6, energy_kwh: 60, distance_km: 50}
          home: drive-back
          bands: [1h, 2h, 240min, 6 h]
          stay: 30min
        - name: on-foot
          from: beta
          home: walk-back
          vehicle: buggy
      corridors:
        - {name: to-rim, via: [alpha, rim, alpha], cost: time, within_pct: [2, 5, 10], alternatives: 3}
      sites: {candidates: [alpha, beta], ellipse_m: [400, 200], weights: {targets: 2, reach_km2: 1}}
      """;

  static final String ROVER =
      """
      scarpway: 1
      vehicle: rover
      summary: invented
      mass_kg: 4200
      body: {length_m: 4.6, width_m: 3.2, clearance_m: 0.42, front_overhang_m: 0.4, rear_overhang_m: 0.4, cg_height_m: 1.3}
      wheels: {axles_m: [1.7, 0.0, -1.7], track_m: 2.6, radius_m: 0.45, width_m: 0.35}
      limits: {climb_deg: 20, descend_deg: 20, side_deg: 15, step_m: 0.30, tip_margin_deg: 5}
      slow_from: {slope_deg: 12, step_m: 0.15, roughness_m: 0.10}
      drive: {speed_ms: 4.2, crawl_ms: 0.8, power_w: 9000, efficiency: 0.65, regeneration: 0.2, hotel_w: 1800, rolling: 0.12}
      soil: soil.yaml
      battery_kwh: 160
      crew: {seats: 2, rescue_seats: 4, life_support_h: 72}
      """;

  static final String BUGGY =
      """
      scarpway: 1
      vehicle: buggy
      body: {length_m: 3.0, width_m: 2.0, clearance_m: 0.3}
      limits: {climb_deg: 18}
      drive: {speed_ms: 2.5}
      """;

  static final String SOIL =
      """
      soil: loose
      bekker: {n: 1.0, kc: 1400, kphi: 820000}
      shear: {cohesion_pa: 170, friction_deg: 35, k_m: 0.018}
      """;

  static final String WALKER =
      """
      scarpway: 1
      walker: suited
      speed_table: [{slope_deg: -20, speed_ms: 0.5}, {slope_deg: 0, speed_ms: 1.0}, {slope_deg: 20, speed_ms: 0.4}]
      scale: 0.8
      max_slope_deg: 20
      endurance_h: 8
      reserve_h: 1
      metabolic: {equation: pandolf, body_kg: 80, peak_w: 600, mean_w: 350}
      load_kg: 90
      """;

  static final String TARGETS =
      """
      name,x,y,weight,stay_min,walk_count
      rim,1500,2100,3,20,1
      Blue Boulder,900,1500,,,
      """;

  final Path dir;

  JobFolder(Path dir) {
    this.dir = dir;
    write("job.yaml", JOB);
    write("rover.yaml", ROVER);
    write("buggy.yaml", BUGGY);
    write("soil.yaml", SOIL);
    write("walker.yaml", WALKER);
    write("targets.csv", TARGETS);
    write("ground.tif", "");
    write("areas.geojson", "{}");
  }

  Path job() {
    return dir.resolve("job.yaml");
  }

  Path write(String name, String text) {
    return write(name, text.getBytes(StandardCharsets.UTF_8));
  }

  Path write(String name, byte[] bytes) {
    try {
      Path file = dir.resolve(name);
      Files.createDirectories(file.getParent());
      return Files.write(file, bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Replaces one part of a good file. */
  Path spoil(String name, String part, String by) {
    Path file = dir.resolve(name);
    try {
      String text = Files.readString(file);
      if (!text.contains(part)) {
        throw new IllegalArgumentException(name + " does not hold " + part);
      }
      return Files.writeString(file, text.replace(part, by));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
