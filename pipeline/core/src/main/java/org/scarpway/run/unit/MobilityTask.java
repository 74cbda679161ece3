package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.vector.CellPolygons;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.report.CodeColours;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.JobKeys;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoilLayer;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.stage.Bytes;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;

/** The stage mobility/VEHICLE/: the ground that one vehicle can use, and why not the rest. */
final class MobilityTask implements StageTask<ShownMobility> {
  private static final int VERSION = 19;
  private static final int NO_VERDICT = 0;

  private final OpenJob job;
  private final GridSpec spec;
  private final Vehicle vehicle;
  private final Body body;
  private final FinishedGround ground;
  private final GroundStages stages;
  private final StageKey key;

  /**
   * @param terrain key of the terrain
   */
  MobilityTask(OpenJob job, Vehicle vehicle, StageKey terrain, FinishedGround ground) {
    this.job = job;
    this.spec = job.spec();
    this.vehicle = vehicle;
    this.body = job.job().dem().body();
    this.ground = ground;
    this.stages = job.stages();
    this.key =
        StageKey.of("mobility", VERSION)
            .add(terrain)
            .add("hazard", JobKeys.hazard(job.job(), job.digests()))
            .add("soils", JobKeys.soils(job.job(), job.digests()))
            .add("vehicle", vehicle)
            .add("body", body)
            .add("unresolved", job.job().terrain().unresolved().name())
            .add("confidence", job.job().confidence())
            .build();
  }

  @Override
  public String id() {
    return id(vehicle);
  }

  /** Returns the id of the stage of a vehicle. */
  static String id(Vehicle vehicle) {
    return "mobility/" + vehicle.name();
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
    ClassAreas areas = new ClassAreas(spec);
    CellSet noGo = new CellSet(spec, job.workers().memory());
    CellSet noVerdict = new CellSet(spec, job.workers().memory());
    Bytes limits = Bytes.of(spec.cells(), job.workers().memory().scratch(spec.cells()));
    try (ProductFiles<Mobility> files = stages.files(dir, spec, products())) {
      MobilityStrips.Rest rest =
          new MobilityStrips(job, vehicle, ground)
              .each(
                  (m, fromRow, skipRows, rows) -> {
                    byte[] cls = m.cls().values();
                    int skip = skipRows * spec.cols();
                    noGo.add(fromRow, rows, i -> cls[skip + i] == Mobility.NO_GO);
                    noVerdict.add(fromRow, rows, i -> cls[skip + i] == NO_VERDICT);
                    limits.write(
                        fromRow * spec.cols(), m.limit().values(), skip, rows * spec.cols());
                    if (fromRow + rows == spec.rows()) {
                      files.with(() -> writeNoGo(dir, noGo, noVerdict, limits));
                    }
                    files.append(m, skipRows, rows);
                    areas.add(m, skipRows, rows);
                    ground.computed(m, skipRows, rows);
                  });
      files.finish();
      areas.of(rest.unresolved(), rest.slow(), rest.cells());
      StoredResult.write(dir, rest);
    }
    areas.write(dir.resolve("areas.csv"));
  }

  /** Writes only the classes. */
  void makeGround(Path dir) {
    List<RasterProduct<Mobility, ?>> classes =
        products().stream().filter(p -> p.name().equals("class")).toList();
    try (ProductFiles<Mobility> files = stages.files(dir, spec, classes)) {
      new MobilityStrips(job, vehicle, ground)
          .each(
              (m, fromRow, skipRows, rows) -> {
                files.append(m, skipRows, rows);
                ground.computed(m, skipRows, rows);
              });
      files.finish();
    }
  }

  private List<RasterProduct<Mobility, ?>> products() {
    String of = " of " + vehicle.name();
    Map<String, String> limits = new TreeMap<>();
    for (Limit l : Limit.values()) {
      limits.put(String.format(Locale.ROOT, "CODE_%02d", l.code()), l.label());
    }
    Map<String, String> classes = Map.of("CODE_1", "go", "CODE_2", "slow", "CODE_3", "no-go");
    List<RasterProduct<Mobility, ?>> all = new ArrayList<>();
    all.add(
        RasterProduct.codes(
            "class",
            BandInfo.codes("class" + of, classes).coloured(CodeColours.mobility()),
            Mobility::cls));
    all.add(
        RasterProduct.codes(
            "limit",
            BandInfo.codes("limit that binds" + of, limits).coloured(CodeColours.limits()),
            Mobility::limit));
    all.add(
        RasterProduct.floats(
            "headings_pct",
            BandInfo.of("share of the " + Headings.COUNT + " headings allowed" + of, "%"),
            Mobility::headingsPct));
    all.add(
        RasterProduct.floats(
            "speed_ms",
            BandInfo.of("mean speed over the allowed headings" + of, "m/s"),
            Mobility::speedMs));
    all.add(
        RasterProduct.floats(
            "energy_jm",
            BandInfo.of("mean energy over the allowed headings" + of, "J/m"),
            Mobility::energyJm));
    all.add(
        RasterProduct.floats(
            "margin",
            BandInfo.of("share of the binding limit that is left, negative beyond it" + of, "1"),
            Mobility::margin01));
    if (job.job().dem().verticalSigmaM() != null) {
      all.add(
          RasterProduct.floats(
              "p_no_go",
              BandInfo.of("probability that a limit is broken on the best heading" + of, "1"),
              m -> m.noGo01().orElseThrow()));
    }
    if (job.job().soils() != null && SoilMap.bearsOn(vehicle)) {
      all.add(soilProduct(SoilLayer.soils(job.job().soils())));
    }
    return all;
  }

