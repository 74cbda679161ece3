package org.scarpway.bench;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Compares plans with runs: {@code PlanTruth DIR VEHICLE SIDE...}; see {@code plan-truth}. */
public final class PlanTruth {
  private static final double CELL_M = 5;
  private static final double STEP_M = 15;
  private static final String HEAP = "-Xmx3g";

  private final Path dir;
  private final String vehicle;
  private final Map<String, List<double[]>> timesByKind = new TreeMap<>();

  private PlanTruth(Path dir, String vehicle) {
    this.dir = dir;
    this.vehicle = vehicle;
  }

  /** A job file and what was planned and measured of its run. */
  private record Run(JsonNode plan, JsonNode record, double diskMb, long liveMb) {}

  public static void main(String[] args) throws Exception {
    PlanTruth truth = new PlanTruth(Path.of(args[0]), args[1]);
    List<Integer> sides = new ArrayList<>();
    for (int i = 2; i < args.length; i++) {
      sides.add(Integer.parseInt(args[i]));
    }
    truth.all(sides);
  }

  private void all(List<Integer> sides) throws Exception {
    List<Path> jobs = new ArrayList<>();
    for (int side : sides) {
      jobs.addAll(jobs(side));
    }
    System.out.println("plan / actual = ratio; own: from the runs of the first round");
    for (Path job : jobs) {
      Run r = run(job, job.resolveSibling("fresh-" + job.getFileName()), true);
      tell(job, "fresh", r);
      fit(r);
    }
    Path shared = dir.resolve("own");
    for (Path job : jobs) {
      run(job, shared, false);
    }
    for (Path job : jobs) {
      tell(job, "own", run(job, shared, false));
    }
    tellRates();
  }

  private void tell(Path job, String which, Run r) {
    System.out.printf(
        Locale.ROOT,
        "%-24s %-5s time s %s  disk MB %s%s%n",
        dir.relativize(job),
        which,
        ratio(r.plan.path("estimated_s").asDouble(), r.record.path("wall_s").asDouble()),
        ratio(r.plan.path("disk_mb").asDouble(), r.diskMb),
        r.liveMb == 0
            ? ""
            : "  heap MB " + ratio(r.plan.path("heap_mb").asDouble(), (double) r.liveMb));
  }

  private static String ratio(double planned, double actual) {
    return String.format(Locale.ROOT, "%.1f / %.1f = %.2f", planned, actual, planned / actual);
  }

  private List<Path> jobs(int side) throws Exception {
    Path at = Files.createDirectories(dir.resolve(String.valueOf(side)));
    LargeGround.main(new String[] {at.toString(), String.valueOf(side), vehicle, "0"});
    String ground =
        """
        scarpway: 1
        job: ground
        body: moon
        dem: {source: ground.tif}
        vehicles: [%s]
        """
            .formatted(vehicle);
    Path plain = Files.writeString(at.resolve("ground.yaml"), ground);
    // The first places on the way to the corner that the vehicle can stand on.
    double fromM = 0;
    double toM = side * CELL_M * 0.15;
    for (int attempt = 0; attempt < 40; attempt++) {
      String questions =
          String.format(
              Locale.ROOT,
              """
              bases: {middle: [%.1f, %.1f], far: [%.1f, %.1f]}
              reach:
                - {name: sortie, from: middle, budget: {drive_h: 0.5, energy_kwh: 6}, home: drive-back, bands: [10min, 30min]}
              corridors:
                - {name: way, via: [middle, far], cost: time, within_pct: [5], alternatives: 1}
              """,
              fromM,
              fromM,
              toM,
              toM);
      Path reach =
          Files.writeString(
              at.resolve("reach.yaml"), ground.replace("job: ground", "job: reach") + questions);
      Told told = process(List.of(HEAP), "org.scarpway.cli.Main", "check", reach.toString());
      if (told.code == 0) {
        return List.of(plain, reach);
      }
      fromM += told.err.contains("'middle'") ? STEP_M : 0;
      toM += told.err.contains("'far'") ? STEP_M : 0;
    }
    throw new IllegalStateException("no open place on the ground of side " + side);
  }

