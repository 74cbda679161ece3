package org.scarpway.run;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.JobReader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.plan.JobPlan;
import org.scarpway.run.plan.JobPlan.State;
import org.scarpway.run.plan.ProgressStyle;
import org.scarpway.run.plan.RunOptions;
import org.scarpway.run.plan.StageWork;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.SmallStage;
import org.scarpway.run.unit.PlaceGround;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/**
 * Places on level ground pass; those on a slope of 40 degrees, in a void or in keep-out ground are
 * refused before anything is written. The vehicle climbs 20 degrees and its walker walks 20.
 */
class PreflightTest {
  private static final Path ROOT =
      Path.of(System.getProperty("scarpway.root", "../..")).toAbsolutePath().normalize();

  /** Level in the west, 40 degrees up to the east from column 32 on. */
  private static final GridSpec SPEC = new GridSpec(65, 65, 5, 5, 500, 90_000, "");

  private static final String BASES =
      "bases: {level: %s, wall: %s, hole: %s, yard: %s}\n"
          .formatted(at(30, 15), at(30, 50), at(55, 10), at(10, 15));

  @TempDir Path dir;
  private Workers workers;

  @BeforeEach
  void open() {
    workers = new Workers(1);
  }

  @AfterEach
  void close() {
    workers.close();
  }

  private static String at(int row, int col) {
    return "[" + SPEC.xM(col) + ", " + SPEC.yM(row) + "]";
  }

  private OpenJob job(String more) throws IOException {
    float[] z = new float[SPEC.cells()];
    for (int i = 0; i < z.length; i++) {
      int row = i / SPEC.cols();
      int col = i % SPEC.cols();
      z[i] = (float) (5 * Math.max(0, col - 32) * Math.tan(Math.toRadians(40)));
      z[i] = Math.abs(row - 55) < 4 && Math.abs(col - 10) < 4 ? Float.NaN : z[i];
    }
    RasterIo io = RasterIos.pureJava();
    io.write(dir.resolve("z.tif"), new FloatGrid(SPEC, z), BandInfo.of("height", "m"));
    String ring =
        at(7, 12) + "," + at(7, 18) + "," + at(13, 18) + "," + at(13, 12) + "," + at(7, 12);
    Files.writeString(
        dir.resolve("yard.geojson"),
        """
        {"type": "Feature", "scarpway:coordinates": "projected", "properties": {},
         "geometry": {"type": "Polygon", "coordinates": [[%s]]}}
        """
            .formatted(ring));
    Files.writeString(
        dir.resolve("targets.csv"),
        "name,x,y\nnear,%f,%f\nhigh,%f,%f\n"
            .formatted(SPEC.xM(20), SPEC.yM(35), SPEC.xM(55), SPEC.yM(35)));
    Path file =
        Files.writeString(
            dir.resolve("job.yaml"),
            """
            scarpway: 1
            job: before
            body: moon
            dem: {source: z.tif, units: metres}
            hazard: {keep_out: [yard.geojson], margin_m: 0}
            vehicles: [%1$s/configs/vehicles/open-buggy.yaml]
            walker: %1$s/configs/walkers/suited-lunar.yaml
            """
                    .formatted(ROOT)
                + more);
    return OpenJob.open(
        JobReader.read(file, Map.of()), io, new FileDigests(), workers, Progress.NONE);
  }

  private static List<String> mistakes(OpenJob open) {
    return Preflight.mistakes(open, new PlaceGround(open));
  }

  private static String question(String name, String from, String more) {
    return "  - {name: %s, from: %s, budget: {drive_h: 1}, bands: [10min]%s}\n"
        .formatted(name, from, more);
  }

  private static final String HOME = ", home: drive-back";

  private static void assertTold(String line, String... parts) {
    for (String p : parts) {
      assertTrue(line.contains(p), p + " in: " + line);
    }
    assertTrue(line.contains("; expected ground that can be left; move it, or run"), line);
  }

  @Test
  void placesOnLevelGroundPassAndPlacesThatNobodyAsksOfAreNotLookedAt() throws IOException {
    assertEquals(List.of(), mistakes(job(BASES + "reach:\n" + question("a", "level", HOME))));
  }

  @Test
  void everyPlaceThatItsVehicleCannotLeaveIsToldOnce() throws IOException {
    List<String> lines =
        mistakes(
            job(
                BASES
                    + "reach:\n"
                    + question("a", "wall", HOME)
                    + question("b", "wall", HOME)
                    + question("c", "hole", HOME)
                    + question("d", "yard", HOME)
                    + "corridors: [{name: way, via: [level, wall, yard], cost: time}]\n"));
    assertEquals(3, lines.size(), lines::toString);
    assertTold(lines.get(0), "job.yaml:", "'wall' at ", " is no-go ground for open-buggy: ");
    assertTold(lines.get(1), "'hole' at ", "ground without a verdict for open-buggy: no elevation");
    assertTold(lines.get(2), "'yard' at ", "no-go ground for open-buggy: keep-out area");
  }

