package org.scarpway.report;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.drawing.PixelSurface;
import org.scarpway.drawing.SvgSurface;
import org.scarpway.geodata.crs.UtmZone;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.report.PrintPage.Paper;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.ShownMobility;

/**
 * The maps of vehicles, reach questions and corridors as files of their own, ready for a briefing:
 * each as SVG and as PNG, on paper of a standard size at a stated scale. They show what the report
 * shows, drawn by the same parts.
 */
public final class MapFigures {
  /** Folder of the files below the job's. */
  public static final String FOLDER = "figures";

  /** Sheets of one map that are the most a job may ask for. */
  public static final int MOST_SHEETS = 50;

  private static final double DPI = 150;
  private static final int MOST_INPUTS = 6;
  private static final int MOST_PIXELS = 4000;

  private MapFigures() {}

  /**
   * How the figures are printed.
   *
   * @param scale metres on the ground to a metre on the paper; NaN for the largest round one at
   *     which one sheet shows all ground
   * @param large true for A3, false for A4
   */
  public record Print(double scale, boolean large) {
    private Paper paper() {
      return large ? Paper.A3 : Paper.A4;
    }

    private List<PrintPage> pages(GridSpec spec) {
      return Double.isNaN(scale)
          ? PrintPage.whole(spec, paper())
          : PrintPage.atScale(spec, paper(), scale);
    }

    /** Returns how many sheets a map of a grid takes. */
    public long sheets(GridSpec spec) {
      return Double.isNaN(scale) ? 1 : PrintPage.count(spec, paper(), scale);
    }
  }

  /**
   * Returns the names of the files of finished stages, below the job's folder.
   *
   * @param ids of the stages, such as reach/far
   * @param spec of all ground
   */
  public static List<String> names(List<String> ids, GridSpec spec, Print print) {
    List<String> names = new ArrayList<>();
    int sheets = Math.toIntExact(print.sheets(spec));
    for (String id : ids) {
      if (id.matches("(mobility|reach|corridor)/.*")) {
        for (int k = 1; k <= sheets; k++) {
          names.add(name(id, k, sheets) + ".svg");
          names.add(name(id, k, sheets) + ".png");
        }
      }
    }
    return names;
  }

  /** Names have no underscore of their own, so a sheet's name is no other figure's. */
  private static String name(String id, int sheet, int sheets) {
    String figure = FOLDER + "/" + id.replace('/', '-');
    return sheets == 1 ? figure : figure + "_" + sheet + "_of_" + sheets;
  }

  /**
   * Writes all figures, each file completely or not at all.
   *
   * @param spec of all ground; the data may be of a part of its cells
   * @param workers draw the figures side by side
   * @throws org.scarpway.stage.StageFailure if a file cannot be written
   */
  public static void write(
      Path jobFolder, ReportData data, GridSpec spec, Print print, Workers workers) {
    List<PrintPage> pages = print.pages(spec);
    Ground ground = new Ground(data, pixels(spec, pages));
    Relief relief =
        new Relief(
            ground.pixels,
            data.dem().heightM(),
            data.terrain().gradEast(),
            data.terrain().gradNorth());
    Layer.Image shade = Layer.Image.of(ground.pixels, Paint.relief(ground.pixels, relief.shade01));
    PlateGround plate =
        new PlateGround(
            ground.spec,
            data.lonLat(),
            shade,
            data.hazard() == null ? null : data.hazard().keepOut(),
            data.places().stream()
                .filter(p -> p.ellipse() != null)
                .<Geometry>map(p -> p.ellipse().outline())
                .toList(),
            List.of(relief.note(), ground.layers.pixelNote()));
    List<Runnable> tasks = new ArrayList<>();
    figures(data)
        .forEach(
            (id, of) ->
                tasks.add(
                    () -> {
                      MapFigure figure = of.apply(ground.part());
                      for (PrintPage page : pages) {
                        Path file = jobFolder.resolve(name(id, page.number(), page.of()));
                        write(file, ground, plate, figure, page);
                      }
                    }));
    workers.all(tasks);
  }

