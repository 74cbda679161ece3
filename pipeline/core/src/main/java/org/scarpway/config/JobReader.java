package org.scarpway.config;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.config.Job.HazardSettings;
import org.scarpway.config.Job.Place;
import org.scarpway.config.Job.ReportSettings;
import org.scarpway.config.Job.TargetRow;
import org.scarpway.config.Job.TargetsFile;
import org.scarpway.config.Job.TerrainSettings;
import org.scarpway.dem.DemRequest;
import org.scarpway.grid.Body;
import org.scarpway.hazard.RockCount;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.UnresolvedRule;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walker;

/**
 * Reads a job file with every vehicle, walker, soil and target file that it names. All errors are
 * reported together, one line each.
 */
public final class JobReader {
  private final YamlDoc doc;
  private final Path jobFile;
  private final Reading reading;
  private final Problems problems;

  private final Map<String, String> overrides;

  private JobReader(YamlDoc doc, Path jobFile, Map<String, String> overrides, Problems problems) {
    this.doc = doc;
    this.overrides = overrides;
    this.jobFile = jobFile;
    this.reading = new Reading(problems);
    this.problems = problems;
  }

  /**
   * Reads a job that is one run.
   *
   * @param overrides values by dotted key, such as dem.cell_size_m, that replace those of the file
   * @throws UserError with one line per problem, or if the job has a matrix of several runs
   */
  public static Job read(Path jobFile, Map<String, String> overrides) {
    List<Job> jobs = readAll(jobFile, overrides);
    if (jobs.size() > 1) {
      throw UserError.of(
          jobFile.toString(),
          "runs.matrix makes " + jobs.size() + " runs",
          "a job that is one run",
          "reduce the matrix to one vehicle and one elevation model");
    }
    return jobs.get(0);
  }

  /**
   * Reads a job and expands its matrix of runs.
   *
   * @return one or more jobs, each with a unique name
   * @throws UserError with one line per problem
   */
  public static List<Job> readAll(Path jobFile, Map<String, String> overrides) {
    return readAll(jobFile, overrides, ground -> {});
  }

  /**
   * The valid part of a job's ground and places, whatever else is wrong with the job.
   *
   * @param targets null if the job names none or they cannot be read
   */
  public record Sited(DemRequest dem, List<Place> bases, TargetsFile targets) {}

  /**
   * Reads a job and expands its matrix of runs, passing valid ground and places to {@code seen}.
   *
   * @param seen receives ground and places of every run whose ground section is valid
   */
  public static List<Job> readAll(
      Path jobFile, Map<String, String> overrides, Consumer<Sited> seen) {
    Problems problems = new Problems();
    YamlDoc doc = YamlReader.read(jobFile, jobFile.toString(), problems);
    List<Job> jobs = new ArrayList<>();
    if (doc != null) {
      Overrides.apply(doc, overrides, problems);
      spellOutFill(doc);
      ConfigSchema.JOB.check(doc, problems);
      for (YamlDoc run : MatrixRuns.expand(doc)) {
        jobs.add(new JobReader(run, jobFile, overrides, problems).job(seen));
      }
    }
    problems.throwIfAny();
    return jobs;
  }

  /** Expands the short form voids: fill to the long form with its default. */
  private static void spellOutFill(YamlDoc doc) {
    if (doc.root().path("dem") instanceof ObjectNode dem
        && dem.path("voids").asText().equals("fill")) {
      SourceLocation at = doc.at("/dem/voids");
      ObjectNode rule = dem.putObject("voids");
      rule.putObject("fill");
      doc.replacePlaces("/dem/voids", at, rule);
    }
  }

