package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.JobKeys;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.run.unit.TerrainFiles.Layer;
import org.scarpway.terrain.Terrain;

/** The stage hazard/: rocks, keep-out ground and margins. */
final class HazardTask implements StageTask<Hazard> {
  private static final int VERSION = 7;

  private static final List<Layer> LAYERS = List.of(Layer.SLOPE, Layer.STEP, Layer.ROUGHNESS);

  /** The parts of the result that are not in a raster. */
  record Notes(List<String> notes) {}

  private final OpenJob job;
  private final GridSpec spec;
  private final StageNode<Terrain> terrain;
  private final GroundStages stages;
  private final FleetEnvelope demands;
  private final StageKey key;

  HazardTask(OpenJob job, StageNode<Terrain> terrain) {
    this.job = job;
    this.spec = job.spec();
    this.terrain = terrain;
    this.stages = job.stages();
    this.demands = FleetEnvelope.of(job.job(), job.job().vehicles());
    this.key =
        StageKey.of("hazard", VERSION)
            .add(terrain.key())
            .add("settings", JobKeys.hazard(job.job(), job.digests()))
            .add("demands", demands)
            .build();
  }

  @Override
  public String id() {
    return "hazard";
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
  public Hazard compute() {
    return job.strips() == null ? stages.hazard(terrain.get()) : null;
  }

  @Override
  public void write(Path dir, Hazard whole) {
    try (ProductFiles<Hazard> files = stages.files(dir, spec, products())) {
      if (whole != null) {
        files.with(() -> writeKeepOut(dir, whole));
        files.whole(whole);
        return;
      }
      try (TerrainFiles ground = new TerrainFiles(terrain.folder(), spec, LAYERS)) {
        GroundStages.HazardRows strips = stages.hazardStrips(spec, demands);
        int halo = strips.haloRows();
        job.progress().begin("hazard", spec.cells());
        job.strips()
            .each(
                (firstRow, rows) -> {
                  int top = Math.max(0, firstRow - halo);
                  int end = Math.min(spec.rows(), firstRow + rows + halo);
                  Hazard strip = strips.strip(ground.rows(top, end - top), top);
                  if (firstRow == 0) {
                    files.with(() -> writeKeepOut(dir, strip));
                    StoredResult.write(dir, new Notes(strip.notes()));
                  }
                  files.append(strip, firstRow - top, rows);
                });
        job.progress().end();
      }
      files.finish();
    }
  }

  private List<RasterProduct<Hazard, ?>> products() {
    Map<String, String> bits = new TreeMap<>();
    for (Hazard.Cause c : Hazard.Cause.values()) {
      bits.put("BIT_" + c.bit(), name(c));
    }
    List<RasterProduct<Hazard, ?>> products = new ArrayList<>();
    if (job.job().hazard().rocks()) {
      products.add(
          RasterProduct.floats(
              "hits_per_km",
              BandInfo.of("rocks that stop wheels or belly, met per km straight on", "1/km"),
              Hazard::hitsPerKm));
      products.add(
          RasterProduct.floats(
              "mean_free_path_m",
              BandInfo.of(
                  "mean distance to the next rock that stops wheels or belly, infinite where there is none",
                  "m"),
              h -> freePathM(h.hitsPerKm())));
    }
    products.add(
        RasterProduct.floats(
            "hazard",
            BandInfo.of("hazard, 0 none to 1 certain, the largest of its causes", "1"),
            Hazard::hazard01));
    products.add(
        RasterProduct.codes(
            "causes",
            new BandInfo("causes of the hazard, sum of bits; 0 none", "code", 0, bits),
            Hazard::causes));
    products.add(
        RasterProduct.floats(
            "detour_factor",
            BandInfo.of(
                "length of the way around rocks over the straight way, infinite where rocks bar it",
                "1"),
            Hazard::detourFactor));
    products.add(
        RasterProduct.codes(
            "dominant",
            BandInfo.codes("cause with the largest hazard", codes()),
            Hazard::dominant));
    return products;
  }

  private static FloatGrid freePathM(FloatGrid hitsPerKm) {
    float[] path = new float[hitsPerKm.values().length];
    for (int i = 0; i < path.length; i++) {
      path[i] = 1000 / hitsPerKm.values()[i];
    }
    return new FloatGrid(hitsPerKm.spec(), path);
  }

  private void writeKeepOut(Path dir, Hazard h) {
    List<Feature> areas =
        h.keepOut() == null || h.keepOut().isEmpty()
            ? List.of()
            : List.of(new Feature(h.keepOut(), Map.of("margin_m", stages.marginM(demands))));
    Layers.write(dir.resolve("keep_out.gpkg"), spec, Layers.polygons("keep_out", areas));
    Layers.writeGeoJson(dir.resolve("keep_out.geojson"), spec, job.job().dem().body(), areas);
  }

  private static Map<String, String> codes() {
    Map<String, String> codes = new TreeMap<>();
    for (Hazard.Cause c : Hazard.Cause.values()) {
      codes.put("CODE_" + c.code(), name(c));
    }
    return codes;
  }

  private static String name(Hazard.Cause c) {
    return c.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  @Override
  public Hazard load(Path dir) {
    if (job.strips() == null) {
      return compute();
    }
    ShownCells shown = new ShownCells(spec, job.strips().shownStep());
    return new Hazard(
        shown.floats(dir.resolve("hazard.tif")),
        shown.codes(dir.resolve("causes.tif")),
        stages.hazardStrips(spec, demands).strips().keepOut()::outline,
        null,
        null,
        null,
        null,
        StoredResult.read(dir, Notes.class).notes());
  }
}
