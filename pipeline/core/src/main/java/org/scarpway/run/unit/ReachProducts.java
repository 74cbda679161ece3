package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Supplier;
import org.locationtech.jts.geom.MultiPolygon;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.geodata.vector.CellPolygons;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.BandAmounts;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.StepCodes;
import org.scarpway.report.CodeColours;
import org.scarpway.run.ground.Strips;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.product.StoredResult;
import org.scarpway.site.SiteReach;
import org.scarpway.site.SiteReachRows;

/** Writes and reads the files of reach/NAME/. */
public final class ReachProducts {
  /** The raster that depends on the amounts of the bands. */
  static final String BAND = "band";

  private final GridSpec spec;
  private final Body body;
  private final Supplier<PlaceFrame> frame;
  private final Supplier<String> notShown;

  /**
   * @param frame of the elevation model, for tables
   * @param notShown names of the vehicle's limits that the cells do not resolve, for tables
   */
  ReachProducts(GridSpec spec, Body body, Supplier<PlaceFrame> frame, Supplier<String> notShown) {
    this.spec = spec;
    this.body = body;
    this.frame = frame;
    this.notShown = notShown;
  }

  List<RasterProduct<ReachResult, ?>> rasters(ReachRequest request, String vehicle) {
    String from = " from " + request.baseName() + ", " + vehicle;
    List<RasterProduct<ReachResult, ?>> all = new ArrayList<>();
    add(all, "time_s", "least driving time" + from, "s", ReachResult::timeS);
    add(all, "energy_j", "least energy" + from, "J", ReachResult::energyJ);
    add(
        all,
        "distance_m",
        "surface length of the quickest way" + from,
        "m",
        ReachResult::distanceM);
    add(all, "way_energy_j", "energy along the quickest way" + from, "J", ReachResult::wayEnergyJ);
    if (request.home().drivesHome()) {
      add(
          all,
          "way_home_energy_j",
          "energy along the quickest way home, " + rule(request.home()),
          "J",
          ReachResult::wayHomeEnergyJ);
    }
    add(
        all,
        "home_time_s",
        "least time home, " + rule(request.home()),
        "s",
        ReachResult::homeTimeS);
    if (request.home() == ReachRequest.HomeRule.WALK_BACK) {
      add(all, "walk_energy_j", "metabolic energy of the walk home", "J", ReachResult::walkEnergyJ);
      add(
          all,
          "walk_distance_m",
          "length of the walk home along the ground",
          "m",
          ReachResult::walkDistanceM);
    }
    if (asksOfStops(request)) {
      add(
          all,
          "stop_home_s",
          "time from a stop until everybody is home, " + rule(request.home()),
          "s",
          ReachResult::stopHomeS);
    }
    add(
        all,
        "gap_width_m",
        "narrowest passage on the widest way home",
        "m",
        ReachResult::gapWidthM);
    all.add(
        RasterProduct.codes(
            "state",
            BandInfo.codes(
                    "reachable within every budget and the home rule"
                        + (request.stayS() > 0
                            ? String.format(Locale.ROOT, ", stay %.1f min", request.stayS() / 60)
                            : ""),
                    Map.of("CODE_1", "surely", "CODE_2", "possibly"))
                .coloured(CodeColours.apart(List.of(1, 2))),
            ReachResult::state));
    addSteps(
        all,
        "out_step",
        "next cell of the quickest way from the base, backwards",
        r -> r.steps().out());
    if (request.home().drivesHome()) {
      addSteps(all, "home_step", "next cell of the quickest way home", r -> r.steps().home());
    }
    if (request.home() == ReachRequest.HomeRule.WALK_BACK) {
      addSteps(all, "walk_step", "next cell of the walk home", r -> r.steps().walk());
    }
    if (request.home() == ReachRequest.HomeRule.BASE_RESCUE) {
      addSteps(
          all,
          "fetch_step",
          "next cell of the way of a vehicle that fetches the crew, backwards",
          r -> r.steps().fetch());
      addSteps(all, "ride_step", "next cell of that vehicle's ride home", r -> r.steps().ride());
    }
    Map<String, String> ends = new TreeMap<>();
    for (ReachEnd e : ReachEnd.values()) {
      ends.put(String.format(Locale.ROOT, "CODE_%02d", e.code()), e.label());
    }
    all.add(
        RasterProduct.codes(
            "binding",
            BandInfo.codes("what ends the reach", ends).coloured(CodeColours.ends()),
            ReachResult::binding));
    Map<String, String> bands = new TreeMap<>();
    for (int i = 0; i < request.bands().size(); i++) {
      bands.put(String.format(Locale.ROOT, "CODE_%02d", i + 1), request.bands().get(i).label());
    }
    all.add(
        RasterProduct.codes(
            BAND,
            BandInfo.codes(
                    "smallest band that holds the whole trip to the cell, stay and way home", bands)
                .coloured(CodeColours.steps(bands.size())),
            ReachResult::band));
    return all;
  }

  private static void addSteps(
      List<RasterProduct<ReachResult, ?>> all,
      String name,
      String description,
      Function<ReachResult, ByteGrid> grid) {
    Map<String, String> codes = new TreeMap<>();
    for (int code = 1; code <= StepCodes.CELLS; code++) {
      codes.put(
          String.format(Locale.ROOT, "CODE_%02d", code),
          String.format(
              Locale.ROOT, "rows %+d, columns %+d", StepCodes.rows(code), StepCodes.cols(code)));
    }
    codes.put("CODE_" + StepCodes.SOURCE, "the base");
    codes.put("CODE_" + StepCodes.STRAIGHT, "straight to the base");
    all.add(RasterProduct.codes(name, BandInfo.codes(description, codes), grid));
  }

