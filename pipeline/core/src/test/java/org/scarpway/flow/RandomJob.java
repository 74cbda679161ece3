package org.scarpway.flow;

import static org.scarpway.flow.RandomVehicle.part;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.grid.Body;

/**
 * A whole job from a seed: ground, vehicles, hazards, places and questions within what the schemas
 * allow. Most are answered; some ask what cannot be.
 */
final class RandomJob {
  private final Draw draw;
  private final RandomGround ground;
  private final Map<String, Object> files = new LinkedHashMap<>();
  private final Map<String, Object> job = new LinkedHashMap<>();
  private final List<String> vehicles = new ArrayList<>();
  private final List<String> bases = new ArrayList<>();
  private final List<String> places = new ArrayList<>();
  private final List<double[]> spots = new ArrayList<>();
  private boolean walks;

  private RandomJob(long seed) throws IOException {
    this.draw = new Draw(seed);
    this.ground = new RandomGround(draw);
    fill();
  }

  static JobFiles of(long seed) throws IOException {
    return new JobFiles(new RandomJob(seed).files);
  }

  private void fill() throws IOException {
    job.put("scarpway", 1);
    job.put("job", "any");
    job.put("body", body());
    files.put("job.yaml", job);
    dem();
    if (draw.chance(0.4)) {
      terrain();
    }
    if (draw.chance(0.5)) {
      hazard();
    }
    RandomVehicle maker = new RandomVehicle(draw, files, ground.body.equals(Body.EARTH));
    List<Object> named = new ArrayList<>();
    for (int n = draw.chance(0.3) ? 2 : 1; n > 0; n--) {
      vehicles.add(maker.vehicle(n));
      named.add("v" + n + ".yaml");
    }
    job.put("vehicles", named);
    // A crew in suits is refused without a walker: a few such jobs are enough.
    boolean suited = vehicles.stream().anyMatch(v -> ridesInSuits(files.get(v + ".yaml")));
    if (draw.chance(suited ? 0.95 : 0.5)) {
      job.put("walker", maker.walker());
      walks = true;
    }
    if (draw.chance(0.2)) {
      soils(maker);
    }
    places();
    questions();
  }

  private static boolean ridesInSuits(Object vehicle) {
    return vehicle instanceof Map<?, ?> tree
        && tree.get("crew") instanceof Map<?, ?> crew
        && Boolean.TRUE.equals(crew.get("suited"));
  }

  private Object body() {
    if (draw.chance(0.9)) {
      return ground.body.name().toLowerCase(Locale.ROOT);
    }
    Map<String, Object> own = new LinkedHashMap<>();
    own.put("semi_major_m", ground.body.semiMajorM());
    own.put("semi_minor_m", ground.body.semiMinorM());
    own.put("gravity_ms2", draw.scaled(0.01, 30));
    return own;
  }

  private void dem() {
    Map<String, Object> dem = part(job, "dem");
    dem.put("source", "ground.asc");
    files.put("ground.asc", RandomGround.text(ground, ground.heightM, "%.3f"));
    if (ground.crs.isEmpty()) {
      dem.put("units", "metres");
    } else {
      files.put("ground.prj", ground.crs);
    }
    if (draw.chance(0.15)) {
      dem.put("cell_size_m", Draw.digits(ground.cellXM * draw.within(0.7, 3)));
    }
    if (draw.chance(0.2)) {
      Object filled = Map.of("fill", Map.of("sure", draw.chance(0.8)));
      dem.put("voids", draw.chance(0.7) ? filled : draw.of("no-go", "fail", "fill"));
    }
    if (draw.chance(0.3)) {
      dem.put("vertical_sigma_m", Draw.digits(ground.cellXM * draw.scaled(0.001, 0.3)));
      if (draw.chance(0.6)) {
        dem.put("correlation_length_m", Draw.digits(ground.cellXM * draw.scaled(0.5, 8)));
      }
      if (draw.chance(0.6)) {
        job.put("confidence", draw.within(0.5, 0.99));
      }
    }
  }

  private void terrain() {
    Map<String, Object> terrain = part(job, "terrain");
    if (draw.chance(0.6)) {
      terrain.put("slope", draw.of("horn", "zevenbergen-thorne", "evans-young", "footprint-plane"));
    }
    if (draw.chance(0.3)) {
      terrain.put("baseline_m", Draw.digits(ground.cellXM * draw.within(0.5, 8)));
    }
    if (draw.chance(0.3)) {
      terrain.put(
          "also",
          List.of(
              draw.of("profile-curvature", "range"),
              draw.of("vector-ruggedness", "mean-difference")));
    }
    terrain.put("scaling", draw.chance(0.2));
  }

