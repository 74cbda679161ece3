package org.scarpway.flow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * A small random job: hills, a scarp, a hollow, voids; a vehicle, a walker, rocks, questions by
 * every home rule, targets with stays of their own. All of it follows from the seed.
 */
final class SeededJob {
  static final int ROWS = 70;
  static final int COLS = 80;
  private static final double WEST = 1000;
  private static final double SOUTH = 2000;
  private static final double[] CELLS_M = {1, 2, 5, 12, 30};

  private final Random random;
  final double cellM;
  final Path file;

  private SeededJob(Path folder, long seed) throws IOException {
    random = new Random(seed);
    cellM = CELLS_M[random.nextInt(CELLS_M.length)];
    file = folder.resolve("job.yaml");
    ground(folder.resolve("ground.asc"));
    vehicle(folder, "buggy", "open-buggy");
    vehicle(folder, "rover", "pressurised-rover");
    Files.writeString(folder.resolve("targets.csv"), targets());
    Files.writeString(file, job());
  }

  /** Writes all files of the job into the folder. */
  static SeededJob write(Path folder, long seed) throws IOException {
    return new SeededJob(Files.createDirectories(folder), seed);
  }

  double x() {
    return WEST + random.nextDouble() * COLS * cellM;
  }

  double y() {
    return SOUTH + random.nextDouble() * ROWS * cellM;
  }

  int cellOf(double x, double y) {
    int row = (int) Math.floor((SOUTH + ROWS * cellM - y) / cellM);
    return row * COLS + (int) Math.floor((x - WEST) / cellM);
  }

  /** A place in the middle part of the ground. */
  private String inner() {
    return String.format(
        Locale.ROOT,
        "%.2f, %.2f",
        WEST + (0.35 + 0.3 * random.nextDouble()) * COLS * cellM,
        SOUTH + (0.35 + 0.3 * random.nextDouble()) * ROWS * cellM);
  }

  private void ground(Path to) throws IOException {
    double steep = 0.02 + 0.25 * random.nextDouble();
    double[][] waves = new double[7][];
    for (int k = 0; k < waves.length; k++) {
      double turn = 2 * Math.PI * random.nextDouble();
      double cells = 5 + 60 * random.nextDouble();
      double phase = 2 * Math.PI * random.nextDouble();
      double m = steep * cells * cellM / 2 / Math.PI / Math.sqrt(waves.length);
      waves[k] =
          new double[] {
            2 * Math.PI / cells * Math.cos(turn), 2 * Math.PI / cells * Math.sin(turn), phase, m
          };
    }
    double roughM = 0.02 * cellM * random.nextDouble();
    int scarpCol = 5 + random.nextInt(20);
    double scarpM = 0.8 * cellM * random.nextDouble();
    StringBuilder text = new StringBuilder();
    text.append("ncols ").append(COLS).append("\nnrows ").append(ROWS);
    text.append("\nxllcorner ").append(WEST).append("\nyllcorner ").append(SOUTH);
    text.append("\ncellsize ").append(cellM).append("\nNODATA_value -9999\n");
    for (int row = 0; row < ROWS; row++) {
      for (int col = 0; col < COLS; col++) {
        double z = roughM * random.nextGaussian();
        for (double[] w : waves) {
          z += w[3] * Math.sin(w[0] * col + w[1] * row + w[2]);
        }
        z += col < scarpCol && row > 10 ? scarpM : 0;
        boolean hole = Math.hypot(row - 12, col - 60) < 3;
        text.append(hole ? "-9999" : String.format(Locale.ROOT, "%.3f", z));
        text.append(col < COLS - 1 ? ' ' : '\n');
      }
    }
    Files.writeString(to, text);
  }

  private static void vehicle(Path folder, String name, String shipped) throws IOException {
    Path configs = Flow.ROOT.resolve("configs");
    String text = Files.readString(configs.resolve("vehicles/" + shipped + ".yaml"));
    Files.writeString(
        folder.resolve(name + ".yaml"),
        text.replace("vehicle: " + shipped, "vehicle: " + name)
            .replace("../soils/", configs.resolve("soils") + "/"));
  }

  private String targets() {
    StringBuilder text = new StringBuilder("name,x,y,weight,stay_min,walk_count\n");
    for (int k = 1; k <= 6; k++) {
      text.append("t").append(k).append(',').append(inner().replace(" ", "")).append(",1,");
      text.append(random.nextBoolean() ? 0 : 1 + random.nextInt(90)).append(",1\n");
    }
    return text.toString();
  }

  private String job() {
    String home = List.of("none", "drive-back", "walk-back").get(random.nextInt(3));
    double hours = 20 * cellM / 3600 * (1 + 3 * random.nextDouble());
    return String.format(
        Locale.ROOT,
        """
        scarpway: 1
        job: seeded
        body: moon
        dem: {source: ground.asc, units: metres, voids: %s}
        terrain: {slope: %s}
        hazard: {rock_coverage: %.3f, min_gap_m: %.2f}
        vehicles: [buggy.yaml, rover.yaml]
        walker: %s
        bases: {camp: [%s], depot: [%s]}
        targets: targets.csv
        reach:
          - {name: far, from: camp, budget: {drive_h: %.4f}, home: %s, bands: [%ds], stay: %ds}
          - {name: near, from: depot, vehicle: %s, budget: {distance_km: %.3f}, home: drive-back}
        corridors:
          - {name: tour, start: camp, stops: [t1, t2], end: depot, alternatives: 0}
        """,
        random.nextBoolean() ? "no-go" : "{fill: {max_gap_cells: 2, sure: true}}",
        List.of("horn", "footprint-plane", "evans-young").get(random.nextInt(3)),
        0.1 * random.nextDouble(),
        cellM * 3 * random.nextDouble(),
        Flow.ROOT.resolve("configs/walkers/suited-lunar.yaml"),
        inner(),
        inner(),
        hours,
        home,
        1 + (int) (hours * 1800),
        (int) (hours * 3600 * 0.4 * random.nextDouble()),
        random.nextBoolean() ? "buggy" : "rover",
        cellM * (10 + 80 * random.nextDouble()) / 1000);
  }
}