  /**
   * True if the home rule brings the crew home on foot or in another vehicle from where its own
   * stops.
   */
  private static boolean asksOfStops(ReachRequest request) {
    return switch (request.home()) {
      case NONE, DRIVE_BACK -> false;
      case WALK_BACK, PAIR, BASE_RESCUE -> true;
    };
  }

  private static void add(
      List<RasterProduct<ReachResult, ?>> all,
      String name,
      String description,
      String unit,
      Function<ReachResult, FloatGrid> grid) {
    all.add(RasterProduct.floats(name, BandInfo.of(description, unit), grid));
  }

  /** Returns every target with its answer, from finished products. */
  public static List<ReachResult.TargetReach> targets(Path dir) {
    return StoredResult.read(dir, ReachRest.class).targets();
  }

  /** Returns the answer for a target in one line, as in its row of the table. */
  public static String verdict(ReachResult.TargetReach t) {
    String of =
        String.format(
            Locale.ROOT,
            "target '%s', stay %.1f min: ",
            t.target().name(),
            t.target().stayS() / 60);
    return t.reached()
        ? of
            + String.format(
                Locale.ROOT,
                "reached, %.1f s out, %.1f s home, %.1f s in all",
                t.outTimeS(),
                t.homeTimeS(),
                t.totalTimeS())
        : of + "not reached, " + t.end();
  }

  /** Writes the tables, and the parts of the result that are not in a raster. */
  void writeRest(Path dir, ReachResult r) {
    ReachTables.write(dir, r, notShown.get(), frame.get());
    StoredResult.write(dir, ReachRest.of(r));
  }

  /** Returns what other bands change in a kept answer, and the parts in no raster. */
  QuestionTask.Answer<ReachResult> banded(
      ReachRest rest, BandAmounts amounts, ReachRequest request, String vehicle) {
    ReachRest now =
        rest.withBandAreas(
            amounts == null ? List.of() : amounts.areasM2(request.bands(), spec.cellAreaM2()));
    return (firstRow, rows) -> {
      GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
      int first = firstRow * spec.cols();
      byte[] band =
          amounts == null
              ? new byte[part.cells()]
              : amounts.bands(request.bands(), first, part.cells());
      return partOf(now, request, vehicle, null, null, null, new ByteGrid(part, band));
    };
  }

  /** Returns the part of the result that a report shows. */
  static ReachResult shown(Path dir, ReachRequest request, String vehicle, ShownCells shown) {
    return partOf(
        StoredResult.read(dir, ReachRest.class),
        request,
        vehicle,
        shown.codes(dir.resolve("state.tif")),
        shown.codes(dir.resolve("binding.tif")),
        shown.floats(dir.resolve("gap_width_m.tif")),
        shown.codes(dir.resolve(BAND + ".tif")));
  }

  /**
   * Returns the reach figures of the site from which the question starts, from finished products.
   */
  SiteReach siteReach(Path dir, ReachRequest request, String vehicle, Strips strips) {
    ReachRest rest = StoredResult.read(dir, ReachRest.class);
    SiteReachRows all = new SiteReachRows(spec);
    try (RasterRows<byte[]> states = RasterRows.open(dir.resolve("state.tif"), CellKind.UINT8);
        RasterRows<float[]> gaps =
            RasterRows.open(dir.resolve("gap_width_m.tif"), CellKind.FLOAT32)) {
      strips.each(
          (firstRow, rows) -> {
            GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
            ByteGrid state = ByteGrid.empty(part);
            FloatGrid gapM = FloatGrid.empty(part);
            states.read(firstRow, rows, state.values());
            gaps.read(firstRow, rows, gapM.values());
            all.add(partOf(rest, request, vehicle, state, null, gapM, null), firstRow);
          });
    }
    return all.site();
  }

  private static ReachResult partOf(
      ReachRest rest,
      ReachRequest request,
      String vehicle,
      ByteGrid state,
      ByteGrid binding,
      FloatGrid gapM,
      ByteGrid band) {
    return new ReachResult(
        request,
        vehicle,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        state,
        binding,
        gapM,
        band,
        rest.bandAreasM2(),
        rest.byBudget(),
        rest.targets(),
        rest.passages(),
        rest.summary(),
        rest.drivenAgain(),
        rest.warnings());
  }

  public static String rule(ReachRequest.HomeRule home) {
    return home.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * @param cells of each band, those of smaller ones included
   */
  void writeBands(Path dir, ReachResult r, List<CellSet> cells) {
    List<Feature> features = new ArrayList<>();
    for (int i = 0; i < r.request().bands().size(); i++) {
      ReachRequest.Band b = r.request().bands().get(i);
      MultiPolygon inside = CellPolygons.multi(CellPolygons.of(cells.get(i)));
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("band", b.label());
      about.put("quantity", b.quantity().name().toLowerCase(Locale.ROOT));
      about.put("amount", b.amount());
      about.put("area_m2", r.bandAreasM2().get(i));
      features.add(new Feature(inside, about));
    }
    Layers.write(
        dir.resolve("bands.gpkg"),
        spec,
        Layers.polygons(
            new Layers.Words(
                "bands",
                r.request().name(),
                "reach " + r.request().name(),
                "Ground surely reached from "
                    + r.request().baseName()
                    + " by "
                    + r.vehicle()
                    + ", home by "
                    + rule(r.request().home())
                    + ", for each band; larger bands include smaller ones"),
            features));
    Layers.writeGeoJson(dir.resolve("bands.geojson"), spec, body, features);
  }
}
