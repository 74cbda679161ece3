package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job.Setting;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.grid.Body;
import org.scarpway.hazard.RockCount;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.site.SearchParams;
import org.scarpway.stage.UserError;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

class JobReaderTest {
  private static final String MINIMAL =
      """
      scarpway: 1
      job: least
      body: mars
      dem: {source: ground.tif}
      vehicles: [buggy.yaml]
      """;

  private static final String ALPHA =
      """
      bases:
        alpha: [1200, 1800]
      """;

  @TempDir Path dir;
  private JobFolder folder;

  @BeforeEach
  void write() {
    folder = new JobFolder(dir);
  }

  private Job read() {
    return JobReader.read(folder.job(), Map.of());
  }

  private String refusal(Map<String, String> overrides) {
    return assertThrows(UserError.class, () -> JobReader.read(folder.job(), overrides))
        .getMessage();
  }

  private static Setting setting(Job job, String key) {
    return job.effective().stream().filter(s -> s.key().equals(key)).findFirst().orElseThrow();
  }

  @Test
  void suitsCountWhereTheVehicleIsRiddenInThem() {
    assertNull(read().reach().get(1).budget().suits());
    folder.spoil(
        "buggy.yaml",
        "drive: {speed_ms: 2.5}",
        "drive: {speed_ms: 2.5}\ncrew: {seats: 2, suited: true}");
    Job job = read();
    assertNull(job.reach().get(0).budget().suits());
    assertEquals(new ReachRequest.Suits(8 * 3600, 3600), job.reach().get(1).budget().suits());
  }

  @Test
  void aFullJobArrivesInSiUnits() {
    Job job = read();
    assertEquals("north-bench", job.name());
    assertEquals(Body.MOON, job.dem().body());
    assertEquals(List.of(real("ground.tif")), job.dem().sources());
    assertEquals(4000, job.dem().window().widthM());
    assertEquals(5.0, job.dem().cellM());
    assertEquals(VoidRule.NO_GO, job.dem().voids());
    assertEquals(0.4, job.dem().verticalSigmaM());
    assertEquals(1L << 28, job.dem().maxCells());
    assertEquals(SlopeMethod.HORN, job.terrain().slope());
    assertNull(job.terrain().baselineM());
    assertEquals(0.05, job.hazard().rockCoverage());
    assertNull(job.hazard().rockCoverageRaster());
    assertEquals(List.of(real("areas.geojson")), job.hazard().keepOut());
    assertEquals(List.of("rover", "buggy"), job.vehicles().stream().map(v -> v.name()).toList());
    assertEquals("loose", job.vehicles().get(0).soil().name());
    assertEquals(3.4, job.vehicles().get(0).wheels().wheelbaseM(), 1e-12);
    assertNull(job.vehicles().get(1).wheels());
    assertNull(job.vehicles().get(1).limits().sideDeg());
    assertEquals(7.0, job.walker().enduranceH() - job.walker().reserveH());
    assertEquals(2, job.bases().size());
    assertTrue(job.bases().get(1).lonLat());
    assertEquals(12.5, job.bases().get(1).x());
    assertEquals(20 * 60.0, job.targets().rows().get(0).stayS());
    assertEquals(1.0, job.targets().rows().get(1).weight());

    Job.ReachEntry trip = job.reach().get(0);
    assertEquals(6 * 3600.0, trip.budget().timeS());
    assertEquals(60 * 3.6e6, trip.budget().energyJ());
    assertEquals(50_000.0, trip.budget().distanceM());
    assertEquals(HomeRule.DRIVE_BACK, trip.home());
    assertEquals(Quantity.TIME_S, trip.bands().get(2).quantity());
    assertEquals(4 * 3600.0, trip.bands().get(2).amount());
    assertEquals("240min", trip.bands().get(2).label());
    assertEquals(1800.0, trip.stayS());
    assertEquals("rover", trip.vehicle(), "the first vehicle by default");
    assertEquals("buggy", job.reach().get(1).vehicle());
    assertNull(job.reach().get(1).budget().timeS());

    assertEquals(List.of("alpha", "rim", "alpha"), job.corridors().get(0).via());
    assertEquals(Cost.TIME, job.corridors().get(0).cost());
    assertEquals(List.of(2.0, 5.0, 10.0), job.corridors().get(0).withinPct());
    assertEquals(400, job.sites().ellipseLongM());
    assertEquals(0, job.sites().ellipseAzimuthDeg());
    assertEquals(new Job.Weight("targets", 2), job.sites().weights().get(0));
    assertTrue(trip.where().endsWith("job.yaml:20:5"), trip.where());
  }