  /** Returns the job, or null if there are problems. */
  private Job job(Consumer<Sited> seen) {
    Entry job = Entry.of(doc);
    reading.given(jobFile);
    Body body = BodyReader.read(job.get("body"), jobFile, reading);
    DemRequest dem = DemSectionReader.read(job.get("dem"), body, jobFile, reading);
    TerrainSettings terrain = TerrainSectionReader.read(job.get("terrain"), dem, problems);
    HazardSettings hazard = hazard(job.get("hazard"));
    List<Vehicle> vehicles = vehicles(job.get("vehicles"));
    requireConeOnEarth(job.get("vehicles"), vehicles, body);
    requireCrawl(job.get("terrain"), terrain, vehicles);
    requireError(job.get("confidence"), dem);
    Job.SoilSettings soils =
        new SoilSectionReader(jobFile, reading).read(job.get("soils"), vehicles, body);
    Walker walker = SoilSectionReader.onWorst(walker(job.get("walker")), soils, vehicles);
    List<Place> bases = bases(job.get("bases"));
    TargetsFile targets = targets(job.get("targets"), bases, body);
    if (dem != null) {
      seen.accept(new Sited(dem, bases, targets));
    }
    ReserveSettings reserves = new ReserveSettings(job.get("reserves"), vehicles, reading);
    JobNames names = names(job, vehicles, bases, targets);
    List<Job.ReachEntry> reach =
        new ReachSectionReader(names, job.get("rescue"), reserves, walker, problems)
            .read(job.get("reach"));
    List<Job.CorridorEntry> corridors =
        new CorridorSectionReader(
                names, reserves, walker, new HomeQuestions(job.get("reach"), reach), problems)
            .read(job.get("corridors"));
    List<Job.SortieEntry> sorties =
        new SortieSectionReader(names, targets, job.get("rescue"), reserves, problems)
            .read(job.get("sorties"));
    Job.SiteSettings sites = SiteSectionReader.read(job.get("sites"), names, dem, problems);
    Job.SearchSettings search = SearchSectionReader.read(job.get("sites"), names, problems);
    LightSectionReader sky = new LightSectionReader(jobFile, body, reading);
    LightSettings light = sky.light(job.get("light"));
    ContactSettings contact = sky.contact(job.get("contact"), job.get("light"), names);
    if (!problems.isEmpty()) {
      return null;
    }
    reading.settings.addAll("", doc);
    return new Job(
        jobFile.toAbsolutePath().normalize(),
        job.get("job").text(),
        dem,
        terrain,
        hazard,
        job.number("confidence"),
        soils,
        vehicles,
        walker,
        bases,
        targets,
        reach,
        corridors,
        sorties,
        sites,
        search,
        light,
        contact,
        report(job.get("report")),
        reading.files.all(),
        reading.settings.sorted(),
        new TreeMap<>(overrides));
  }

  private static ReportSettings report(Entry report) {
    Double scale = report.get("print_scale").number();
    return new ReportSettings(
        report.number("max_mb"),
        report.get("figures").node().asBoolean(),
        scale == null ? Double.NaN : scale,
        report.get("paper").text().equals("A3"),
        report.get("print_scale").at().toString());
  }

  private HazardSettings hazard(Entry hazard) {
    Double coverage = null;
    Path raster = null;
    Entry rocks = hazard.get("rock_coverage");
    if (rocks.sound() && rocks.isText()) {
      Found file = reading.files.one(jobFile, rocks, problems);
      raster = file == null ? null : file.real();
    } else if (rocks.sound()) {
      coverage = rocks.number();
    }
    RockCount counts = rockCounts(hazard.get("rock_counts"));
    Double noData = numberOrWord(hazard.get("rock_no_data"));
    requireFitted(rocks, coverage, counts);
    requireFitted(hazard.get("rock_no_data"), noData, counts);
    List<Path> keepOut = new ArrayList<>();
    for (Entry entry : hazard.get("keep_out").items()) {
      Found file = entry.sound() ? reading.files.one(jobFile, entry, problems) : null;
      if (file != null) {
        keepOut.add(file.real());
      }
    }
    return new HazardSettings(
        coverage,
        raster,
        counts,
        noData,
        numberOrWord(hazard.get("rock_slow_m")),
        numberOrWord(hazard.get("rock_no_go_m")),
        keepOut,
        hazard.get("margin_m").node().doubleValue(),
        numberOrWord(hazard.get("min_gap_m")),
        numberOrWord(hazard.get("turning_m")));
  }

  private static RockCount rockCounts(Entry counts) {
    return counts.isMapping() && counts.sound() && counts.get("above_m").sound()
        ? new RockCount(counts.number("above_m"), counts.get("exponent").number())
        : RockCount.ALL;
  }

  private void requireFitted(Entry entry, Double coverage, RockCount counts) {
    if (coverage != null && coverage > counts.most()) {
      problems.add(
          entry.at(),
          entry.name() + " = " + entry.text(),
          Digits.text("at most %s, for which the law of rocks was fitted", counts.most()),
          "lower it, or state by rock_counts what it counts");
    }
  }

  private static Double numberOrWord(Entry entry) {
    return entry.isText() ? null : entry.number();
  }

