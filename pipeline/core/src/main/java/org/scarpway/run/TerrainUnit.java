package org.scarpway.run;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.BandInfo;
import org.scarpway.geodata.RasterIo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.Extrapolation;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;

/** terrain/: heights and everything derived from them. */
final class TerrainUnit implements Unit<Terrain> {
  private static final int VERSION = 2;

  /** What of the result is in no raster. */
  record Rest(Extrapolation extrapolation, List<String> notes) {}

  private final GridSpec spec;
  private final Supplier<Dem> dem;
  private final GroundStages stages;
  private final RasterIo io;
  private final StageKey key;

  TerrainUnit(OpenJob job) {
    this.spec = job.spec();
    this.dem = job.dem();
    this.stages = job.stages();
    this.io = job.io();
    this.key =
        StageKey.of("terrain", VERSION)
            .add("dem", JobKeys.dem(job.job(), job.digests()))
            .add("params", params())
            .add("raster io", io.name())
            .build();
  }

  private TerrainParams params() {
    return stages.terrainParams(spec);
  }

  @Override
  public String id() {
    return "terrain";
  }

  @Override
  public StageKey key() {
    return key;
  }

  @Override
  public long cells() {
    return spec.cells();
  }

  @Override
  public Terrain compute() {
    return stages.terrain(dem.get());
  }

  @Override
  public void write(Path dir, Terrain t) {
    String baseline =
        String.format(
            Locale.ROOT,
            "%s, cells of %.3f x %.3f m",
            params().slope().name().toLowerCase(Locale.ROOT).replace('_', '-'),
            spec.cellXM(),
            spec.cellYM());
    FileBatch files = stages.files();
    files.add(
        dir.resolve("elevation.tif"),
        dem.get().heightM(),
        new BandInfo(
            "height above the body's reference surface", "m", dem.get().datumM(), Map.of()));
    put(files, dir, "slope_deg", t.slopeDeg(), "slope (" + baseline + ")", "deg");
    put(files, dir, "aspect_deg", t.aspectDeg(), "downslope azimuth clockwise from north", "deg");
    put(files, dir, "gradient_east", t.gradEast(), "rise over run towards east", "1");
    put(files, dir, "gradient_north", t.gradNorth(), "rise over run towards north", "1");
    put(files, dir, "roughness_m", t.roughnessM(), "RMS residual from the footprint plane", "m");
    put(files, dir, "step_m", t.stepM(), "largest step within a wheel spacing, plane removed", "m");
    put(
        files,
        dir,
        "ruggedness_m",
        t.ruggednessM(),
        "terrain ruggedness index (Riley et al. 1999)",
        "m");
    put(
        files,
        dir,
        "convexity_m",
        t.convexityM(),
        "rise of the ground above the chord between axles",
        "m");
    put(
        files,
        dir,
        "slope_sigma_deg",
        t.slopeSigmaDeg(),
        "one-sigma error of the slope from the height error",
        "deg");
    put(
        files,
        dir,
        "slope_over_limit",
        t.slopeOverLimit01(),
        "probability that the slope exceeds " + params().slopeLimitDeg() + " deg",
        "1");
    files.write();
    StoredResult.write(dir, new Rest(t.extrapolation(), t.notes()));
  }

  private static void put(
      FileBatch files, Path dir, String name, FloatGrid grid, String description, String unit) {
    if (grid != null) {
      files.add(dir.resolve(name + ".tif"), grid, BandInfo.of(description, unit));
    }
  }

  @Override
  public Terrain load(Path dir) {
    Rest rest = StoredResult.read(dir, Rest.class);
    return new Terrain(
        dem.get().heightM(),
        get(dir, "slope_deg"),
        get(dir, "aspect_deg"),
        get(dir, "gradient_east"),
        get(dir, "gradient_north"),
        get(dir, "roughness_m"),
        get(dir, "step_m"),
        get(dir, "ruggedness_m"),
        get(dir, "convexity_m"),
        get(dir, "slope_sigma_deg"),
        get(dir, "slope_over_limit"),
        rest.extrapolation(),
        rest.notes());
  }

  /** On the grid of the elevation model: a file may spell the same CRS in other words. */
  private FloatGrid get(Path dir, String name) {
    Path file = dir.resolve(name + ".tif");
    return Files.exists(file) ? new FloatGrid(spec, io.readFloats(file).values()) : null;
  }
}
