package org.scarpway;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The order of the packages is the architecture: a class may use those to its left, never to its
 * right. So it is with the rooms inside a package, and no two classes know each other. Of a package
 * with rooms the others see its doors only.
 */
class ArchitectureTest {
  private static final List<String> ORDER =
      List.of(
          "grid", "stage", "geodata", "dem", "terrain", "light", "hazard", "vehicle", "audit",
          "reach", "sortie", "site", "drawing", "report", "config", "run", "sample", "cli");

  /** Rooms of packages that have some; the classes of the package itself come last. */
  private static final Map<String, List<String>> ROOMS =
      Map.of(
          "geodata",
          List.of("projection", "crs", "file", "tiff", "raster", "vector", "table"),
          "reach",
          List.of("question", "front", "clearance", "corridor", "trip", "survey"),
          "run",
          List.of(
              "product",
              "store",
              "ground",
              "unit",
              "plan",
              "progress",
              "closing",
              "replan",
              "begin",
              "compare"));

  /** What others may use of such a package: whole rooms or single classes. */
  static final Map<String, Set<String>> DOORS =
      Map.of(
          "geodata",
          Set.of(
              "crs.CrsText",
              "crs.CrsWriter",
              "crs.DatumShift",
              "crs.LonLat",
              "crs.MapCrs",
              "crs.RedrawnMap",
              "crs.TrueNorth",
              "crs.UtmZone",
              "crs.WorldMap",
              "file.AtomicFileWrite",
              "raster.RasterHeader",
              "raster.RasterIo",
              "raster.RasterIos",
              "table.Column",
              "table.CsvRows",
              "table.CsvTable",
              "tiff.BandInfo",
              "tiff.CellKind",
              "tiff.RasterRows",
              "tiff.RasterSink",
              "vector.AreaWords",
              "vector.CellPolygons",
              "vector.CellSet",
              "vector.Feature",
              "vector.GeoJson",
              "vector.GeoPackage",
              "vector.Gpx",
              "vector.LayerData",
              "vector.PolygonFile",
              "vector.PolygonReader"),
          "reach",
          Set.of(
              "question.*",
              "corridor.CorridorAnswer",
              "corridor.CorridorSolver",
              "corridor.RouteCurve",
              "survey.*",
              "trip.AreaScreen",
              "trip.CampRingsSolver",
              "trip.DayRingsSolver",
              "trip.OpenPlaces",
              "trip.PlaceWays",
              "trip.ReachAnswer",
              "trip.ReachSolver",
              "trip.ReplanSolver",
              "trip.RingsAnswer",
              "trip.StoredWays",
              "trip.TurnBackTimes",
              "trip.WhyNotSearch"),
          "run",
          Set.of(
              "ExplainPlace",
              "JobCheck",
              "JobRuns",
              "PlanPrinter",
              "begin.FirstJob",
              "begin.FirstPicture",
              "compare.CompareRuns",
              "plan.ProgressStyle",
              "plan.RunOptions",
              "replan.ReplanOptions",
              "replan.ReplanRun",
              "store.Version"));

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("org.scarpway");

  @Test
  void dataFlowsOneWay() {
    for (int i = 0; i < ORDER.size(); i++) {
      for (int j = i + 1; j < ORDER.size(); j++) {
        noClasses()
            .that(resideInAPackage("org.scarpway." + ORDER.get(i) + ".."))
            .should()
            .dependOnClassesThat(resideInAPackage("org.scarpway." + ORDER.get(j) + ".."))
            .check(CLASSES);
      }
    }
  }

  @Test
  void everyClassLivesInAListedPackage() {
    TreeSet<String> found = new TreeSet<>();
    for (JavaClass c : CLASSES) {
      String rest = c.getPackageName().substring("org.scarpway".length());
      found.add(rest.isEmpty() ? "(root)" : rest.substring(1).split("\\.")[0]);
    }
    assertEquals(new TreeSet<>(ORDER), found, "packages listed and found differ");
  }