  private Run run(Path job, Path out, boolean heapToo) throws Exception {
    String name = job.getFileName().toString().replace(".yaml", "");
    String[] words = {"run", job.toString(), "--out", out.toString(), "--fresh", "--json"};
    Told told = process(List.of(HEAP, "-XX:+UseParallelGC"), "org.scarpway.cli.Main", words);
    JsonNode plan = null;
    // a library that the wrapper of GeoTools carries may complain first, depending on the order of
    // the jars
    for (String line : told.err.lines().filter(l -> l.startsWith("{")).toList()) {
      JsonNode event = new ObjectMapper().readTree(line);
      plan = event.path("event").asText().equals("plan") ? event : plan;
    }
    Path folder = out.resolve(name);
    JsonNode record = new ObjectMapper().readTree(folder.resolve("run.json").toFile());
    double diskMb = bytes(folder) / 1048576.0;
    long liveMb = heapToo ? live(plan.path("heap_mb").asLong(), words) : 0;
    return new Run(plan, record, diskMb, liveMb);
  }

  /** With as much heap as a refusal would name: what fronts may keep depends on it. */
  private long live(long plannedMb, String... words) throws Exception {
    String heap = "-Xmx" + (plannedMb + plannedMb / 8) + "m";
    List<String> options = List.of(heap, "-XX:+UseSerialGC", "-XX:SoftRefLRUPolicyMSPerMB=0");
    return process(options, LiveHeap.class.getName(), words)
        .err
        .lines()
        .filter(l -> l.startsWith(LiveHeap.TOLD))
        .mapToLong(l -> Long.parseLong(l.substring(LiveHeap.TOLD.length())))
        .findFirst()
        .orElseThrow();
  }

  private static long bytes(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile).mapToLong(p -> p.toFile().length()).sum();
    }
  }

  private record Told(int code, String err) {}

  private Told process(List<String> options, String main, String... words) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(options);
    command.add("-Djava.library.path=" + System.getProperty("java.library.path"));
    command.addAll(List.of("-cp", System.getProperty("java.class.path"), main));
    command.addAll(List.of(words));
    Path err = Files.createTempFile("plan-truth", ".txt");
    try {
      int code =
          new ProcessBuilder(command)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .redirectError(err.toFile())
              .start()
              .waitFor();
      return new Told(code, Files.readString(err));
    } finally {
      Files.delete(err);
    }
  }

  /** Keeps the work of each stage and its time, for the rates. */
  private void fit(Run r) {
    Map<String, Double> workByStage = new TreeMap<>();
    r.plan
        .path("stages")
        .forEach(s -> workByStage.put(s.path("stage").asText(), s.path("work").asDouble()));
    double openingS =
        r.record.path("wall_s").asDouble() - r.record.path("report").path("wall_s").asDouble();
    for (Map.Entry<String, JsonNode> e : r.record.path("stages").properties()) {
      double wallS = e.getValue().path("wall_s").asDouble();
      openingS -= wallS;
      keep(e.getKey(), workByStage.get(e.getKey()), wallS);
    }
    keep("report", workByStage.get("report"), r.record.path("report").path("wall_s").asDouble());
    keep("opening", workByStage.get("report"), openingS);
  }

  private void keep(String stage, double work, double wallS) {
    String kind = stage.split("/", 2)[0];
    timesByKind.computeIfAbsent(kind, k -> new ArrayList<>()).add(new double[] {work, wallS});
  }

  private void tellRates() {
    System.out.println("to be shipped in StageNeeds: start in s, seconds per cell of work");
    timesByKind.forEach(
        (kind, times) -> {
          double[] line = line(times);
          System.out.printf(Locale.ROOT, "%-10s %.2f, %.2e%n", kind, line[0], line[1]);
        });
  }

  /**
   * Least squares of relative errors, so that small ground counts as much as large; neither start
   * nor rate is below 0.
   */
  private static double[] line(List<double[]> times) {
    double w = 0;
    double wx = 0;
    double wxx = 0;
    double wy = 0;
    double wxy = 0;
    for (double[] t : times) {
      double weight = 1 / (t[1] * t[1]);
      w += weight;
      wx += weight * t[0];
      wxx += weight * t[0] * t[0];
      wy += weight * t[1];
      wxy += weight * t[0] * t[1];
    }
    double det = w * wxx - wx * wx;
    double rate = det > 1e-9 * w * wxx ? (w * wxy - wx * wy) / det : wxy / wxx;
    double start = (wy - rate * wx) / w;
    if (start < 0) {
      return new double[] {0, wxy / wxx};
    }
    return rate < 0 ? new double[] {wy / w, 0} : new double[] {start, rate};
  }
}
