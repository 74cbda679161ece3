package org.scarpway.run.unit;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.JobKeys;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.terrain.Extrapolation;
import org.scarpway.terrain.Lengths;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStrips;

/** The stage terrain/: heights and everything derived from them. */
final class TerrainTask implements StageTask<Terrain> {
  private static final int VERSION = 8;

  /** The parts of the result that are not in a raster. */
  record Rest(Extrapolation extrapolation, Lengths lengths, List<String> notes) {}

  private final OpenJob job;
  private final GridSpec spec;
  private final GroundStages stages;
  private final StageKey key;

  TerrainTask(OpenJob job) {
    this.job = job;
    this.spec = job.spec();
    this.stages = job.stages();
    this.key =
        StageKey.of("terrain", VERSION)
            .add("dem", JobKeys.dem(job.job(), job.digests()))
            .add("params", params())
            .add("raster io", job.io().name())
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
    return job.strips() == null ? stages.terrain(job.dem().get()) : null;
  }

  @Override
  public void write(Path dir, Terrain whole) {
    SlopeAreas areas = new SlopeAreas(spec);
    try (ProductFiles<Terrain> files = stages.files(dir, spec, products())) {
      if (whole != null) {
        files.whole(whole);
        areas.add(whole.slopeDeg(), 0, spec.rows());
        areas.write(dir.resolve("slope_classes.csv"));
        StoredResult.write(dir, new Rest(whole.extrapolation(), whole.lengths(), whole.notes()));
        return;
      }
      TerrainStrips strips = stages.terrain(job.ground().get());
      job.progress().begin("terrain", strips.steps());
      job.strips()
          .each(
              (firstRow, rows) -> {
                TerrainStrips.Strip s = stages.terrain(strips, firstRow, rows);
                files.append(s.terrain(), s.skipRows(), rows);
                areas.add(s.terrain().slopeDeg(), s.skipRows(), rows);
              });
      job.progress().end();
      files.finish();
      areas.write(dir.resolve("slope_classes.csv"));
      StoredResult.write(dir, new Rest(strips.extrapolation(), strips.lengths(), strips.notes()));
    }
  }

  private List<RasterProduct<Terrain, ?>> products() {
    String baseline =
        String.format(
            Locale.ROOT,
            "%s, cells of %.3f x %.3f m",
            params().slope().name().toLowerCase(Locale.ROOT).replace('_', '-'),
            spec.cellXM(),
            spec.cellYM());
    BandInfo height =
        new BandInfo(
            "height above the body's reference surface",
            "m",
            job.ground().get().datumM(),
            Map.of());
    List<RasterProduct<Terrain, ?>> all = new ArrayList<>();
    all.add(RasterProduct.floats("elevation", height, Terrain::heightM));
    add(all, "slope_deg", "slope (" + baseline + ")", "deg", Terrain::slopeDeg);
    add(
        all,
        "aspect_deg",
        "downslope azimuth clockwise from grid north",
        "deg",
        Terrain::aspectDeg);
    add(all, "gradient_east", "rise over run towards east", "1", Terrain::gradEast);
    add(all, "gradient_north", "rise over run towards north", "1", Terrain::gradNorth);
    add(all, "roughness_m", "RMS residual from the footprint plane", "m", Terrain::roughnessM);
    add(all, "step_m", "largest step within a wheel spacing, plane removed", "m", Terrain::stepM);
    add(
        all,
        "ruggedness_m",
        "terrain ruggedness index (Riley et al. 1999)",
        "m",
        Terrain::ruggednessM);
    add(
        all,
        "convexity_m",
        "rise of the ground above the chord between axles",
        "m",
        Terrain::convexityM);
    if (params().verticalSigmaM() != null) {
      add(
          all,
          "slope_sigma_deg",
          "one-sigma error of the slope from the height error",
          "deg",
          Terrain::slopeSigmaDeg);
      add(
          all,
          "aspect_sigma_deg",
          "one-sigma error of the aspect from the height error, at most that of any angle",
          "deg",
          Terrain::aspectSigmaDeg);
      if (params().slopeLimitDeg() != null) {
        add(
            all,
            "slope_over_limit",
            "probability that the slope exceeds " + params().slopeLimitDeg() + " deg",
            "1",
            Terrain::slopeOverLimit01);
      }
    }
    return all;
  }

  private static void add(
      List<RasterProduct<Terrain, ?>> all,
      String name,
      String description,
      String unit,
      Function<Terrain, FloatGrid> grid) {
    all.add(RasterProduct.floats(name, BandInfo.of(description, unit), grid));
  }

  @Override
  public Terrain load(Path dir) {
    Rest rest = StoredResult.read(dir, Rest.class);
    FloatGrid heightM = job.dem().get().heightM();
    if (job.strips() != null) {
      ShownCells shown = new ShownCells(spec, job.strips().shownStep());
      return new Terrain(
          heightM,
          shown.floats(dir.resolve("slope_deg.tif")),
          null,
          shown.floats(dir.resolve("gradient_east.tif")),
          shown.floats(dir.resolve("gradient_north.tif")),
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          rest.extrapolation(),
          rest.lengths(),
          rest.notes());
    }
    return new Terrain(
        heightM,
        get(dir, "slope_deg"),
        get(dir, "aspect_deg"),
        get(dir, "gradient_east"),
        get(dir, "gradient_north"),
        get(dir, "roughness_m"),
        get(dir, "step_m"),
        get(dir, "ruggedness_m"),
        get(dir, "convexity_m"),
        get(dir, "slope_sigma_deg"),
        get(dir, "aspect_sigma_deg"),
        get(dir, "slope_over_limit"),
        rest.extrapolation(),
        rest.lengths(),
        rest.notes());
  }

  /**
   * Reads a raster onto the grid of the elevation model, since a file may spell the same CRS
   * differently.
   */
  private FloatGrid get(Path dir, String name) {
    Path file = dir.resolve(name + ".tif");
    return Files.exists(file) ? new FloatGrid(spec, job.io().readFloats(file).values()) : null;
  }
}