  @Test
  void lifeSupportForARescueIsOfTheVehicleOrOfTheQuestion() {
    String question =
        """
        reach:
          - {name: out, from: alpha, vehicle: rover, home: base-rescue, budget: {drive_h: 6}}
        """;
    folder.write("job.yaml", MINIMAL.replace("buggy", "rover") + ALPHA + question);
    assertEquals(HomeRule.BASE_RESCUE, read().reach().get(0).home());
    folder.spoil("rover.yaml", ", life_support_h: 72", "");
    String refused = refusal(Map.of());
    assertTrue(refused.contains("or life_support_h of the question"), refused);
    folder.spoil("job.yaml", "drive_h: 6", "life_support_h: 30");
    assertEquals(30 * 3600, read().reach().get(0).budget().lifeSupportS());
    // What cannot be read may be that, so only this is told.
    folder.spoil("job.yaml", "life_support_h: 30", "life_support_h: thirty");
    refused = refusal(Map.of());
    assertTrue(refused.contains("thirty") && !refused.contains("whose supplies"), refused);
  }

  @Test
  void stopsInAnyOrderGoBetweenStartAndEnd() {
    folder.spoil(
        "job.yaml",
        "{name: to-rim, via: [alpha, rim, alpha],",
        "{name: to-rim, start: alpha, stops: [rim, beta], shared_pct: 30, trade_offs: 7,");
    Job.CorridorEntry tour = read().corridors().get(0);
    assertTrue(tour.anyOrder());
    assertEquals(List.of("alpha", "rim", "beta", "alpha"), tour.via());
    assertEquals(30, tour.mostSharedPct());
    assertEquals(7, tour.tradeOffs());
    folder.spoil("job.yaml", "stops: [rim, beta]", "stops: [rim], end: beta");
    assertEquals(List.of("alpha", "rim", "beta"), read().corridors().get(0).via());
  }

  @Test
  void theLongAxisOfTheEllipseHasAnAzimuth() {
    folder.spoil(
        "job.yaml", "ellipse_m: [400, 200]", "ellipse_m: [400, 200], ellipse_azimuth_deg: 180");
    assertEquals(180, read().sites().ellipseAzimuthDeg());
  }

  @Test
  void placesMayBeLookedForWithCandidatesOrWithout() {
    assertNull(read().search());
    folder.spoil(
        "job.yaml",
        "ellipse_m: [400, 200],",
        "ellipse_m: [400, 200], search: {spacing_m: 300, time_h: 1.5},");
    assertEquals(new SearchParams(300, 5400, 200, 5, 300), read().search().params());
    assertEquals("rover", read().search().vehicle());
    assertEquals(2, read().sites().candidates().size());
    folder.spoil(
        "job.yaml",
        "candidates: [alpha, beta], ellipse_m: [400, 200], search: {spacing_m: 300, time_h: 1.5},"
            + " weights: {targets: 2, reach_km2: 1}",
        "search: {spacing_m: 300, time_h: 1.5, vehicle: buggy, keep: 2, apart_m: 900}");
    assertEquals(new SearchParams(300, 5400, 0, 2, 900), read().search().params());
    assertEquals("buggy", read().search().vehicle());
    assertNull(read().sites());
  }

  @Test
  void everyInputFileIsListed() {
    assertEquals(
        List.of(
            real("areas.geojson"),
            real("buggy.yaml"),
            real("ground.tif"),
            real("job.yaml"),
            real("rover.yaml"),
            real("soil.yaml"),
            real("targets.csv"),
            real("walker.yaml")),
        read().inputs());
  }

