package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.drawing.Picture;
import org.scarpway.drawing.Surface;
import org.scarpway.drawing.Surface.Anchor;
import org.scarpway.drawing.Surface.Box;
import org.scarpway.drawing.Surface.Hand;
import org.scarpway.drawing.Surface.Stroke;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.report.MapLabels.Placed;
import org.scarpway.report.Section.KeyNumber;
import org.scarpway.report.Section.Line;

/** Draws a figure on a page: the map at the page's scale with all that it takes to read it. */
final class MapPlate {
  private static final Hand SMALL = new Hand(2.5, Anchor.MIDDLE, false, false);
  private static final Hand EAST = new Hand(2.5, Anchor.END, false, false);
  private static final Hand WEST = new Hand(2.5, Anchor.START, false, false);

  /** Pixels of {@link MapLabels} to a millimetre of a page. */
  private static final double LABEL_PX = 5;

  /** Metres of paper of which a scale bar is at most three tenths. */
  private static final double MOST_BAR = 0.15;

  private final PlateGround ground;
  private final MapFigure figure;
  private final PrintPage page;
  private final List<String> notes;
  private final Surface on;

  /**
   * @param notes what the map rests on, below it
   */
  MapPlate(PlateGround ground, MapFigure figure, PrintPage page, List<String> notes, Surface on) {
    this.ground = ground;
    this.figure = figure;
    this.page = page;
    this.notes = notes;
    this.on = on;
  }

  void draw() {
    head();
    map();
    labels();
    kilometres();
    degrees();
    scaleBar();
    double top = PrintPage.MARGIN + PrintPage.HEAD;
    double footY = page.paper().h() - PrintPage.MARGIN - 10;
    Box room = new Box(page.legendX(), top, PrintPage.LEGEND - 4, footY - 4 - top);
    new PlateLegend(figure.map(), symbols(), page, ground).draw(on, northArrow(room));
    TextBlock.fitted(notes, page.paper().w() - 2 * PrintPage.MARGIN, 10, 2.5)
        .draw(on, PrintPage.MARGIN, footY);
  }

  private void head() {
    double width = page.paper().w() - 2 * PrintPage.MARGIN;
    String title = figure.map().layer().title();
    TextBlock.fitted(List.of(title), width, 6.2, 5).bold().draw(on, PrintPage.MARGIN, 10);
    String keys =
        figure.answer().keys().stream().map(MapPlate::words).collect(Collectors.joining("; "));
    String line = keys.isEmpty() ? figure.title() : figure.title() + ". " + keys;
    TextBlock.fitted(List.of(line), width, 9, 3.2).draw(on, PrintPage.MARGIN, 16.5);
  }

  private static String words(KeyNumber key) {
    return (key.value() + " " + key.unit()).strip() + " " + key.label();
  }

  private double perUnit() {
    return 1000 * ground.spec().cols() * ground.spec().cellXM() / page.scale() / SvgPath.WIDTH;
  }

  private void map() {
    on.within(page.map());
    image(ground.shade());
    image(figure.map().layer().image());
    on.lines(kilometreLines(), MapStrokes.KILOMETRES);
    on.lines(degreeLines(), MapStrokes.DEGREES);
    if (ground.hasKeepOut()) {
      on.lines(path(SvgPath.outline(ground.spec(), ground.keepOut())), MapStrokes.KEEP_OUT);
    }
    for (Geometry ellipse : ground.ellipses()) {
      List<double[]> outline = path(SvgPath.outline(ground.spec(), ellipse));
      on.lines(outline, MapStrokes.CASING);
      on.lines(outline, MapStrokes.ELLIPSE);
    }
    for (Line line : figure.map().lines()) {
      on.lines(path(line.d()), MapStrokes.CASING);
      on.lines(path(line.d()), MapStrokes.way(line.css()));
    }
    on.whole();
    Box m = page.map();
    on.lines(List.of(MapStrokes.outline(m)), MapStrokes.FRAME);
  }

  private List<double[]> path(String d) {
    List<double[]> lines = SvgPath.points(d);
    for (double[] line : lines) {
      for (int i = 0; i < line.length; i += 2) {
        line[i] = page.x(ground.spec().westM()) + perUnit() * line[i];
        line[i + 1] = page.y(ground.spec().northM()) + perUnit() * line[i + 1];
      }
    }
    return lines;
  }

