package org.scarpway.config;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import org.scarpway.config.Job.TerrainSettings;
import org.scarpway.dem.DemRequest;
import org.scarpway.grid.Body;
import org.scarpway.terrain.Derivative;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.vehicle.UnresolvedRule;

/** Reads the section terrain of a job. */
final class TerrainSectionReader {
  private TerrainSectionReader() {}

  /**
   * @param dem null if its section has problems of its own
   * @return null if a value violates the schema
   */
  static TerrainSettings read(Entry terrain, DemRequest dem, Problems problems) {
    if (!terrain.sound()) {
      return null;
    }
    Entry baseline = terrain.get("baseline_m");
    String slope = terrain.get("slope").text();
    Set<Derivative> also = EnumSet.noneOf(Derivative.class);
    for (Entry name : terrain.get("also").items()) {
      also.add(Derivative.ofKey(name.text()).orElseThrow());
    }
    return new TerrainSettings(
        SlopeMethod.valueOf(slope.toUpperCase(Locale.ROOT).replace('-', '_')),
        baseline.isText() ? null : baseline.number(),
        also,
        terrain.get("scaling").node().booleanValue(),
        MonteCarloSectionReader.read(terrain.get("monte_carlo"), dem, problems),
        UnresolvedRule.valueOf(
            terrain.get("unresolved").text().toUpperCase(Locale.ROOT).replace('-', '_')),
        reconnaissance(terrain.get("reconnaissance"), dem));
  }

  /** Classes of a field test on Earth; elsewhere only where the job asks for them. */
  private static boolean reconnaissance(Entry given, DemRequest dem) {
    Body earth = Body.EARTH;
    return given.present()
        ? given.node().booleanValue()
        : dem != null && dem.body().sameFigureAs(earth.semiMajorM(), earth.semiMinorM());
  }
}