  @Test
  void aMinimalJobTakesItsDefaultsFromTheSchema() {
    folder.write("job.yaml", MINIMAL);
    Job job = read();
    assertEquals(Body.MARS, job.dem().body());
    assertNull(job.dem().window());
    assertEquals(0.0, job.hazard().marginM());
    assertNull(job.targets());
    assertNull(job.sites());
    assertTrue(job.reach().isEmpty());
    assertEquals(new Setting("terrain.slope", "horn", "default"), setting(job, "terrain.slope"));
    assertEquals(new Setting("job", "least", "job.yaml:2:6"), setting(job, "job"));
  }

  @Test
  void everySettingHasItsOriginAndTheListIsSorted() {
    Job job = JobReader.read(folder.job(), Map.of("dem.cell_size_m", "10"));
    assertEquals(10.0, job.dem().cellM());
    assertEquals(new Setting("dem.cell_size_m", "10", "--set"), setting(job, "dem.cell_size_m"));
    assertEquals("job.yaml:22:23", setting(job, "reach.day-trip.budget.drive_h").origin());
    assertEquals("default", setting(job, "reach.on-foot.stay").origin());
    assertEquals("[1h, 2h, 240min, 6 h]", setting(job, "reach.day-trip.bands").value());
    assertEquals("rover.yaml:7:21", setting(job, "vehicle.rover.limits.climb_deg").origin());
    assertEquals("820000", setting(job, "soil.loose.bekker.kphi").value());
    List<String> keys = job.effective().stream().map(Setting::key).toList();
    assertEquals(keys.stream().sorted().toList(), keys);
    assertEquals(keys.stream().distinct().toList(), keys);
  }

  @Test
  void vehiclesMayShareASoilButNotItsNameAlone() {
    String cart = JobFolder.ROVER.replace("vehicle: rover", "vehicle: cart");
    folder.write("cart.yaml", cart);
    folder.spoil("job.yaml", "[rover.yaml, buggy.yaml]", "[rover.yaml, buggy.yaml, cart.yaml]");
    List<String> keys = read().effective().stream().map(Setting::key).toList();
    assertEquals(keys.stream().distinct().toList(), keys);
    folder.write("other.yaml", JobFolder.SOIL.replace("1400", "2800"));
    folder.write("cart.yaml", cart.replace("soil.yaml", "other.yaml"));
    assertTrue(refusal(Map.of()).contains("name different soils called loose"));
  }

  @Test
  void readingTwiceGivesTheSame() {
    assertEquals(read(), read());
  }

  @Test
  void voidsMayBeFilled() {
    folder.spoil("job.yaml", "voids: no-go", "voids: {fill: {sure: true}}");
    assertEquals(VoidRule.FILL, read().dem().voids());
    assertEquals(3, read().dem().maxFillCells());
    folder.spoil("job.yaml", "{fill: {sure: true}}", "{fill: {max_gap_cells: 7, sure: true}}");
    assertEquals(7, read().dem().maxFillCells());
  }

  @Test
  void whatNobodyMeasuredIsOnlyFilledWhereTheJobSaysSo() {
    folder.spoil("job.yaml", "voids: no-go", "voids: fill");
    assertEquals(VoidRule.NO_GO, read().dem().voids());
    assertEquals(3, read().dem().maxFillCells());
    folder.spoil("job.yaml", "voids: fill", "voids: {fill: {max_gap_cells: 7}}");
    assertEquals(VoidRule.NO_GO, read().dem().voids());
    assertEquals(7, read().dem().maxFillCells());
  }

  @Test
  void aConfidenceNeedsAnErrorOfTheHeights() {
    assertEquals(0.9, read().confidence());
    folder.spoil("job.yaml", "terrain: {slope", "confidence: 0.95\nterrain: {slope");
    assertEquals(0.95, read().confidence());
    folder.spoil("job.yaml", "  vertical_sigma_m: 0.4\n  correlation_length_m: 30\n", "");
    assertTrue(refusal(Map.of()).contains("confidence without dem.vertical_sigma_m"));
  }

