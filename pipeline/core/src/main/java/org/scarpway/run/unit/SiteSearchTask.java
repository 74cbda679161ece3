package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.config.Job;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.PlaceTable;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.FoundSite;
import org.scarpway.site.SearchParams;
import org.scarpway.site.SiteSearch;
import org.scarpway.vehicle.ShownMobility;

/** The stage site-search/: places that may be good sites. */
final class SiteSearchTask implements StageTask<SiteSearch.Result> {
  private static final int VERSION = 4;

  private final OpenJob job;
  private final SearchParams params;
  private final StageNode<ShownMobility> mobility;
  private final FinishedGround ground;
  private final StageKey key;

  SiteSearchTask(
      OpenJob job,
      Job.SearchSettings settings,
      StageNode<ShownMobility> mobility,
      FinishedGround ground) {
    this.job = job;
    this.params = settings.params();
    this.mobility = mobility;
    this.ground = ground;
    this.key =
        StageKey.of("site-search", VERSION)
            .add(mobility.key())
            .add("spacing", params.spacingM())
            .add("time", params.timeS())
            .add("clear", params.clearM())
            .add("keep", params.keep())
            .add("apart", params.apartM())
            .build();
  }

  @Override
  public String id() {
    return "site-search";
  }

  @Override
  public boolean isQuestion() {
    return true;
  }

  @Override
  public StageKey key() {
    return key;
  }

  /** The cells are counted for every place, each of which evaluates its part of them. */
  @Override
  public long cells() {
    return job.spec().cells() * SiteSearch.places(job.spec(), params.spacingM());
  }

  @Override
  public void make(Path dir) {
    SiteSearch.Result result;
    try (RasterRows<byte[]> classes =
        RasterRows.open(mobility.folder().resolve("class.tif"), CellKind.UINT8)) {
      result =
          SiteSearch.search(
              params,
              (row, into) -> classes.read(row, 1, into),
              ground.of(mobility.get().vehicle()).field(),
              job.workers(),
              job.progress());
    }
    job.workers().memory().freeScratch();
    List<Feature> points = new ArrayList<>();
    for (FoundSite f : result.found()) {
      double pct = result.groundPct(f);
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("rank", f.rank());
      about.put("name", f.name());
      about.put("screened_km2", f.areaM2() / 1e6);
      about.put("ground_pct", pct);
      about.put("room_m", f.roomM());
      points.add(
          new Feature(new GeometryFactory().createPoint(new Coordinate(f.xM(), f.yM())), about));
    }
    PlaceTable.write(
        dir.resolve("places.csv"),
        List.of(
            Column.whole("rank", FoundSite::rank),
            Column.text("name", FoundSite::name),
            Column.number("x_m", 2, FoundSite::xM),
            Column.number("y_m", 2, FoundSite::yM),
            Column.number("screened_km2", 4, f -> f.areaM2() / 1e6),
            Column.number("ground_pct", 2, result::groundPct),
            Column.number("room_m", 2, FoundSite::roomM)),
        result.found(),
        job.stages().frame());
    Layers.write(
        dir.resolve("places.gpkg"),
        job.spec(),
        Layers.points(
            new Layers.Words(
                "places",
                "",
                "places found by the search",
                "Best places of the lattice, by the ground in reach of each as bounded from above"),
            points));
    Layers.writeGeoJson(dir.resolve("places.geojson"), job.spec(), job.job().dem().body(), points);
    StoredResult.write(dir, result);
  }

  @Override
  public SiteSearch.Result load(Path dir) {
    return StoredResult.read(dir, SiteSearch.Result.class);
  }
}
