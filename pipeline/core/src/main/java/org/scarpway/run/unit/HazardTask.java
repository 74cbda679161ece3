package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.BiConsumer;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.ShownHazard;
import org.scarpway.report.CodeColours;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.JobKeys;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.KeepOutFile;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.PlaceTable;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;

/** The stage hazard/: rocks, keep-out ground and margins. */
final class HazardTask implements StageTask<ShownHazard> {
  static final String ID = "hazard";

  private static final int VERSION = 11;

  /** Rasters that later stages read. */
  private static final Set<String> LATER = Set.of("hazard", "causes", "detour_factor", "dominant");

  /** The parts of the result that are not in a raster. */
  record Notes(List<String> notes) {}

  private final OpenJob job;
  private final GridSpec spec;
  private final FinishedGround ground;
  private final GroundStages stages;
  private final FleetEnvelope demands;
  private final StageKey key;

  /**
   * @param terrain key of the terrain
   */
  HazardTask(OpenJob job, StageKey terrain, FinishedGround ground) {
    this.job = job;
    this.spec = job.spec();
    this.ground = ground;
    this.stages = job.stages();
    this.demands = FleetEnvelope.of(job.job(), job.job().vehicles());
    this.key =
        StageKey.of(ID, VERSION)
            .add(terrain)
            .add("settings", JobKeys.hazard(job.job(), job.digests()))
            .add("demands", demands)
            .build();
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
    write(
        dir,
        products(),
        (first, files) -> {
          files.with(() -> writeKeepOut(dir, first));
          StoredResult.write(dir, new Notes(first.notes()));
        });
  }

  /** Writes only what later stages read. */
  void makeGround(Path dir) {
    List<RasterProduct<Hazard, ?>> read =
        products().stream().filter(p -> LATER.contains(p.name())).toList();
    write(dir, read, (first, files) -> {});
  }

  private void write(
      Path dir,
      List<RasterProduct<Hazard, ?>> products,
      BiConsumer<Hazard, ProductFiles<Hazard>> onFirst) {
    try (ProductFiles<Hazard> files = stages.files(dir, spec, products);
        FinishedGround.TerrainRows terrain = ground.terrain()) {
      GroundStages.HazardRows hazards = stages.hazardStrips(spec, demands);
      job.progress().begin(ID, spec.cells());
      job.strips()
          .each(
              hazards.haloRows(),
              (top, fromRow, rows, end) -> {
                Hazard strip = hazards.strip(terrain.rows(top, end - top), top);
                if (fromRow == 0) {
                  onFirst.accept(strip, files);
                }
                files.append(strip, fromRow - top, rows);
                ground.computed(demands, strip);
              });
      job.progress().end();
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
              h -> h.boulders().orElseThrow().hitsPerKm()));
      products.add(
          RasterProduct.floats(
              "mean_free_path_m",
              BandInfo.of(
                  "mean distance to the next rock that stops wheels or belly, infinite where there is none",
                  "m"),
              h -> freePathM(h.boulders().orElseThrow().hitsPerKm())));
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
            BandInfo.codes("cause with the largest hazard", codes())
                .coloured(CodeColours.apart(codeOrder())),
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
        h.keepOut().isEmpty()
            ? List.of()
            : List.of(new Feature(h.keepOut(), Map.of("margin_m", stages.marginM(demands))));
    Layers.write(
        dir.resolve("keep_out.gpkg"),
        spec,
        Layers.polygons(
            new Layers.Words(
                "keep_out",
                "",
                "keep-out ground",
                "Keep-out areas with the margin and half the vehicle's width about them"),
            areas));
    Layers.writeGeoJson(dir.resolve("keep_out.geojson"), spec, job.job().dem().body(), areas);
    writeNamed(dir);
  }

  private static List<Integer> codeOrder() {
    return Arrays.stream(Hazard.Cause.values()).map(Hazard.Cause::code).toList();
  }

  /** Writes the areas as the job's files have them, with their names and reasons. */
  private void writeNamed(Path dir) {
    List<KeepOutFile.Named> all = new ArrayList<>();
    for (Path file : new LinkedHashSet<>(job.job().hazard().keepOut())) {
      all.addAll(KeepOutFile.named(file, stages.frame()));
    }
    List<Feature> features = new ArrayList<>();
    for (KeepOutFile.Named n : all) {
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("name", n.words().name());
      about.put("reason", n.words().reason());
      about.put("area_m2", n.area().getArea());
      features.add(new Feature(n.area(), about));
    }
    Layers.write(
        dir.resolve("keep_out_areas.gpkg"),
        spec,
        Layers.polygons(
            new Layers.Words(
                "keep_out_areas",
                "",
                "keep-out areas as drawn",
                "The areas of the job's files with their names and reasons, without a margin"),
            features));
    Layers.writeGeoJson(
        dir.resolve("keep_out_areas.geojson"), spec, job.job().dem().body(), features);
    PlaceTable.write(
        dir.resolve("keep_out.csv"),
        List.of(
            Column.position("area"),
            Column.foreignText("name", n -> n.words().name()),
            Column.foreignText("reason", n -> n.words().reason()),
            Column.number("x_m", 2, n -> n.area().getInteriorPoint().getX()),
            Column.number("y_m", 2, n -> n.area().getInteriorPoint().getY()),
            Column.number("area_m2", 1, n -> n.area().getArea())),
        all,
        stages.frame());
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
  public ShownHazard load(Path dir) {
    ShownCells shown = job.strips().shown();
    return new ShownHazard(
        shown.floats(dir.resolve("hazard.tif")),
        shown.codes(dir.resolve("causes.tif")),
        stages.hazardStrips(spec, demands).strips().keepOut()::outline,
        StoredResult.read(dir, Notes.class).notes());
  }
}
