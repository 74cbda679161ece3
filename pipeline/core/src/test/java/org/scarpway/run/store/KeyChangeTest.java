package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** What changed is told in words of the job, not in those of the program. */
class KeyChangeTest {
  private static List<String> between(Map<String, String> before, Map<String, String> now) {
    return KeyChange.between(new TreeMap<>(before), new TreeMap<>(now));
  }

  @Test
  void recordsAreToldByWhatTheyHold() {
    assertEquals(
        List.of("request: budget time s 2880 becomes budget time s 3600"),
        between(
            Map.of("request", "Request[name=Far, budget=Budget[timeS=2880.0, energyJ=null]]"),
            Map.of("request", "Request[name=Far, budget=Budget[timeS=3600.0, energyJ=null]]")));
    assertEquals(
        List.of("walker: endurance h 6 becomes endurance h 7"),
        between(
            Map.of("walker", "Walker[name=McAdam, enduranceH=6.0]"),
            Map.of("walker", "Walker[name=McAdam, enduranceH=7.0]")));
  }

  /** Java writes numbers from ten millions on with an exponent. */
  @Test
  void largeNumbersStayNumbers() {
    assertEquals(
        List.of("request: energy j 32400000 becomes energy j 36720000"),
        between(
            Map.of("request", "Budget[energyJ=3.24E7]"),
            Map.of("request", "Budget[energyJ=3.672E7]")));
  }

  /** Numbers have digits that can be read, and what is gone is said to be gone. */
  @Test
  void numbersAreRounded() {
    assertEquals(
        List.of("settings: baseline m 15 becomes baseline m 20"),
        between(
            Map.of("params", "TerrainParams[baselineM=14.982587573315172]"),
            Map.of("params", "TerrainParams[baselineM=20.0]")));
    assertEquals(
        List.of("request: amount 120 is gone"),
        between(
            Map.of("request", "R[bands=[Band[amount=60.0], Band[amount=120.0]]]"),
            Map.of("request", "R[bands=[Band[amount=60.0]]]")));
  }

  @Test
  void digestsAreNotShown() {
    String one = "c6".repeat(32);
    String two = "d7".repeat(32);
    assertEquals(
        List.of("hazard: keep-out file changed"),
        between(Map.of("hazard", "keep-out " + one), Map.of("hazard", "keep-out " + two)));
    assertEquals(
        List.of("hazard: keep-out file added"),
        between(
            Map.of("hazard", "rocks 0; keep-out ; margin 1"),
            Map.of("hazard", "rocks 0; keep-out " + two + "; margin 1")));
    assertEquals(
        List.of("hazard: keep-out file removed, rocks 0 becomes rocks 1"),
        between(
            Map.of("hazard", "rocks 0; keep-out " + one + " " + two),
            Map.of("hazard", "rocks 1; keep-out " + two)));
    assertEquals(
        List.of("hazard: rock raster file added"),
        between(
            Map.of("hazard", "rock raster none; margin 1"),
            Map.of("hazard", "rock raster " + two + "; margin 1")));
    assertEquals(
        List.of("it rests on one result fewer"),
        between(Map.of("upstream 1", one, "upstream 2", one), Map.of("upstream 1", one)));
    assertEquals(
        List.of("what it rests on changes"),
        between(
            Map.of("upstream 0", one, "upstream 1", one),
            Map.of("upstream 0", two, "upstream 1", two)));
    assertEquals(
        List.of("terrain changes"),
        between(Map.of("stage terrain", one), Map.of("stage terrain", two)));
  }
}
