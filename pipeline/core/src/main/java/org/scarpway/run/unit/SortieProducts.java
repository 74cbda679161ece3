package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.locationtech.jts.geom.MultiPolygon;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.vector.CellPolygons;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.report.CodeColours;
import org.scarpway.report.SortieAnswer;
import org.scarpway.report.SortieData;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.product.StoredResult;

/** Writes and reads the files of sortie/NAME/. */
final class SortieProducts {
  /** The parts of the answer that are not in a raster. */
  record Rest(
      List<Double> surelyM2,
      double possiblyM2,
      List<Double> edgeM,
      List<String> warnings,
      SortieAnswer plan) {}

  private final GridSpec spec;
  private final Body body;

  private final Supplier<PlaceFrame> frame;

  /**
   * @param frame of the elevation model, for tables
   */
  SortieProducts(GridSpec spec, Body body, Supplier<PlaceFrame> frame) {
    this.spec = spec;
    this.body = body;
    this.frame = frame;
  }

  static List<RasterProduct<SortieData, ?>> rasters(DayRingsRequest request, String vehicle) {
    List<RasterProduct<SortieData, ?>> all = new ArrayList<>();
    Map<String, String> days = new TreeMap<>();
    for (int k = 1; k <= request.days(); k++) {
      days.put(code(k), "day " + k);
    }
    String home = ", home by day " + request.days() + " by " + ReachProducts.rule(request.home());
    all.add(
        RasterProduct.codes(
            "days",
            BandInfo.codes(
                    "day of arrival from " + request.baseName() + home + ", " + vehicle, days)
                .coloured(CodeColours.steps(request.days())),
            r -> r.rings().day()));
    all.add(
        RasterProduct.codes(
            "state",
            BandInfo.codes(
                    "reached within every limit of the sortie and the home rule",
                    Map.of(
                        "CODE_1",
                        "surely",
                        "CODE_2",
                        "possibly",
                        "CODE_" + DayRings.AT_EDGE,
                        "surely, at the edge of the elevation model"))
                .coloured(CodeColours.apart(List.of(1, 2, (int) DayRings.AT_EDGE))),
            r -> r.rings().state()));
    if (request.tellsLastNight()) {
      Map<String, String> nights = new TreeMap<>();
      for (int k = 1; k < request.days(); k++) {
        nights.put(code(k), "night after day " + k);
      }
      all.add(
          RasterProduct.codes(
              "last_night",
              BandInfo.codes("last night that may be spent there" + home, nights)
                  .coloured(CodeColours.steps(request.days() - 1)),
              r -> r.rings().lastNight()));
    }
    return all;
  }

  private static String code(int k) {
    return String.format(Locale.ROOT, "CODE_%02d", k);
  }

  /**
   * @param cells surely reached by the end of each day
   */
  void writePolygons(Path dir, DayRings r, List<CellSet> cells) {
    List<Feature> features = new ArrayList<>();
    for (int k = 0; k < cells.size(); k++) {
      MultiPolygon inside = CellPolygons.multi(CellPolygons.of(cells.get(k)));
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("day", k + 1);
      about.put("area_m2", r.surelyM2().get(k));
      about.put("edge_m", r.edgeM().get(k));
      features.add(new Feature(inside, about));
    }
    String name = r.request().name();
    Layers.write(
        dir.resolve("days.gpkg"),
        spec,
        Layers.polygons(
            new Layers.Words(
                "days",
                name,
                "days of " + name,
                "Ground surely reached by the end of each day from "
                    + r.request().baseName()
                    + " by "
                    + r.vehicle()
                    + ", home by day "
                    + r.request().days()
                    + "; later days include earlier ones"),
            features));
    Layers.writeGeoJson(dir.resolve("days.geojson"), spec, body, features);
  }

  void writeRest(Path dir, SortieData data) {
    DayRings r = data.rings();
    List<Integer> days = new ArrayList<>();
    for (int k = 1; k <= r.request().days(); k++) {
      days.add(k);
    }
    CsvTable.write(
        dir.resolve("days.csv"),
        List.of(
            Column.whole("day", k -> k),
            Column.number("surely_m2", 1, k -> r.surelyM2().get(k - 1)),
            Column.number("edge_m", 1, k -> r.edgeM().get(k - 1)),
            Column.text("lower_bound", k -> r.edgeM().get(k - 1) > 0 ? "yes" : "no")),
        days);
    if (data.plan() != null) {
      SortieTables.write(dir, data.plan(), frame.get());
      SortieTables.writeRoute(dir, r.request().name(), data.plan(), spec, body);
    }
    StoredResult.write(
        dir, new Rest(r.surelyM2(), r.possiblyM2(), r.edgeM(), r.warnings(), data.plan()));
  }

  /** Returns the part of the answer that a report shows. */
  static SortieData shown(Path dir, DayRingsRequest request, String vehicle, ShownCells shown) {
    Rest rest = StoredResult.read(dir, Rest.class);
    return new SortieData(
        new DayRings(
            request,
            vehicle,
            shown.codes(dir.resolve("days.tif")),
            shown.codes(dir.resolve("state.tif")),
            null,
            rest.surelyM2(),
            rest.possiblyM2(),
            rest.edgeM(),
            rest.warnings()),
        rest.plan());
  }
}
