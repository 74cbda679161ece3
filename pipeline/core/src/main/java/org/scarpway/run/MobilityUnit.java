package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.locationtech.jts.geom.MultiPolygon;
import org.scarpway.geodata.BandInfo;
import org.scarpway.geodata.CellPolygons;
import org.scarpway.geodata.CsvTable;
import org.scarpway.geodata.Feature;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.Vehicle;

/** mobility/VEHICLE/: where one vehicle can go, and why not elsewhere. */
final class MobilityUnit implements Unit<Mobility> {
  private static final int VERSION = 3;

  private final GridSpec spec;
  private final Vehicle vehicle;
  private final Body body;
  private final Supplier<Terrain> terrain;
  private final GroundStages stages;
  private final StageKey key;

  MobilityUnit(OpenJob job, Vehicle vehicle, StageNode<Terrain> terrain) {
    this.spec = job.spec();
    this.vehicle = vehicle;
    this.body = job.job().dem().body();
    this.terrain = terrain;
    this.stages = job.stages();
    this.key =
        StageKey.of("mobility", VERSION)
            .add(terrain.key())
            .add("hazard", JobKeys.hazard(job.job(), job.digests()))
            .add("soils", JobKeys.soils(job.job(), job.digests()))
            .add("vehicle", vehicle)
            .add("body", body)
            .build();
  }

  @Override
  public String id() {
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
  public Mobility compute() {
    return stages.mobility(terrain.get(), vehicle);
  }

  @Override
  public void write(Path dir, Mobility m) {
    String of = " of " + vehicle.name();
    FileBatch files = stages.files();
    files.add(() -> writeNoGo(dir, m));
    files.add(
        dir.resolve("class.tif"),
        m.cls(),
        BandInfo.codes("class" + of, Map.of("CODE_1", "go", "CODE_2", "slow", "CODE_3", "no-go")));
    Map<String, String> limits = new TreeMap<>();
    for (Limit l : Limit.values()) {
      limits.put(String.format(Locale.ROOT, "CODE_%02d", l.code()), l.label());
    }
    files.add(dir.resolve("limit.tif"), m.limit(), BandInfo.codes("limit that binds" + of, limits));
    files.add(
        dir.resolve("headings_pct.tif"),
        m.headingsPct(),
        BandInfo.of("share of the " + Headings.COUNT + " headings allowed" + of, "%"));
    files.add(
        dir.resolve("speed_ms.tif"),
        m.speedMs(),
        BandInfo.of("mean speed over the allowed headings" + of, "m/s"));
    files.add(
        dir.resolve("energy_jm.tif"),
        m.energyJm(),
        BandInfo.of("mean energy over the allowed headings" + of, "J/m"));
    files.add(
        dir.resolve("margin.tif"),
        m.margin01(),
        BandInfo.of("share of the binding limit that is left, negative beyond it" + of, "1"));
    SoilMap soils = stages.soils(spec);
    if (soils != null && SoilMap.bearsOn(vehicle)) {
      addSoils(files, dir.resolve("soil.tif"), soils);
    }
    files.write();
    writeAreas(dir.resolve("areas.csv"), m);
  }

  private void writeNoGo(Path dir, Mobility m) {
    MultiPolygon noGo = CellPolygons.trace(m.cls(), Mobility.NO_GO);
    List<Feature> features = new ArrayList<>();
    for (int i = 0; i < noGo.getNumGeometries(); i++) {
      features.add(new Feature(noGo.getGeometryN(i), attributes(noGo.getGeometryN(i).getArea())));
    }
    Layers.write(dir.resolve("no_go.gpkg"), spec, Layers.polygons("no_go", features));
    Layers.writeGeoJson(dir.resolve("no_go.geojson"), spec, body, features);
  }

  /** Code 1 is the vehicle's own soil: 0 means no data in every product. */
  private void addSoils(FileBatch files, Path file, SoilMap soils) {
    ByteGrid codes = ByteGrid.empty(spec);
    for (int cell = 0; cell < codes.values().length; cell++) {
      codes.values()[cell] = (byte) (soils.soilAt().values()[cell] + 1);
    }
    Map<String, String> names = new TreeMap<>();
    names.put("CODE_001", vehicle.soil() == null ? "rolling coefficient" : vehicle.soil().name());
    for (int i = 0; i < soils.soils().size(); i++) {
      names.put(String.format(Locale.ROOT, "CODE_%03d", i + 2), soils.soils().get(i).name());
    }
    files.add(file, codes, BandInfo.codes("soil under " + vehicle.name(), names));
  }

  private static Map<String, Object> attributes(double areaM2) {
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("class", "no-go");
    about.put("area_m2", areaM2);
    return about;
  }

  private void writeAreas(Path file, Mobility m) {
    long[] byClass = new long[4];
    long[] byLimit = new long[32];
    byte[] cls = m.cls().values();
    byte[] limit = m.limit().values();
    for (int i = 0; i < cls.length; i++) {
      byClass[cls[i]]++;
      if (cls[i] == Mobility.NO_GO) {
        byLimit[limit[i]]++;
      }
    }
    long known = byClass[1] + byClass[2] + byClass[3];
    List<List<Object>> rows = new ArrayList<>();
    rows.add(row("class", "go", byClass[Mobility.GO], known));
    rows.add(row("class", "slow", byClass[Mobility.SLOW], known));
    rows.add(row("class", "no-go", byClass[Mobility.NO_GO], known));
    for (Limit l : Limit.values()) {
      if (byLimit[l.code()] > 0) {
        rows.add(row("no-go by limit", l.label(), byLimit[l.code()], known));
      }
    }
    CsvTable.write(
        file,
        List.of(
            CsvTable.Column.text("kind"),
            CsvTable.Column.text("name"),
            CsvTable.Column.text("cells"),
            CsvTable.Column.number("area_km2", 6),
            CsvTable.Column.number("share_pct", 3)),
        rows);
  }

  private List<Object> row(String kind, String name, long cells, long known) {
    return List.of(
        kind,
        name,
        cells,
        cells * spec.cellAreaM2() / 1e6,
        known == 0 ? Double.NaN : 100.0 * cells / known);
  }

  @Override
  public Mobility load(Path dir) {
    return compute();
  }
}