  private List<Vehicle> vehicles(Entry list) {
    if (!list.present()) {
      problems.add(
          Entry.of(doc).at(),
          "key vehicles is missing",
          "a list of at least one vehicle file",
          "add vehicles");
    }
    List<Vehicle> vehicles = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Entry entry : list.items()) {
      Found file = entry.sound() ? reading.files.one(jobFile, entry, problems) : null;
      Vehicle vehicle = file == null ? null : VehicleReader.read(file, reading);
      if (vehicle == null) {
        continue;
      }
      if (!seen.add(vehicle.name())) {
        problems.add(
            entry.at(),
            "vehicle " + Problems.quote(vehicle.name()) + " is listed twice",
            "every vehicle once, each with a name of its own",
            "remove one or rename the vehicle in its file");
      }
      requireSameSoil(vehicle, vehicles, entry);
      vehicles.add(vehicle);
    }
    return vehicles;
  }

  /**
   * Refuses two files that give one soil name different parameters: reports could not tell them
   * apart.
   */
  private void requireSameSoil(Vehicle vehicle, List<Vehicle> before, Entry entry) {
    for (Vehicle other : before) {
      if (vehicle.soil() != null
          && other.soil() != null
          && vehicle.soil().name().equals(other.soil().name())
          && !vehicle.soil().equals(other.soil())) {
        problems.add(
            entry.at(),
            "vehicles "
                + other.name()
                + " and "
                + vehicle.name()
                + " name different soils called "
                + vehicle.soil().name(),
            "one soil per name",
            "rename one of them in its file");
      }
    }
  }

  /**
   * Refuses a cone index on other bodies: it is a penetrometer reading under Earth's gravity and is
   * not valid elsewhere.
   */
  private void requireConeOnEarth(Entry list, List<Vehicle> vehicles, Body body) {
    for (Vehicle vehicle : vehicles) {
      if (body != null
          && vehicle.soil() != null
          && vehicle.soil().ratingConeIndex() != null
          && Math.abs(body.gravityMs2() - Body.EARTH.gravityMs2()) > 0.1) {
        problems.add(
            list.at(),
            "soil " + vehicle.soil().name() + " of vehicle " + vehicle.name() + " has a cone index",
            "bekker and shear on a body other than Earth",
            "name another soil in the vehicle's file");
      }
    }
  }

  /**
   * Requires the crawl speed if needed: ground is driven at crawl speed where it is slow because
   * the cells do not resolve a limit.
   */
  private void requireCrawl(Entry entry, TerrainSettings terrain, List<Vehicle> vehicles) {
    if (terrain == null || terrain.unresolved() != UnresolvedRule.SLOW) {
      return;
    }
    for (Vehicle vehicle : vehicles) {
      if (vehicle.drive() != null && vehicle.drive().crawlMs() == null) {
        problems.add(
            entry.get("unresolved").at(),
            "unresolved: slow, and vehicle " + vehicle.name() + " has no crawl speed",
            "drive.crawl_ms in every vehicle",
            "add it to the vehicle's file, or set say or no-go");
      }
    }
  }

  /**
   * Requires a height error if the job states a confidence: there is no probability without an
   * error.
   */
  private void requireError(Entry confidence, DemRequest dem) {
    boolean given = !doc.origin(confidence.pointer()).equals(YamlDoc.DEFAULT);
    if (given && dem != null && dem.verticalSigmaM() == null) {
      problems.add(
          confidence.at(),
          "confidence without dem.vertical_sigma_m",
          "the height error against which limits shall hold",
          "add dem.vertical_sigma_m, or remove confidence");
    }
  }

  private Walker walker(Entry entry) {
    Found file = entry.sound() ? reading.files.one(jobFile, entry, problems) : null;
    return file == null ? null : WalkerReader.read(file, reading);
  }

  private List<Place> bases(Entry bases) {
    List<Place> places = new ArrayList<>();
    for (Entry base : bases.isMapping() ? bases.members() : List.<Entry>of()) {
      if (!PlaceNames.isFit(base.name())) {
        problems.add(
            base.keyAt(), "base " + Problems.quote(base.name()), PlaceNames.RULE, "rename it");
      } else if (base.sound()) {
        Point p = Point.of(base);
        places.add(new Place(base.name(), p.x(), p.y(), p.lonLat(), base.at().toString()));
      }
    }
    return places;
  }

  private TargetsFile targets(Entry entry, List<Place> bases, Body body) {
    Found file = entry.sound() ? reading.files.one(jobFile, entry, problems) : null;
    List<TargetRow> rows = file == null ? null : TargetsReader.read(file, body, problems);
    if (rows == null) {
      return null;
    }
    for (TargetRow row : rows) {
      String name = row.place().name();
      if (bases.stream().anyMatch(b -> b.name().equals(name))) {
        problems.add(
            entry.at(),
            "target "
                + Problems.quote(name)
                + " ("
                + row.place().where()
                + ") has the name of a base",
            "names that differ",
            "rename one of them");
      }
    }
    return new TargetsFile(file.real(), entry.at().toString(), rows);
  }

  private JobNames names(
      Entry job, List<Vehicle> vehicles, List<Place> bases, TargetsFile targets) {
    Map<String, Vehicle> byName = new LinkedHashMap<>();
    vehicles.forEach(v -> byName.putIfAbsent(v.name(), v));
    Set<String> baseNames = new HashSet<>();
    bases.forEach(b -> baseNames.add(b.name()));
    // A base with an invalid position still defines its name.
    job.get("bases").members().forEach(b -> baseNames.add(b.name()));
    Set<String> targetNames = new HashSet<>();
    if (targets != null) {
      targets.rows().forEach(r -> targetNames.add(r.place().name()));
    }
    boolean complete =
        vehicles.size() == job.get("vehicles").items().size()
            && !vehicles.isEmpty()
            && (!job.has("targets") || targets != null);
    return new JobNames(baseNames, targetNames, byName, job.has("walker"), complete);
  }
}