  @Test
  void roomsKnowThoseBeforeThem() {
    ROOMS.forEach(
        (name, rooms) -> {
          String in = "org.scarpway." + name;
          for (int i = 0; i < rooms.size(); i++) {
            String[] later =
                Stream.concat(
                        Stream.of(in),
                        rooms.subList(i + 1, rooms.size()).stream().map(r -> in + "." + r))
                    .toArray(String[]::new);
            noClasses()
                .that()
                .resideInAPackage(in + "." + rooms.get(i))
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(later)
                .check(CLASSES);
          }
        });
  }

  @Test
  void everyRoomIsListed() {
    ROOMS.forEach(
        (name, rooms) -> {
          Set<String> found = new TreeSet<>();
          for (JavaClass c : CLASSES) {
            if (c.getPackageName().startsWith("org.scarpway." + name + ".")) {
              found.add(c.getPackageName().substring(("org.scarpway." + name + ".").length()));
            }
          }
          assertEquals(new TreeSet<>(rooms), found, "rooms of " + name);
        });
  }

  @Test
  void othersComeThroughTheDoors() {
    Set<String> past = new TreeSet<>();
    for (JavaClass c : CLASSES) {
      for (Dependency d : c.getDirectDependenciesFromSelf()) {
        String to = top(d.getTargetClass());
        DOORS.forEach(
            (name, doors) -> {
              String in = "org.scarpway." + name + ".";
              if (to.startsWith(in) && !c.getName().startsWith(in)) {
                String type = to.substring(in.length());
                int dot = type.lastIndexOf('.');
                if (!doors.contains(type) && !doors.contains(type.substring(0, dot + 1) + "*")) {
                  past.add(top(c) + " uses " + to);
                }
              }
            });
      }
    }
    assertTrue(past.isEmpty(), "past the doors: " + past);
  }

  private static String top(JavaClass c) {
    String name = c.getBaseComponentType().getName();
    int nested = name.indexOf('$');
    return nested < 0 ? name : name.substring(0, nested);
  }

  @Test
  void noTwoClassesKnowEachOther() {
    Map<String, Set<String>> uses = new TreeMap<>();
    for (JavaClass c : CLASSES) {
      Set<String> own = uses.computeIfAbsent(top(c), k -> new TreeSet<>());
      for (Dependency d : c.getDirectDependenciesFromSelf()) {
        String to = top(d.getTargetClass());
        if (to.startsWith("org.scarpway.") && !to.equals(top(c))) {
          own.add(to);
        }
      }
    }
    // Classes that use none of those that are left are taken away until no more are.
    boolean less = true;
    while (less) {
      less = uses.entrySet().removeIf(e -> e.getValue().stream().noneMatch(uses::containsKey));
    }
    assertTrue(uses.isEmpty(), "on circles, or using such: " + uses.keySet());
  }

  @Test
  void noCycles() {
    slices().matching("org.scarpway.(**)").should().beFreeOfCycles().check(CLASSES);
  }

  @Test
  void onlyGeodataNamesRasterLibraries() {
    noClasses()
        .that()
        .resideOutsideOfPackage("org.scarpway.geodata..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "org.gdal..",
            "org.geotools..",
            "mil.nga..",
            "org.locationtech.proj4j..",
            "org.sqlite..")
        .check(CLASSES);
  }

  @Test
  void everyPackageSaysItsJob() throws Exception {
    Path main =
        Path.of(System.getProperty("scarpway.root", "../.."), "pipeline/core/src/main/java");
    List<Path> silent = new ArrayList<>();
    try (var files = Files.walk(main)) {
      files
          .filter(p -> p.toString().endsWith(".java"))
          .map(Path::getParent)
          .distinct()
          .filter(d -> !Files.exists(d.resolve("package-info.java")))
          .forEach(silent::add);
    }
    assertTrue(silent.isEmpty(), "packages without package-info.java: " + silent);
  }
}