  /** Draws the part of an image of all ground that the page shows. */
  private void image(Layer.Image image) {
    Picture whole = image.picture();
    Box m = page.map();
    double pixelW = perUnit() * Double.parseDouble(image.width()) / whole.width();
    double pixelH = perUnit() * Double.parseDouble(image.height()) / whole.height();
    double west = page.x(ground.spec().westM());
    double north = page.y(ground.spec().northM());
    int x0 = pixel(Math.floor((m.x() - west) / pixelW), whole.width() - 1);
    int y0 = pixel(Math.floor((m.y() - north) / pixelH), whole.height() - 1);
    int x1 = Math.max(x0 + 1, pixel(Math.ceil((m.x() + m.w() - west) / pixelW), whole.width()));
    int y1 = Math.max(y0 + 1, pixel(Math.ceil((m.y() + m.h() - north) / pixelH), whole.height()));
    on.picture(
        whole.part(x0, y0, x1, y1),
        new Box(west + x0 * pixelW, north + y0 * pixelH, (x1 - x0) * pixelW, (y1 - y0) * pixelH));
  }

  private static int pixel(double at, int most) {
    return (int) Math.max(0, Math.min(most, at));
  }

  private Ticks eastTicks() {
    return Ticks.between(page.westM() / 1000, page.eastM() / 1000, most(page.map().w(), 18));
  }

  private Ticks northTicks() {
    return Ticks.between(page.southM() / 1000, page.northM() / 1000, most(page.map().h(), 14));
  }

  private static int most(double mm, double each) {
    return Math.max(2, (int) (mm / each));
  }

  private List<double[]> kilometreLines() {
    List<double[]> lines = new ArrayList<>();
    Box m = page.map();
    for (double km : eastTicks().values()) {
      double x = page.x(1000 * km);
      lines.add(new double[] {x, m.y(), x, m.y() + m.h()});
    }
    for (double km : northTicks().values()) {
      double y = page.y(1000 * km);
      lines.add(new double[] {m.x(), y, m.x() + m.w(), y});
    }
    return lines;
  }

  private DegreeLines arcs() {
    return new DegreeLines(
        ground.lonLat(), page.westM(), page.southM(), page.eastM(), page.northM());
  }

  private List<double[]> degreeLines() {
    List<double[]> lines = new ArrayList<>();
    for (double[] arc : arcs().lines) {
      lines.add(new double[] {page.x(arc[0]), page.y(arc[1]), page.x(arc[2]), page.y(arc[3])});
    }
    return lines;
  }

  private void kilometres() {
    Box m = page.map();
    double bottom = m.y() + m.h();
    Ticks east = eastTicks();
    for (double km : east.values()) {
      on.words(east.text(km), page.x(1000 * km), bottom + 3.4, 0, SMALL);
    }
    Ticks north = northTicks();
    for (double km : north.values()) {
      on.words(north.text(km), m.x() - 1, page.y(1000 * km) + 0.9, 0, EAST);
    }
    on.words("easting (km)", m.x() + m.w() / 2, bottom + 6.8, 0, SMALL);
    on.words("northing (km)", PrintPage.MARGIN + 1.5, m.y() + m.h() / 2, -90, SMALL);
  }

  private void degrees() {
    Box m = page.map();
    DegreeLines arcs = arcs();
    double free = m.x();
    for (DegreeLines.Mark mark : sorted(arcs.top)) {
      double x = m.x() + mark.at() * m.w();
      double half = 1 + TextBlock.widthMm(mark.text(), SMALL.sizeMm()) / 2;
      if (x - half >= free - 6 && x + half <= page.legendX()) {
        on.words(mark.text(), x, m.y() - 1.2, 0, SMALL);
        free = x + half + 6;
      }
    }
    double last = Double.NEGATIVE_INFINITY;
    for (DegreeLines.Mark mark : sorted(arcs.right)) {
      double y = m.y() + mark.at() * m.h();
      if (y - last >= 3.2) {
        on.words(mark.text(), m.x() + m.w() + 1, y + 0.9, 0, WEST);
        last = y;
      }
    }
  }

  private static List<DegreeLines.Mark> sorted(List<DegreeLines.Mark> marks) {
    return marks.stream().sorted((a, b) -> Double.compare(a.at(), b.at())).toList();
  }

