package org.scarpway;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * The order of the packages is the architecture: a class may use those to its left, never to its
 * right.
 */
class ArchitectureTest {
  private static final List<String> ORDER =
      List.of(
          "grid", "stage", "geodata", "dem", "terrain", "hazard", "vehicle", "audit", "reach",
          "site", "report", "config", "run", "sample", "cli");

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
