package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.ShownHazard;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.MapView;
import org.scarpway.terrain.SlopeClass;

/** The section on the ground itself: slope, hazard and the causes of hazard. */
final class GroundSection {
  private GroundSection() {}

  static Section of(Ground ground) {
    ReportData data = ground.data;
    List<MapView> maps = new ArrayList<>();
    Layer slope =
        ground.keep(
            ground.layers.ramp(
                "slope", "Slope", "deg", data.terrain().slopeDeg(), 0, Double.NaN, ""));
    maps.add(
        new MapView(
            "map-slope",
            slope,
            data.hazard() == null ? "" : "Hazard: a layer of the map at the head of the page.",
            ground.places(),
            List.of()));
    List<TableView> tables = new ArrayList<>();
    if (data.hazard() != null) {
      tables.add(causeTable(ground, data.hazard()));
    }
    tables.add(slopeTable(ground, data.terrain().slopeDeg().values()));
    MoreGround.add(ground, maps, tables);
    return new Section(
        "ground",
        "Slope and hazard",
        new Answer(List.of(), List.of()),
        "",
        "",
        maps,
        List.of(
            new Section.Chart("Roughness over scales", ScalingChart.svg(data.more().scaling()))),
        tables);
  }

  private static TableView slopeTable(Ground ground, float[] slopeDeg) {
    long[] cells = new long[SlopeClass.values().length];
    SlopeClass.count(slopeDeg, 0, slopeDeg.length, cells);
    boolean named = ground.data.facts().reconnaissance();
    List<String> header =
        new ArrayList<>(List.of("slope", "area (km²)", "share of ground with elevation (%)"));
    if (named) {
      header.add("terrain for vehicles");
    }
    TableView table =
        new TableView(
            "Ground by class of slope" + (named ? " (FM 5-33; terrain classes of FM 34-130)" : ""),
            header);
    for (SlopeClass c : SlopeClass.values()) {
      double m2 = cells[c.ordinal()] * ground.spec.cellAreaM2();
      List<String> row =
          new ArrayList<>(
              List.of(c.label(), Figures.km2(m2), Figures.percent(m2, ground.groundM2)));
      if (named) {
        row.add(c.terrain());
      }
      table.row(null, row);
    }
    return table;
  }

  private static TableView causeTable(Ground ground, ShownHazard hazard) {
    long[] cells = new long[Hazard.Cause.values().length];
    for (byte bits : hazard.causes().values()) {
      for (Hazard.Cause cause : Hazard.Cause.values()) {
        if ((bits & cause.bit()) != 0) {
          cells[cause.ordinal()]++;
        }
      }
    }
    TableView table =
        new TableView(
            "Ground by cause of hazard; causes overlap",
            "cause",
            "area (km²)",
            "share of ground with elevation (%)");
    for (Hazard.Cause cause : Hazard.Cause.values()) {
      double m2 = cells[cause.ordinal()] * ground.spec.cellAreaM2();
      double whole = cause == Hazard.Cause.VOID ? ground.windowM2 : ground.groundM2;
      table.row(text(cause), Figures.km2(m2), Figures.percent(m2, whole));
    }
    return table;
  }

  private static String text(Hazard.Cause cause) {
    return switch (cause) {
      case SLOPE -> "slope";
      case STEP -> "step";
      case ROUGHNESS -> "roughness";
      case ROCKS -> "rocks";
      case KEEP_OUT -> "keep-out area";
      case NARROW -> "gap too narrow";
      case POCKET -> "pocket without room to turn";
      case VOID -> "no elevation or no rock data (share of the window)";
    };
  }
}