  private void scaleBar() {
    Box m = page.map();
    double y = m.y() + m.h() + 10.5;
    ScaleBar bar = ScaleBar.of(Math.min(page.eastM() - page.westM(), MOST_BAR * page.scale()));
    double w = 1000 * bar.lengthM() / page.scale();
    on.fill(MapStrokes.outline(new Box(m.x(), y, w / 2, 1.2)), MapStrokes.INK);
    on.lines(
        List.of(MapStrokes.outline(new Box(m.x(), y, w, 1.2))), new Stroke(MapStrokes.INK, 0.25));
    on.words(bar.label(), m.x() + w + 1.5, y + 1.5, 0, WEST);
    double after = m.x() + w + 4 + TextBlock.widthMm(bar.label(), WEST.sizeMm());
    on.words(
        "1 : " + grouped(page.scale()) + " on " + paper() + " printed at full size",
        after,
        y + 1.5,
        0,
        WEST);
  }

  private String paper() {
    return Math.min(page.paper().w(), page.paper().h()) == PrintPage.Paper.A4.shortMm ? "A4" : "A3";
  }

  /** A scale with its thousands apart. */
  static String grouped(double scale) {
    return Figures.plain(scale).replaceAll("(?<=[0-9])(?=([0-9]{3})+(\\.|$))", " ");
  }

  private List<Placed> placed() {
    return figure
        .map()
        .names()
        .placed(
            page.westM(), page.southM(), page.eastM(), page.northM(), LABEL_PX * page.map().w());
  }

  private List<String> symbols() {
    return placed().stream().map(Placed::symbol).distinct().toList();
  }

  private void labels() {
    Box m = page.map();
    for (Placed p : placed()) {
      double x = m.x() + p.x() * m.w();
      double y = m.y() + p.y() * m.h();
      MapSymbols.draw(on, p.symbol(), x, y);
      Anchor anchor =
          switch (p.side()) {
            case "right" -> Anchor.START;
            case "left" -> Anchor.END;
            default -> Anchor.MIDDLE;
          };
      Hand hand = new Hand(2.6, anchor, true, true);
      switch (p.side()) {
        case "right" -> on.words(p.text(), x + 1.9, y + 0.9, 0, hand);
        case "left" -> on.words(p.text(), x - 1.9, y + 0.9, 0, hand);
        case "above" -> on.words(p.text(), x, y - 2.1, 0, hand);
        case "below" -> on.words(p.text(), x, y + 4.1, 0, hand);
        case "centre" -> on.words(p.text(), x, y + 0.9, 0, hand);
        default -> {
          // No room: the symbol alone.
        }
      }
    }
  }

  /** Draws the arrow at the top of the legend's room and returns the room that is left. */
  private Box northArrow(Box room) {
    double deg =
        TrueNorth.azimuthDeg(
            ground.lonLat(),
            (page.westM() + page.eastM()) / 2,
            (page.southM() + page.northM()) / 2);
    double turn = Math.toRadians(Double.isNaN(deg) ? 0 : deg);
    double x = room.x() + 6;
    double y = room.y() + 6;
    on.fill(turned(x, y, turn, 0, -4.6, 2.2, 4.2, 0, 2.4, -2.2, 4.2), MapStrokes.INK);
    on.words(
        "N",
        x + 6.6 * Math.sin(turn),
        y - 6.6 * Math.cos(turn) + 1,
        0,
        new Hand(2.8, Anchor.MIDDLE, true, false));
    String note =
        Double.isNaN(deg)
            ? "Up is grid north; true north is not known."
            : Math.abs(deg) < 0.05
                ? "Up is grid north and, at the centre, true north."
                : "Up is grid north; the arrow is true north at the centre, "
                    + Figures.fixed(Math.abs(deg), 1)
                    + "° "
                    + (deg > 0 ? "clockwise" : "anticlockwise")
                    + " of it.";
    TextBlock.fitted(List.of(note), room.w() - 15, 11, 2.4).draw(on, room.x() + 15, room.y() + 1);
    return new Box(room.x(), room.y() + 15, room.w(), room.h() - 15);
  }

  private static double[] turned(double x, double y, double turn, double... points) {
    double[] out = new double[points.length];
    for (int i = 0; i < out.length; i += 2) {
      out[i] = x + points[i] * Math.cos(turn) - points[i + 1] * Math.sin(turn);
      out[i + 1] = y + points[i] * Math.sin(turn) + points[i + 1] * Math.cos(turn);
    }
    return out;
  }
}
