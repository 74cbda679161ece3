package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.ContactSettings;
import org.scarpway.config.LightSettings;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.LightData;
import org.scarpway.report.LightData.Amount;
import org.scarpway.run.ground.OpenJob;

/** Light and contact as a report shows them: rasters of product cells on the report's cells. */
public final class LightShown {
  private final OpenJob job;
  private final LightSettings settings;
  private final Path folder;
  private final GridSpec products;
  private final GridSpec shown;

  private LightShown(OpenJob job, Path folder) {
    this.job = job;
    this.settings = job.job().light();
    this.folder = folder;
    this.products = new LightGround(job).productSpec();
    this.shown = job.dem().get().heightM().spec();
  }

  /** Returns light, contact, both or none of them, as far as their stages are finished. */
  public static List<LightData> of(OpenJob job, StageGraph graph) {
    List<LightData> all = new ArrayList<>();
    if (graph.light() != null && graph.light().isFinished()) {
      all.add(new LightShown(job, graph.light().folder()).light(graph.light().get()));
    }
    if (graph.contact() != null && graph.contact().isFinished()) {
      all.add(new LightShown(job, graph.contact().folder()).contact(graph.contact().get()));
    }
    return all;
  }

  private String window() {
    return "From " + settings.from() + " to " + settings.to() + ".";
  }

  private LightData light(LightPlaces places) {
    String raised = "Horizons raised by " + settings.horizonErrorDeg() + " deg.";
    List<Amount> amounts = new ArrayList<>();
    amounts.add(
        amount(LightTask.MEAN_CAUTIOUS, "Mean share of the sun's disk", "1", 1, true, raised));
    amounts.add(
        amount(
            LightTask.DARK_CAUTIOUS, "Longest time in the dark", "h", Double.NaN, false, raised));
    amounts.add(
        amount(
            LightTask.EDGE,
            "Share of horizons at the edge of the data",
            "1",
            1,
            false,
            "Where it is high, light may be less than shown."));
    for (int g = 0; g < settings.at().size(); g++) {
      String from = " from " + settings.at().get(g);
      amounts.add(
          quiet(LightTask.next(g), "next-light-at" + g + "-map", "Next light" + from, false));
      amounts.add(
          quiet(LightTask.left(g), "light-left-at" + g + "-map", "Light left" + from, true));
    }
    return new LightData(
        "sun",
        "Light and shadow",
        "sun",
        "lit",
        "dark",
        window(),
        amounts,
        null,
        at(places),
        LightNotes.of(job.job()));
  }

  private LightData contact(LightPlaces places) {
    List<Amount> amounts = new ArrayList<>();
    if (job.job().contact().earthMarginDeg() != null) {
      String margin =
          "The Earth's centre more than "
              + job.job().contact().earthMarginDeg()
              + " deg above the horizon of an antenna at "
              + job.job().contact().antennaM()
              + " m.";
      amounts.add(
          amount(
              ContactTask.EARTH, "Share of the time in sight of the Earth", "1", 1, true, margin));
      amounts.add(
          amount(
              ContactTask.SILENCE,
              "Longest time out of sight of the Earth",
              "h",
              Double.NaN,
              false,
              margin));
    }
    boolean masts = !job.job().contact().masts().isEmpty();
    for (var mast : job.job().contact().masts()) {
      amounts.add(
          amount(
              ContactSettings.fileName(mast.at()),
              "Antenna height that sees " + mast.at(),
              "m",
              Double.NaN,
              false,
              "Above the ground; 0 where the ground sees the mast of " + mast.heightM() + " m."));
    }
    return new LightData(
        "radio",
        "Contact",
        "Earth",
        "in sight of the Earth",
        "silence",
        window(),
        amounts,
        masts ? codes(ContactTask.LINK) : null,
        at(places),
        List.of());
  }

  private Amount amount(
      String raster, String title, String unit, double high, boolean moreIsSafer, String note) {
    String id = raster.replace('_', '-') + "-map";
    return new Amount(id, title, unit, floats(raster), high, moreIsSafer, true, note);
  }

  private Amount quiet(String raster, String id, String title, boolean moreIsSafer) {
    return new Amount(id, title, "h", floats(raster), Double.NaN, moreIsSafer, false, "");
  }

  private static List<LightData.At> at(LightPlaces places) {
    List<LightData.At> all = new ArrayList<>();
    for (LightPlaces.At p : places.places()) {
      all.add(
          new LightData.At(
              p.name(),
              p.horizonDeg(),
              p.edge(),
              p.path().stream()
                  .map(q -> new LightData.Point(q.azimuthDeg(), q.elevationDeg()))
                  .toList(),
              p.meanShare(),
              p.aboveShare(),
              p.longestBelowH(),
              p.atLeast()));
    }
    return all;
  }

  private FloatGrid floats(String raster) {
    float[] all = new float[products.cells()];
    read(raster, CellKind.FLOAT32, all);
    FloatGrid out = FloatGrid.empty(shown);
    for (int i = 0; i < out.values().length; i++) {
      out.values()[i] = all[product(i)];
    }
    return out;
  }

  private ByteGrid codes(String raster) {
    byte[] all = new byte[products.cells()];
    read(raster, CellKind.UINT8, all);
    byte[] out = new byte[shown.cells()];
    for (int i = 0; i < out.length; i++) {
      out[i] = all[product(i)];
    }
    return new ByteGrid(shown, out);
  }

  private <A> void read(String raster, CellKind<A> kind, A into) {
    try (RasterRows<A> rows = RasterRows.open(folder.resolve(raster + ".tif"), kind)) {
      rows.read(0, products.rows(), into);
    }
  }

  /** The product cell in which the middle of a cell of the report lies. */
  private int product(int cell) {
    int row = cell / shown.cols();
    int col = cell - row * shown.cols();
    int r = Math.max(0, Math.min(products.rows() - 1, products.rowOf(shown.yM(row))));
    int c = Math.max(0, Math.min(products.cols() - 1, products.colOf(shown.xM(col))));
    return r * products.cols() + c;
  }
}
