package org.scarpway.run;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.scarpway.geodata.BandInfo;
import org.scarpway.geodata.Feature;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;

/** hazard/: rocks, keep-out ground and margins. */
final class HazardUnit implements Unit<Hazard> {
  private static final int VERSION = 2;

  private final GridSpec spec;
  private final Supplier<Terrain> terrain;
  private final GroundStages stages;
  private final Demands demands;
  private final StageKey key;

  HazardUnit(OpenJob job, StageNode<Terrain> terrain) {
    this.spec = job.spec();
    this.terrain = terrain;
    this.stages = job.stages();
    this.demands = Demands.of(job.job().vehicles());
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
    return stages.hazard(terrain.get());
  }

  @Override
  public void write(Path dir, Hazard h) {
    FileBatch files = stages.files();
    files.add(
        dir.resolve("hazard.tif"),
        h.hazard01(),
        BandInfo.of("hazard, 0 none to 1 certain, the largest of its causes", "1"));
    Map<String, String> bits = new TreeMap<>();
    for (Hazard.Cause c : Hazard.Cause.values()) {
      bits.put("BIT_" + c.bit(), name(c));
    }
    files.add(
        dir.resolve("causes.tif"),
        h.causes(),
        new BandInfo("causes of the hazard, sum of bits; 0 none", "code", 0, bits));
    files.add(
        dir.resolve("detour_factor.tif"),
        h.detourFactor(),
        BandInfo.of("length of the way around rocks over the straight way", "1"));
    files.add(
        dir.resolve("dominant.tif"),
        h.dominant(),
        BandInfo.codes("cause with the largest hazard", codes()));
    if (h.hitsPerKm() != null) {
      files.add(
          dir.resolve("hits_per_km.tif"),
          h.hitsPerKm(),
          BandInfo.of("rocks too large to straddle met by the swath per km", "1/km"));
      files.add(
          dir.resolve("mean_free_path_m.tif"),
          freePathM(h.hitsPerKm()),
          BandInfo.of("mean distance to the next rock too large to straddle", "m"));
    }
    List<Feature> areas =
        h.keepOut() == null || h.keepOut().isEmpty()
            ? List.of()
            : List.of(new Feature(h.keepOut(), Map.of("margin_m", stages.marginM(demands))));
    files.add(
        () -> Layers.write(dir.resolve("keep_out.gpkg"), spec, Layers.polygons("keep_out", areas)));
    files.write();
  }

  private static FloatGrid freePathM(FloatGrid hitsPerKm) {
    float[] path = new float[hitsPerKm.values().length];
    for (int i = 0; i < path.length; i++) {
      path[i] = 1000 / hitsPerKm.values()[i];
    }
    return new FloatGrid(hitsPerKm.spec(), path);
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
    return compute();
  }
}