  /**
   * Writes the no-go polygons, unknown ground included: whoever masks by them must not treat
   * unknown ground as open.
   */
  private void writeNoGo(Path dir, CellSet noGo, CellSet noVerdict, Bytes limits) {
    CodeShares causes = new CodeShares(spec, limits);
    List<Feature> features =
        Feature.both(
            Feature.each(CellPolygons.of(noGo), p -> feature(p, "no-go", causes)),
            Feature.each(CellPolygons.of(noVerdict), p -> feature(p, "no verdict", causes)));
    Layers.Words words =
        new Layers.Words(
            "no_go",
            vehicle.name(),
            "no-go ground of " + vehicle.name(),
            "Ground that "
                + vehicle.name()
                + " cannot enter on any heading, and ground without a verdict, with the limits or"
                + " missing data that close most of each polygon");
    Layers.write(dir.resolve("no_go.gpkg"), spec, Layers.polygons(words, features));
    Layers.writeGeoJson(dir.resolve("no_go.geojson"), spec, body, features);
  }

  private static Feature feature(Polygon one, String name, CodeShares causes) {
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("class", name);
    about.put("area_m2", one.getArea());
    List<CodeShares.Share> shares = causes.of(one);
    about.put("cause", label(shares.get(0)));
    about.put("cause_pct", 100 * shares.get(0).share());
    about.put(
        "causes",
        shares.stream()
            .map(s -> String.format(Locale.ROOT, "%s %.1f %%", label(s), 100 * s.share()))
            .collect(Collectors.joining(", ")));
    return new Feature(one, about);
  }

  private static String label(CodeShares.Share share) {
    return share.code() == 0 ? "none" : Limit.ofCode((byte) share.code()).label();
  }

  /** Soil codes: 1 is the vehicle's own soil, because 0 means no data in every product. */
  private RasterProduct<Mobility, byte[]> soilProduct(List<Soil> soils) {
    Map<String, String> names = new TreeMap<>();
    names.put("CODE_001", vehicle.soil() == null ? "rolling coefficient" : vehicle.soil().name());
    for (int i = 0; i < soils.size(); i++) {
      names.put(String.format(Locale.ROOT, "CODE_%03d", i + 2), soils.get(i).name());
    }
    names.put(String.format(Locale.ROOT, "CODE_%03d", soils.size() + 2), "not known");
    names.put(String.format(Locale.ROOT, "CODE_%03d", soils.size() + 3), "several");
    BandInfo info = BandInfo.codes("soil under " + vehicle.name(), names);
    return RasterProduct.codes(
        "soil",
        info.coloured(CodeColours.apart(info.meanings().keySet())),
        m -> soilCodes(m.field()));
  }

  private static ByteGrid soilCodes(TraversalCost field) {
    ByteGrid codes = ByteGrid.empty(field.spec());
    for (int cell = 0; cell < codes.values().length; cell++) {
      codes.values()[cell] = (byte) (field.soil(cell) + 1);
    }
    return codes;
  }

  @Override
  public ShownMobility load(Path dir) {
    MobilityStrips.Rest rest = StoredResult.read(dir, MobilityStrips.Rest.class);
    ShownCells shown = job.strips().shown();
    return new ShownMobility(
        vehicle,
        shown.codes(dir.resolve("class.tif")),
        shown.codes(dir.resolve("limit.tif")),
        shown.floats(dir.resolve("headings_pct.tif")),
        shown.floats(dir.resolve("speed_ms.tif")),
        stages.trust(spec).errors() == null
            ? Optional.empty()
            : Optional.of(shown.floats(dir.resolve("p_no_go.tif"))),
        rest.unresolved(),
        rest.slow(),
        rest.cells(),
        rest.notes());
  }
}
