package org.scarpway.report;

import java.util.List;
import java.util.Map;
import org.scarpway.grid.FloatGrid;
import org.scarpway.report.Section.MapView;
import org.scarpway.terrain.Derivative;
import org.scarpway.terrain.Scaling;
import org.scarpway.terrain.SelfAffine;
import org.scarpway.terrain.SlopeSpread;

/** Maps and tables of the further derivatives that the job asks for beyond slope and hazard. */
final class MoreGround {
  private final Ground ground;
  private final List<MapView> maps;

  private MoreGround(Ground ground, List<MapView> maps) {
    this.ground = ground;
    this.maps = maps;
  }

  static void add(Ground ground, List<MapView> maps, List<TableView> tables) {
    MoreGround more = new MoreGround(ground, maps);
    for (Map.Entry<Derivative, FloatGrid> e : ground.data.more().derivatives().entrySet()) {
      more.derivative(e.getKey(), e.getValue());
    }
    if (ground.data.more().spread() != null) {
      more.spread(ground.data.more().spread());
    }
    if (ground.data.more().scaling() != null) {
      tables.add(scaling(ground.data.more().scaling()));
    }
  }

  private void derivative(Derivative d, FloatGrid grid) {
    String title = Character.toUpperCase(d.title().charAt(0)) + d.title().substring(1);
    String unit = d.unit().equals("1") ? "0 to 1" : d.unit();
    String note = Character.toUpperCase(d.description().charAt(0)) + d.description().substring(1);
    map(
        d.signed()
            ? ground.layers.both(d.key(), title, unit, grid, note + ".")
            : ground.layers.ramp(d.key(), title, unit, grid, 0, Double.NaN, note + "."));
  }

  private void spread(SlopeSpread s) {
    String by = s.realisations() + " realisations of the height error, seed " + s.seed() + ".";
    map(
        ground.layers.ramp(
            "slope-sigma",
            "Slope error by simulation",
            "deg",
            s.sigmaDeg(),
            0,
            Double.NaN,
            "Standard deviation over " + by));
    map(
        ground.layers.ramp(
            "slope-over-limit",
            "Probability of a slope above " + Figures.brief(s.limitDeg()) + " deg",
            "0 to 1",
            s.overLimit01(),
            0,
            1,
            "Share of " + by));
  }

  private void map(Layer layer) {
    maps.add(new MapView("map-" + layer.id(), ground.keep(layer), "", ground.places(), List.of()));
  }

  private static TableView scaling(Scaling s) {
    SelfAffine law = s.law();
    String caption =
        law == null
            ? "Roughness over scales; no scaling law could be fitted"
            : "Roughness over scales: Hurst exponent "
                + Figures.fixed(law.hurst(), 2)
                + " (95 %: "
                + Figures.fixed(law.hurstLow(), 2)
                + " to "
                + Figures.fixed(law.hurstHigh(), 2)
                + "), R² "
                + Figures.fixed(law.r2(), 3)
                + "; by that law RMS deviation at "
                + Figures.sig(s.estimate().lagM())
                + " m is "
                + Figures.sig(s.estimate().deviationM())
                + " m ("
                + Figures.sig(s.estimate().lowM())
                + " to "
                + Figures.sig(s.estimate().highM())
                + " m), an estimate";
    TableView table =
        new TableView(
            caption,
            "along",
            "lag (m)",
            "RMS deviation (m)",
            "RMS slope (deg)",
            "median differential slope (deg)");
    for (Scaling.Lag lag : s.lags()) {
      table.row(
          lag.along(),
          Figures.sig(lag.lagM()),
          Figures.sig(lag.deviationM()),
          Figures.fixed(lag.rmsSlopeDeg(), 2),
          Double.isNaN(lag.medianDifferentialSlopeDeg())
              ? Figures.NONE
              : Figures.fixed(lag.medianDifferentialSlopeDeg(), 2));
    }
    return table;
  }
}