  private static Map<String, Function<Ground, MapFigure>> figures(ReportData data) {
    Map<String, Function<Ground, MapFigure>> all = new LinkedHashMap<>();
    for (ShownMobility m : data.mobility()) {
      all.put("mobility/" + m.vehicle().name(), g -> MobilitySection.figure(g, m));
    }
    for (ReachResult r : data.reaches()) {
      all.put("reach/" + r.request().name(), g -> ReachSection.figure(g, r));
    }
    for (CorridorResult c : data.corridors()) {
      all.put("corridor/" + c.request().name(), g -> CorridorSection.figure(g, c));
    }
    return all;
  }

  /** Pixels of the longest side of all ground, as many as the paper shows apart. */
  private static int pixels(GridSpec spec, List<PrintPage> pages) {
    double longestM = Math.max(spec.cols() * spec.cellXM(), spec.rows() * spec.cellYM());
    double inches = longestM / pages.get(0).scale() / 0.0254;
    return (int) Math.max(100, Math.min(MOST_PIXELS, Math.ceil(inches * DPI)));
  }

  private static void write(
      Path file, Ground ground, PlateGround plate, MapFigure figure, PrintPage page) {
    List<String> notes = notes(ground, page);
    String title = figure.map().layer().title() + ". " + figure.map().layer().alt();
    SvgSurface svg = new SvgSurface(page.paper().w(), page.paper().h(), title);
    new MapPlate(plate, figure, page, notes, svg).draw();
    PixelSurface png = new PixelSurface(page.paper().w(), page.paper().h(), DPI);
    new MapPlate(plate, figure, page, notes, png).draw();
    AtomicFileWrite.write(named(file, ".svg"), part -> Files.writeString(part, svg.text()));
    AtomicFileWrite.write(named(file, ".png"), part -> Files.write(part, png.png()));
  }

  private static Path named(Path file, String ending) {
    return file.resolveSibling(file.getFileName() + ending);
  }

  private static List<String> notes(Ground ground, PrintPage page) {
    ReportData.Facts f = ground.data.facts();
    GridSpec spec = ground.spec;
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    StringBuilder rests = new StringBuilder("Map: ").append(ground.data.dem().body().name());
    if (Page.isNamed(f.crsName())) {
      rests.append(", ").append(f.crsName());
    }
    rests.append(zone(ground, page)).append("; cells of ").append(Figures.brief(cellM));
    rests.append(" m. Job ").append(f.job()).append(" (").append(brief(f.jobDigest()));
    rests.append("), ").append(f.version()).append("; settings in run.json. From: ");
    rests.append(
        f.inputs().stream()
            .limit(MOST_INPUTS)
            .map(line -> line.split(" {2}", 2)[0])
            .collect(Collectors.joining(", ")));
    int more = f.inputs().size() - MOST_INPUTS;
    rests.append(more > 0 ? " and " + more + " more." : ".");
    List<String> notes = new ArrayList<>();
    notes.add(
        "Planning aid from a model of ground and vehicle, not clearance to drive. What is smaller"
            + " than about "
            + Figures.brief(2 * cellM)
            + " m cannot be seen in the elevation model.");
    notes.add(rests.toString());
    return notes;
  }

  private static String zone(Ground ground, PrintPage page) {
    Body body = ground.data.dem().body();
    double[] at =
        ground
            .data
            .lonLat()
            .at((page.westM() + page.eastM()) / 2, (page.southM() + page.northM()) / 2);
    if (at == null || !body.sameFigureAs(Body.EARTH.semiMajorM(), Body.EARTH.semiMinorM())) {
      return "";
    }
    String zone = UtmZone.at(at[0], at[1]);
    return zone.isEmpty() ? "" : ", UTM zone " + zone + " at the centre";
  }

  private static String brief(String digest) {
    return digest.length() > 12 ? digest.substring(0, 12) : digest;
  }
}
