package org.scarpway.report;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.Dem;
import org.scarpway.drawing.PixelSurface;
import org.scarpway.drawing.SvgSurface;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.PrintPage.Paper;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.MapView;
import org.scarpway.terrain.HornGradient;

/** A first picture of an elevation model: its slope over shaded relief, on a page with a scale. */
public final class SlopePicture {
  private static final double DPI = 150;
  private static final int PIXELS = 2400;

  private SlopePicture() {}

  /**
   * Writes the picture completely or not at all.
   *
   * @param file its name ends in .svg or .png
   * @param dem heights, of every so many cells of a large model
   * @param name of the elevation model
   * @param crsName its reference system
   * @throws org.scarpway.stage.StageFailure if it cannot be written
   */
  public static void write(Path file, Dem dem, String name, String crsName, LonLat lonLat) {
    GridSpec spec = dem.heightM().spec();
    FloatGrid east = FloatGrid.empty(spec);
    FloatGrid north = FloatGrid.empty(spec);
    HornGradient.fill(
        dem.heightM().values(),
        spec.rows(),
        spec.cols(),
        0,
        spec.rows(),
        spec.cellXM(),
        spec.cellYM(),
        east.values(),
        north.values());
    FloatGrid slope = FloatGrid.empty(spec);
    for (int i = 0; i < slope.values().length; i++) {
      double rise = Math.hypot(east.values()[i], north.values()[i]);
      slope.values()[i] = (float) Math.toDegrees(Math.atan(rise));
    }
    LayerFactory layers = ClosedGround.layers(dem.heightM(), PIXELS);
    Relief relief = new Relief(layers.pixels, dem.heightM(), east, north);
    double overM = 2 * Math.max(spec.cellXM(), spec.cellYM());
    Layer layer =
        layers.ramp(
            "slope",
            "Slope",
            "deg",
            slope,
            0,
            Double.NaN,
            "Measured over "
                + Figures.brief(overM)
                + " m (Horn 1981): shorter slopes may be steeper.");
    MapFigure figure =
        new MapFigure(
            name,
            new Answer(List.of(), List.of()),
            new MapView("slope", layer, "", new MapLabels(spec), List.of()));
    PlateGround ground =
        new PlateGround(
            spec,
            lonLat,
            Layer.Image.of(layers.pixels, Paint.relief(layers.pixels, relief.shade01)),
            null,
            List.of(),
            List.of(relief.note(), layers.pixelNote()));
    List<String> notes =
        List.of(
            "A first look at an elevation model, not a judgement on any vehicle.",
            "Map: "
                + (Page.isNamed(crsName) ? crsName : "no known reference system")
                + "; a height each "
                + Figures.brief(spec.cellXM())
                + " m. From: "
                + name
                + ".");
    PrintPage page = PrintPage.whole(spec, Paper.A4).get(0);
    boolean vector = file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".svg");
    if (vector) {
      SvgSurface svg = new SvgSurface(page.paper().w(), page.paper().h(), "Slope of " + name);
      new MapPlate(ground, figure, page, notes, svg).draw();
      AtomicFileWrite.write(file, part -> Files.writeString(part, svg.text()));
    } else {
      PixelSurface png = new PixelSurface(page.paper().w(), page.paper().h(), DPI);
      new MapPlate(ground, figure, page, notes, png).draw();
      AtomicFileWrite.write(file, part -> Files.write(part, png.png()));
    }
  }
}
