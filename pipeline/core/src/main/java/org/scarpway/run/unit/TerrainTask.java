package org.scarpway.run.unit;

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
import org.scarpway.terrain.ShownTerrain;
import org.scarpway.terrain.TerrainLayers;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStrips;

/** The stage terrain/: heights and everything derived from them. */
final class TerrainTask implements StageTask<ShownTerrain> {
  static final String ID = "terrain";
  static final String ELEVATION = "elevation";
  static final String SLOPE = "slope_deg";
  static final String EAST = "gradient_east";
  static final String NORTH = "gradient_north";
  static final String ROUGHNESS = "roughness_m";
  static final String STEP = "step_m";
  static final String CONVEXITY = "convexity_m";

  /** Rasters that later stages read, in the order of the layers of {@link Terrain}. */
  static final List<String> LAYERS =
      List.of(ELEVATION, SLOPE, EAST, NORTH, ROUGHNESS, STEP, CONVEXITY);

  private static final int VERSION = 12;

  /** The parts of the result that are not in a raster. */
  record Rest(Extrapolation extrapolation, Lengths lengths, List<String> notes) {}

  private final OpenJob job;
  private final FinishedGround ground;
  private final GridSpec spec;
  private final GroundStages stages;
  private final StageKey key;

  /**
   * @param ground takes the terrain for later stages
   */
  TerrainTask(OpenJob job, FinishedGround ground) {
    this.job = job;
    this.ground = ground;
    this.spec = job.spec();
    this.stages = job.stages();
    this.key =
        StageKey.of(ID, VERSION)
            .add("dem", JobKeys.dem(job.job(), job.digests()))
            .add("params", params())
            .add("reconnaissance", job.job().terrain().reconnaissance())
            .add("raster io", job.io().name())
            .build();
  }

  private TerrainParams params() {
    return stages.terrainParams(spec);
  }

  @Override
  public String id() {
    return ID;
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
  public void make(Path dir) {
    SlopeAreas areas = new SlopeAreas(spec, job.job().terrain().reconnaissance());
    write(dir, products(), areas);
    areas.write(dir.resolve("slope_classes.csv"));
  }

  /** Writes only what later stages read. */
  void makeGround(Path dir) {
    List<RasterProduct<TerrainLayers, ?>> read =
        products().stream().filter(p -> LAYERS.contains(p.name())).toList();
    write(dir, read, new SlopeAreas(spec, job.job().terrain().reconnaissance()));
  }

  private void write(Path dir, List<RasterProduct<TerrainLayers, ?>> products, SlopeAreas areas) {
    TerrainStrips strips = new TerrainStrips(job.heights(), params());
    try (ProductFiles<TerrainLayers> files = stages.files(dir, spec, products)) {
      job.progress().begin("terrain", strips.steps());
      job.strips()
          .each(
              (firstRow, rows) -> {
                TerrainStrips.Strip s = strips.strip(firstRow, rows, job.workers(), job.progress());
                files.append(s.layers(), s.skipRows(), rows);
                areas.add(s.layers().terrain().slopeDeg(), s.skipRows(), rows);
                ground.computed(s.layers().terrain());
              });
      job.progress().end();
      files.finish();
    }
    StoredResult.write(dir, new Rest(strips.extrapolation(), strips.lengths(), strips.notes()));
  }

  private List<RasterProduct<TerrainLayers, ?>> products() {
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
    List<RasterProduct<TerrainLayers, ?>> all = new ArrayList<>();
    all.add(RasterProduct.floats(ELEVATION, height, t -> t.terrain().heightM()));
    add(all, SLOPE, "slope (" + baseline + ")", "deg", t -> t.terrain().slopeDeg());
    add(
        all,
        "aspect_deg",
        "downslope azimuth clockwise from grid north",
        "deg",
        TerrainLayers::aspectDeg);
    add(all, EAST, "rise over run towards east", "1", t -> t.terrain().gradEast());
    add(all, NORTH, "rise over run towards north", "1", t -> t.terrain().gradNorth());
    add(
        all,
        ROUGHNESS,
        "RMS residual from the footprint plane",
        "m",
        t -> t.terrain().roughnessM());
    add(
        all,
        STEP,
        "largest step within a wheel spacing, plane removed",
        "m",
        t -> t.terrain().stepM());
    add(
        all,
        "ruggedness_m",
        "terrain ruggedness index (Riley et al. 1999)",
        "m",
        TerrainLayers::ruggednessM);
    add(
        all,
        CONVEXITY,
        "rise of the ground above the chord between axles",
        "m",
        t -> t.terrain().convexityM());
    if (params().verticalSigmaM() != null) {
      add(
          all,
          "slope_sigma_deg",
          "one-sigma error of the slope from the height error",
          "deg",
          t -> t.errors().orElseThrow().slopeDeg());
      add(
          all,
          "aspect_sigma_deg",
          "one-sigma error of the aspect from the height error, at most that of any angle",
          "deg",
          t -> t.errors().orElseThrow().aspectDeg());
      if (params().slopeLimitDeg() != null) {
        add(
            all,
            "slope_over_limit",
            "probability that the slope exceeds " + params().slopeLimitDeg() + " deg",
            "1",
            t -> t.errors().orElseThrow().overLimit01().orElseThrow());
      }
    }
    return all;
  }

  private static void add(
      List<RasterProduct<TerrainLayers, ?>> all,
      String name,
      String description,
      String unit,
      Function<TerrainLayers, FloatGrid> grid) {
    all.add(RasterProduct.floats(name, BandInfo.of(description, unit), grid));
  }

  @Override
  public ShownTerrain load(Path dir) {
    Rest rest = StoredResult.read(dir, Rest.class);
    ShownCells shown = job.strips().shown();
    return new ShownTerrain(
        shown.floats(dir.resolve(SLOPE + ".tif")),
        shown.floats(dir.resolve(EAST + ".tif")),
        shown.floats(dir.resolve(NORTH + ".tif")),
        rest.lengths(),
        rest.notes());
  }
}
