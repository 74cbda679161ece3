package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job.SoilSettings;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.SoilMap;

/** Soils by place in a job file: what is read, and what is refused with its place. */
class SoilSectionTest {
  @TempDir Path dir;
  private JobFolder folder;

  @BeforeEach
  void soils() {
    folder = new JobFolder(dir);
    folder.write("classes.tif", "");
    folder.write("walls.geojson", "{}");
    folder.write("weak.yaml", JobFolder.SOIL.replace("loose", "weak").replace("170", "20"));
    folder.write("clay.yaml", "soil: clay\ncone: {rci: 48}\n");
  }

  private SoilSettings read(String soils) {
    folder.write("job.yaml", JobFolder.JOB + soils + "\n");
    return JobReader.read(folder.job(), Map.of()).soils();
  }

  private String refusal(String soils) {
    return assertThrows(UserError.class, () -> read(soils)).getMessage();
  }

  @Test
  void rasterClassesAndAreas() {
    SoilSettings s =
        read(
            "soils: {raster: classes.tif, classes: {3: weak.yaml, -1: soil.yaml},"
                + " areas: [{polygons: walls.geojson, soil: weak.yaml}]}");
    assertEquals("classes.tif", s.raster().getFileName().toString());
    assertEquals(3, s.classes().get(0).value());
    assertEquals("weak", s.classes().get(0).soil().name());
    assertEquals(20, s.classes().get(0).soil().shear().cohesionPa());
    assertEquals(-1, s.classes().get(1).value());
    assertEquals("loose", s.classes().get(1).soil().name());
    assertEquals("walls.geojson", s.areas().get(0).polygons().getFileName().toString());
  }

  @Test
  void whatIsNotKnownHasNoVerdictUnlessTheJobSaysSo() {
    SoilSettings s = read("soils: {raster: classes.tif, classes: {3: weak.yaml, 0: vehicle}}");
    assertEquals(SoilMap.Unknown.NO_VERDICT, s.noData());
    assertNull(s.classes().get(1).soil(), "the vehicle's own soil, because the job names it");
    assertEquals(
        SoilMap.Unknown.WORST,
        read("soils: {raster: classes.tif, classes: {3: weak.yaml}, no_data: worst}").noData());
    assertTrue(
        refusal("soils: {raster: classes.tif, classes: {3: weak.yaml}, no_data: vehicle}")
            .contains("no_data"));
  }

  /** The wheels of the rover are 0.35 m wide: nothing bears them from kc = -0.35 kphi on. */
  @Test
  void aSoilThatBearsNoWheelIsRefusedWhereverItIsNamed() {
    String weak = "soils: {areas: [{polygons: walls.geojson, soil: weak.yaml}]}";
    folder.write("weak.yaml", "soil: weak\nbekker: {n: 1, kc: -34999, kphi: 100000}\n");
    assertEquals("weak", read(weak).areas().get(0).soil().name());
    folder.write("weak.yaml", "soil: weak\nbekker: {n: 1, kc: -35000, kphi: 100000}\n");
    assertTrue(refusal(weak).contains("soil weak bears no wheel of vehicle rover"));
    folder.spoil("rover.yaml", "soil: soil.yaml", "soil: weak.yaml");
    assertTrue(refusal("").contains("soil weak bears no wheel 0.35 m wide"));
  }

  @Test
  void halfARasterIsRefused() {
    assertTrue(refusal("soils: {raster: classes.tif}").contains("raster without classes"));
    assertTrue(refusal("soils: {classes: {1: weak.yaml}}").contains("classes without a raster"));
    assertTrue(refusal("soils: {}").contains("soils is empty"));
  }

  @Test
  void whatIsNotThereIsNamed() {
    String message =
        refusal("soils: {raster: nowhere.tif, classes: {1: weak.yaml, 2: missing.yaml}}");
    assertTrue(message.contains("nowhere.tif") && message.contains("missing.yaml"), message);
    assertTrue(
        refusal("soils: {areas: [{polygons: gone.geojson, soil: weak.yaml}]}")
            .contains("gone.geojson"));
  }

  @Test
  void classesAreWholeNumbers() {
    String message = refusal("soils: {raster: classes.tif, classes: {sand: weak.yaml}}");
    assertTrue(message.contains("a whole number"), message);
    assertTrue(message.contains("job.yaml:"), message);
  }

  @Test
  void oneNameHasOneSetOfNumbers() {
    folder.write("other.yaml", JobFolder.SOIL.replace("170", "500"));
    String message = refusal("soils: {areas: [{polygons: walls.geojson, soil: other.yaml}]}");
    assertTrue(message.contains("another soil of the job is called loose"), message);
  }

  @Test
  void coneIndexIsForEarth() {
    String message = refusal("soils: {areas: [{polygons: walls.geojson, soil: clay.yaml}]}");
    assertTrue(message.contains("soil clay has a cone index"), message);
  }
}