  @Test
  void aBodyMayBeOnesOwn() {
    folder.spoil("job.yaml", "body: moon", "body: {radius_m: 250000, gravity_ms2: 0.27}");
    assertEquals(new Body("custom", 250_000, 250_000, 0.27), read().dem().body());
    folder.write(
        "pebble.yaml",
        "scarpway: 1\nbody: pebble\nsemi_major_m: 285000\nsemi_minor_m: 229000\ngravity_ms2: 0.25\n");
    folder.spoil("job.yaml", "body: {radius_m: 250000, gravity_ms2: 0.27}", "body: pebble.yaml");
    assertEquals(new Body("pebble", 285_000, 229_000, 0.25), read().dem().body());
  }

  @Test
  void aPatternStandsForItsFilesInOrder() {
    folder.write("tiles/b.tif", "");
    folder.write("tiles/a.tif", "");
    folder.write("tiles/a.txt", "");
    folder.spoil("job.yaml", "source: ground.tif", "source: [ground.tif, tiles/*.tif]");
    assertEquals(
        List.of(real("ground.tif"), real("tiles/a.tif"), real("tiles/b.tif")),
        read().dem().sources());
  }

  @Test
  void aFileNamedLikeAPatternIsTakenAsItIs() {
    folder.write("odd[1].tif", "");
    folder.spoil("job.yaml", "source: ground.tif", "source: 'odd[1].tif'");
    assertEquals(List.of(real("odd[1].tif")), read().dem().sources());
  }

  @Test
  void namesAreRelativeToTheFileThatHoldsThem() {
    folder.write("fleet/rover.yaml", JobFolder.ROVER.replace("soil.yaml", "../soils/soft.yaml"));
    folder.write("soils/soft.yaml", JobFolder.SOIL);
    folder.spoil("job.yaml", "vehicles: [rover.yaml", "vehicles: [fleet/rover.yaml");
    assertEquals("loose", read().vehicles().get(0).soil().name());
  }

  @Test
  void overridesReachIntoListsByNameAndNumber() {
    Job job =
        JobReader.read(
            folder.job(),
            Map.of(
                "reach.day-trip.budget.drive_h", "8",
                "reach.1.home", "none",
                "bases.gamma", "[5, 6]",
                "hazard.rock_coverage", "0.1"));
    assertEquals(8 * 3600.0, job.reach().get(0).budget().timeS());
    assertEquals(HomeRule.NONE, job.reach().get(1).home());
    assertEquals("gamma", job.bases().get(2).name());
    assertEquals(0.1, job.hazard().rockCoverage());
  }

  @Test
  void whatRocksCountAndWhatIsOutsideTheirLaw() {
    assertEquals(RockCount.ALL, read().hazard().rockCounts());
    assertNull(read().hazard().rockNoData());
    Map<String, String> metre =
        Map.of(
            "hazard.rock_coverage", "0.004",
            "hazard.rock_counts.above_m", "1",
            "hazard.rock_no_data", "0.01");
    Job job = JobReader.read(folder.job(), metre);
    assertEquals(new RockCount(1, null), job.hazard().rockCounts());
    assertEquals(0.01, job.hazard().rockNoData());
    for (Map<String, String> beyond :
        List.of(
            Map.of("hazard.rock_coverage", "0.41"),
            Map.of("hazard.rock_coverage", "0.05", "hazard.rock_counts.above_m", "1"),
            Map.of("hazard.rock_no_data", "0.9"))) {
      String message =
          assertThrows(UserError.class, () -> JobReader.read(folder.job(), beyond)).getMessage();
      assertTrue(message.contains("for which the law of rocks was fitted"), message);
    }
  }

  /** Of a value that may be a word or something else, a wrong word is told both. */
  @Test
  void aWrongWordIsToldTheOtherFormToo() {
    folder.write("job.yaml", MINIMAL);
    Map<String, String> other =
        Map.of(
            "hazard.rock_no_data", "or a number in [0, 1) (share of the ground under rocks)",
            "hazard.rock_counts", "or {above_m: ...} (rocks of at least a diameter)",
            "hazard.rock_slow_m", "or a number in [0, 100000] (mean free path, metres)");
    other.forEach(
        (key, form) -> {
          String told =
              assertThrows(
                      UserError.class,
                      () ->
                          JobReader.read(
                              folder.job(),
                              Map.of("hazard.rock_coverage", "0.1", key, "wrong-word")))
                  .getMessage();
          assertTrue(told.contains(form), told);
        });
  }