  private void hazard() {
    Map<String, Object> hazard = part(job, "hazard");
    int rocks = draw.whole(0, 3);
    if (rocks == 1) {
      hazard.put("rock_coverage", draw.scaled(0.001, 0.3));
    } else if (rocks == 2 && (!ground.degrees || draw.chance(0.1))) {
      double[] share = new double[ground.heightM.length];
      for (int i = 0; i < share.length; i++) {
        share[i] = draw.chance(0.02) ? Double.NaN : draw.within(0, 0.1);
      }
      hazard.put("rock_coverage", "rocks.asc");
      files.put("rocks.asc", RandomGround.text(ground, share, "%.3f"));
      if (!ground.crs.isEmpty()) {
        files.put("rocks.prj", ground.crs);
      }
    }
    if (draw.chance(0.5)) {
      files.put("areas.geojson", polygon());
      hazard.put("keep_out", List.of("areas.geojson"));
      hazard.put("margin_m", Draw.digits(ground.cellXM * draw.within(0, 2)));
    }
    if (draw.chance(0.3)) {
      hazard.put("min_gap_m", draw.chance(0.5) ? 0 : draw.scaled(0.1, 50));
    }
    if (draw.chance(0.3)) {
      hazard.put("turning_m", draw.chance(0.5) ? 0 : draw.scaled(0.1, 50));
    }
  }

  /** A polygon of a few corners somewhere on the ground; it may cross itself. */
  private String polygon() {
    List<Object> ring = new ArrayList<>();
    double row = draw.within(0, ground.rows);
    double col = draw.within(0, ground.cols);
    for (int n = draw.whole(3, 7); n > 0; n--) {
      ring.add(List.of(ground.x(col + draw.within(-6, 6)), ground.y(row + draw.within(-6, 6))));
    }
    ring.add(ring.get(0));
    Map<String, Object> polygon = new LinkedHashMap<>();
    polygon.put("type", "Polygon");
    if (!ground.degrees) {
      polygon.put("scarpway:coordinates", "projected");
    }
    polygon.put("coordinates", List.of(ring));
    return JobFiles.json(polygon);
  }

  private void soils(RandomVehicle maker) throws IOException {
    Map<String, Object> soils = part(job, "soils");
    if (!ground.degrees && draw.chance(0.5)) {
      double[] classes = new double[ground.heightM.length];
      for (int i = 0; i < classes.length; i++) {
        classes[i] = i % ground.cols / 7 % 3;
      }
      files.put("classes.asc", RandomGround.text(ground, classes, "%.0f"));
      if (!ground.crs.isEmpty()) {
        files.put("classes.prj", ground.crs);
      }
      soils.put("raster", "classes.asc");
      soils.put("classes", Map.of("1", maker.soil()));
    } else {
      files.put("soft.geojson", polygon());
      Map<String, Object> area = new LinkedHashMap<>();
      area.put("polygons", "soft.geojson");
      area.put("soil", maker.soil());
      soils.put("areas", List.of(area));
    }
  }

  private void places() {
    Map<String, Object> at = part(job, "bases");
    for (int n = draw.whole(1, 4); n > 0; n--) {
      String name = "base" + n;
      at.put(name, point(spot()));
      bases.add(name);
      places.add(name);
    }
    if (draw.chance(0.5)) {
      StringBuilder table = new StringBuilder();
      boolean lonLat = !ground.crs.isEmpty() && (ground.degrees || draw.chance(0.4));
      table.append(lonLat ? "name,lon,lat" : "name,x,y").append(",weight,stay_min,walk_count\n");
      for (int n = draw.whole(1, 5); n > 0; n--) {
        String name = "mark" + n;
        double[] p = coordinates(spot(), lonLat);
        table.append(name).append(',').append(p[0]).append(',').append(p[1]);
        table.append(',').append(draw.whole(0, 3)).append(',');
        table.append(draw.chance(0.7) ? 0 : draw.whole(1, 60)).append(',');
        table.append(draw.whole(0, 2)).append('\n');
        places.add(name);
      }
      files.put("targets.csv", table.toString());
      job.put("targets", "targets.csv");
    }
  }