  @Test
  void stopsOfCorridorsAndCandidatesOfSitesAreBasesToo() throws IOException {
    List<String> way =
        mistakes(
            job(
                BASES
                    + "corridors: [{name: way, via: [level, high], cost: time}]\n"
                    + "targets: targets.csv\n"));
    assertEquals(1, way.size(), way::toString);
    assertTold(way.get(0), "targets.csv:", "'high' at ", "no-go ground for open-buggy");
    List<String> site =
        mistakes(
            job(
                BASES
                    + "reach:\n"
                    + question("a", "level", HOME)
                    + "sites: {candidates: [level, hole], ellipse_m: [20, 10]}\n"));
    assertEquals(1, site.size(), site::toString);
    assertTold(site.get(0), "'hole' at ", "for open-buggy: no elevation");
  }

  @Test
  void refugesMustBeWalkableAndNeedNotBeDrivable() throws IOException {
    String reach = "reach:\n" + question("a", "level", ", home: walk-back, refuges: [%s]");
    assertEquals(List.of(), mistakes(job(BASES + reach.formatted("level"))));
    List<String> lines = mistakes(job(BASES + reach.formatted("wall")));
    assertEquals(1, lines.size(), lines::toString);
    assertTold(lines.get(0), "'wall' at ", " is ground that cannot be walked");
    List<String> both =
        mistakes(job(BASES + "reach:\n" + question("a", "wall", ", home: walk-back")));
    assertEquals(1, both.size(), both::toString);
    assertTold(both.get(0), "no-go ground for open-buggy: ", ", and ground that cannot be walked");
  }

  @Test
  void targetsOnNoGoGroundAreToldNotRefused() throws IOException {
    OpenJob open = job(BASES + "targets: targets.csv\nreach:\n" + question("a", "level", HOME));
    assertEquals(List.of(), mistakes(open));
    List<String> dead = Preflight.deadTargets(open, new PlaceGround(open));
    assertEquals(1, dead.size(), dead::toString);
    assertTrue(
        dead.get(0).startsWith("target 'high' is on no-go ground for open-buggy: "), dead.get(0));
  }

  /** 65 places of 5 m a side are 4225; 5 m times the root of 4225 / 4000 is 5.14 m. */
  @Test
  void aSearchLooksAtCellsOrMoreAndAtNoMoreThanItCan() throws IOException {
    String search = BASES + "sites: {search: {spacing_m: %s, time_h: 1, keep: 3}}\n";
    assertEquals(List.of(), mistakes(job(search.formatted("6"))));
    List<String> many = mistakes(job(search.formatted("5")));
    assertEquals(1, many.size(), many::toString);
    assertTrue(
        many.get(0)
            .endsWith(
                ": 4225 places 5.0 m apart; expected at most 4000; set sites.search.spacing_m to 6"
                    + " or more, or a smaller dem.window"),
        many.get(0));
    List<String> fine = mistakes(job(search.formatted("4.9")));
    assertEquals(1, fine.size(), fine::toString);
    assertTrue(
        fine.get(0).contains(": spacing_m = 4.9; expected at least a cell of 5.0 x 5.0 m;"),
        fine.get(0));
  }

  private static JobPlan plan(State state, long heapMb) {
    StageWork work = new StageWork("a stage", "terrain", 1, 1);
    JobPlan.Row row = new JobPlan.Row("terrain", state, 1, work, 1, 1, List.of());
    return new JobPlan("before", List.of(row), row, 0, heapMb, 1000, 1, 0, "");
  }

  private RunOptions options(boolean tryAnyway) {
    Path out = dir.resolve("out");
    return new RunOptions(out, 1, false, ProgressStyle.quiet, null, 0, tryAnyway, false, Map.of());
  }

  @Test
  void aRunIsRefusedBeforeAnythingIsWritten() throws IOException {
    OpenJob bad = job(BASES + "reach:\n" + question("a", "hole", HOME));
    UserError e =
        assertThrows(
            UserError.class,
            () ->
                Preflight.require(
                    bad, () -> new PlaceGround(bad), plan(State.RUN, 1), options(false)));
    assertTrue(e.getMessage().contains("'hole'"), e.getMessage());
    // What no stage runs for was looked at before.
    assertDoesNotThrow(
        () ->
            Preflight.require(
                bad, () -> new PlaceGround(bad), plan(State.HERE, 1), options(false)));
    OpenJob good = job(BASES + "reach:\n" + question("a", "level", HOME));
    assertThrows(
        UserError.class,
        () ->
            Preflight.require(
                good, () -> new PlaceGround(good), plan(State.RUN, 2000), options(false)));
    assertDoesNotThrow(
        () ->
            Preflight.require(
                good, () -> new PlaceGround(good), plan(State.RUN, 2000), options(true)));
    assertEquals(Set.of(), SmallStage.files(dir.resolve("out")));
    SmallStage.put(dir.resolve("out/before/terrain"), "mine");
    assertThrows(
        UserError.class,
        () ->
            Preflight.require(
                good, () -> new PlaceGround(good), plan(State.HERE, 1), options(true)));
  }
}