  @Test
  void anOverrideMakesTheMappingThatItNeeds() {
    folder.write("job.yaml", MINIMAL);
    Job job =
        JobReader.read(
            folder.job(), Map.of("dem.window.centre", "[1, 2]", "dem.window.size_m", "[3, 4]"));
    assertEquals(3.0, job.dem().window().widthM());
  }

  @Test
  void wrongOverridesAreNamedByTheirKey() {
    assertEquals(
        "--set dem.cel_size_m: unknown key 'cel_size_m' in dem; expected a known key;"
            + " did you mean cell_size_m?",
        refusal(Map.of("dem.cel_size_m", "5")));
    assertEquals(
        "--set reach.day-trop.home: no entry 'day-trop'; expected the name of an entry of the list,"
            + " or its number from 0; did you mean day-trip?",
        refusal(Map.of("reach.day-trop.home", "none")));
    assertTrue(refusal(Map.of("dem..x", "1")).startsWith("--set dem..x: a key with an empty part"));
    assertTrue(refusal(Map.of("job.x", "1")).startsWith("--set job.x: 'job' holds the text"));
    assertTrue(
        refusal(Map.of("dem.cell_size_m", "[")).startsWith("--set dem.cell_size_m: not valid"));
    assertTrue(refusal(Map.of("dem.cell_size_m", "")).contains("cell_size_m is nothing"));
    assertTrue(
        refusal(Map.of("dem.cell_size_m", "-1"))
            .contains("cell_size_m = -1; expected a number in [0.001, 100000]"));
  }

  @Test
  void aMatrixMakesOneJobPerCombination() {
    folder.write("Ground v2.tif", "");
    folder.spoil(
        "job.yaml",
        "sites: ",
        "runs: {matrix: {vehicles: [rover.yaml, buggy.yaml], dem: [ground.tif, Ground v2.tif]}}\nsites: ");
    folder.spoil("job.yaml", "    vehicle: buggy\n", "");
    folder.spoil("job.yaml", ", energy_kwh: 60", "");
    List<Job> jobs = JobReader.readAll(folder.job(), Map.of());
    assertEquals(
        List.of(
            "north-bench-rover-ground",
            "north-bench-rover-ground-v2",
            "north-bench-buggy-ground",
            "north-bench-buggy-ground-v2"),
        jobs.stream().map(Job::name).toList());
    assertEquals("buggy", jobs.get(3).vehicles().get(0).name());
    assertEquals(1, jobs.get(3).vehicles().size());
    assertEquals(List.of(real("Ground v2.tif")), jobs.get(3).dem().sources());
    assertTrue(refusal(Map.of()).contains("runs.matrix makes 4 runs"));
  }

  @Test
  void allProblemsOfAllFilesAreToldAtOnceInOrder() {
    folder.spoil("job.yaml", "slope: horn", "slope: hron");
    folder.spoil("job.yaml", "from: alpha", "from: alfa");
    folder.spoil("rover.yaml", "climb_deg: 20", "climb_deg: 95");
    folder.spoil("soil.yaml", "n: 1.0", "n: one");
    folder.spoil("walker.yaml", "reserve_h: 1", "reserve_h: 9");
    folder.spoil("targets.csv", "rim,1500", "rim,15OO");
    List<String> lines = refusal(Map.of()).lines().toList();
    assertEquals(6, lines.size(), String.join("\n", lines));
    assertTrue(lines.get(0).contains("job.yaml:11:18: slope is 'hron'"), lines.get(0));
    assertTrue(lines.get(1).contains("job.yaml:21:11: no base is called 'alfa'"), lines.get(1));
    for (String line : lines) {
      assertTrue(line.matches(".+:\\d+:\\d+: .+; expected .+; .+"), line);
    }
  }

  private Path real(String name) {
    try {
      return dir.resolve(name).toRealPath();
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