  /** Row and column in cells from the north-west corner: where places are awkward. */
  private double[] spot() {
    double row = draw.within(0, ground.rows);
    double col = draw.within(0, ground.cols);
    double[] other = spots.isEmpty() ? new double[] {row, col} : draw.of(spots);
    double hair = draw.of(1e-3, 1e-6, 1e-9, 0.4);
    double[] at =
        switch (draw.whole(0, 15)) {
          case 0 -> new double[] {Math.rint(row), Math.rint(col)};
          case 1 -> new double[] {other[0], other[1]};
          case 2 -> new double[] {other[0] + draw.whole(-1, 1), other[1] + draw.whole(-1, 1)};
          case 3 -> new double[] {draw.of(0.0, 0.5, ground.rows - 0.5), col};
          case 4 -> new double[] {row, draw.of(0.0, 0.5, ground.cols - 0.5)};
          case 5, 6, 7 -> new double[] {other[0] - draw.whole(1, 20), other[1] - hair};
          case 8 -> new double[] {other[0] + draw.whole(1, 20), other[1] + hair};
          case 9 -> new double[] {other[0] + hair, other[1] - draw.whole(1, 20)};
          default -> new double[] {Math.floor(row) + 0.5, Math.floor(col) + 0.5};
        };
    boolean astray = draw.chance(0.01);
    if (!astray) {
      at[0] = Math.max(1e-6, Math.min(at[0], ground.rows - 1e-6));
      at[1] = Math.max(1e-6, Math.min(at[1], ground.cols - 1e-6));
      if (!draw.chance(0.02)) {
        ashore(at);
      }
    }
    spots.add(at);
    return at;
  }

  /**
   * Off the outermost cells, which have no slope, off voids, where a base may not be, and of a few
   * places to the gentlest.
   */
  private void ashore(double[] at) {
    double gentlest = roughnessAt(at);
    for (int tries = 0; tries < (gentlest < 0.3 ? 0 : gentlest < 9 ? 6 : 50); tries++) {
      double[] other = {draw.whole(1, ground.rows - 2) + 0.5, draw.whole(1, ground.cols - 2) + 0.5};
      double rough = roughnessAt(other);
      if (rough < gentlest) {
        gentlest = rough;
        System.arraycopy(other, 0, at, 0, 2);
      }
    }
  }

  /** Largest grade to a neighbour; infinite beside a void or the edge. */
  private double roughnessAt(double[] at) {
    int row = (int) at[0];
    int col = (int) at[1];
    if (row < 1 || col < 1 || row > ground.rows - 2 || col > ground.cols - 2) {
      return Double.POSITIVE_INFINITY;
    }
    double most = 0;
    double here = ground.heightM[row * ground.cols + col];
    for (int k = 0; k < 9; k++) {
      double there = ground.heightM[(row + k / 3 - 1) * ground.cols + col + k % 3 - 1];
      most = Math.max(most, Math.abs(there - here) / ground.cellXM);
    }
    return Double.isNaN(most) ? Double.POSITIVE_INFINITY : most;
  }

  private double[] coordinates(double[] spot, boolean lonLat) {
    double x = ground.x(spot[1]);
    double y = ground.y(spot[0]);
    return lonLat && !ground.degrees
        ? CrsText.read(ground.crs).toLonLat(x, y)
        : new double[] {x, y};
  }

  private Object point(double[] spot) {
    boolean lonLat = !ground.crs.isEmpty() && draw.chance(ground.degrees ? 0.8 : 0.3);
    double[] p = coordinates(spot, lonLat);
    if (!lonLat) {
      return List.of(p[0], p[1]);
    }
    Map<String, Object> point = new LinkedHashMap<>();
    point.put("lon", p[0]);
    point.put("lat", p[1]);
    return point;
  }

  private void questions() {
    RandomQuestions maker = new RandomQuestions(draw, files, vehicles, bases, places, walks);
    double acrossM = Math.max(ground.rows * ground.cellYM, ground.cols * ground.cellXM);
    List<Object> reach = new ArrayList<>();
    for (int n = draw.whole(0, 2); n > 0; n--) {
      reach.add(maker.reach("reach" + n, acrossM));
    }
    List<Object> corridors = new ArrayList<>();
    for (int n = places.size() < 2 ? 0 : draw.whole(reach.isEmpty() ? 1 : 0, 2); n > 0; n--) {
      corridors.add(maker.corridor("way" + n));
    }
    if (!reach.isEmpty()) {
      job.put("reach", reach);
    }
    if (!corridors.isEmpty()) {
      job.put("corridors", corridors);
    }
    if (draw.chance(0.2)) {
      job.put("sites", maker.sites(acrossM));
    }
    // Drawn last, so that the jobs of earlier seeds stay what they were.
    boolean cabin = vehicles.stream().noneMatch(v -> ridesInSuits(files.get(v + ".yaml")));
    if (cabin && draw.chance(0.3)) {
      List<String> targets = places.stream().filter(p -> p.startsWith("mark")).toList();
      job.put("sorties", List.of(maker.sortie("days", targets, acrossM)));
    }
  }
}
