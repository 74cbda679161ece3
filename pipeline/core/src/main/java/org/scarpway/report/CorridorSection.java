package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.scarpway.grid.ByteGrid;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.KeyNumber;
import org.scarpway.report.Section.Line;
import org.scarpway.report.Section.MapView;

/** The section on a corridor: the ground in which a route should be drawn. */
final class CorridorSection {
  private static final List<Double> USUAL_PCT = List.of(2.0, 5.0, 10.0);
  private static final int MOST_ALTERNATIVES = 4;

  /** Excess cost (%) from which an alternative is a last resort; own choice. */
  private static final double HARDLY_WORTH_PCT = 50;

  private final Ground ground;
  private final CorridorResult corridor;
  private final CorridorRequest request;
  private final List<Double> withinPct;

  private CorridorSection(Ground ground, CorridorResult corridor) {
    this.ground = ground;
    this.corridor = corridor;
    this.request = corridor.request();
    this.withinPct =
        List.copyOf(new TreeSet<>(request.withinPct().isEmpty() ? USUAL_PCT : request.withinPct()));
  }

  static Section of(Ground ground, CorridorResult corridor, int number) {
    return new CorridorSection(ground, corridor).section(number);
  }

  /** Returns the lines of the corridor, drawn on every map that shows it. */
  static List<Line> lines(Ground ground, CorridorResult corridor) {
    List<Line> lines = new ArrayList<>();
    for (Alternative a : corridor.alternatives()) {
      if (lines.size() < MOST_ALTERNATIVES && !a.line().isEmpty()) {
        int n = lines.size() + 1;
        String text = "alternative " + a.rank() + ", +" + Figures.sig(a.excessPct()) + " %";
        lines.add(new Line("alt alt" + n, SvgPath.line(ground.spec, a.line()), text));
      }
    }
    if (!corridor.centreline().isEmpty()) {
      String d = SvgPath.line(ground.spec, corridor.centreline());
      lines.add(new Line("centre", d, "centreline, " + corridor.request().name()));
    }
    return lines;
  }

  /** Returns the map with which the section begins, as a figure of its own. */
  static MapFigure figure(Ground ground, CorridorResult corridor) {
    CorridorSection section = new CorridorSection(ground, corridor);
    Answer answer = section.answer(LayerFactory.count(section.within()));
    return new MapFigure(section.title(), answer, section.excessMap(1));
  }

  private String title() {
    return request.name() + ": " + corridor.vehicle() + ", " + stops();
  }

  private ByteGrid within() {
    byte[] codes = new byte[ground.spec.cells()];
    float[] excess = corridor.excessPct().values();
    for (int i = 0; i < codes.length; i++) {
      for (int k = withinPct.size(); k >= 1; k--) {
        if (excess[i] <= withinPct.get(k - 1)) {
          codes[i] = (byte) k;
        }
      }
    }
    return new ByteGrid(ground.spec, codes);
  }

  private MapView excessMap(int number) {
    List<ClassStyle> styles = new ArrayList<>();
    Pattern[] patterns = {Pattern.PLAIN, Pattern.DOTS, Pattern.RISING, Pattern.LEVEL};
    for (int k = 1; k <= withinPct.size(); k++) {
      double share = withinPct.size() == 1 ? 0.7 : 0.95 - 0.8 * (k - 1) / (withinPct.size() - 1);
      String from = k == 1 ? "up to " : "over " + Figures.plain(withinPct.get(k - 2)) + " to ";
      styles.add(
          new ClassStyle(
              k,
              from + Figures.plain(withinPct.get(k - 1)) + " % more " + costWord(),
              Palette.ramp(share),
              170,
              patterns[(k - 1) % patterns.length]));
    }
    Layer layer =
        ground.keep(
            ground.layers.classes(
                "corridor-" + number,
                "Corridor: " + request.name(),
                within(),
                styles,
                TilePack.Halving.WORST_BAND,
                "Excess of the best way through a place over the best way of all."));
    MapLabels labels = new MapLabels(ground.spec);
    request.via().forEach(stop -> labels.add(stop.xM(), stop.yM(), "stop", stop.name()));
    for (int i = 0; i < corridor.pinchPoints().size(); i++) {
      PinchPoint p = corridor.pinchPoints().get(i);
      labels.add(p.xM(), p.yM(), "pinch", "P" + (i + 1));
    }
    return new MapView("map-" + layer.id(), layer, "", labels, lines(ground, corridor));
  }

  private Section section(int number) {
    MapView main = excessMap(number);
    List<MapView> maps = new ArrayList<>();
    maps.add(main);
    maps.addAll(TradeOffMap.of(ground, corridor, main.layer()));
    List<TableView> tables = new ArrayList<>();
    if (corridor.visits().size() > 2) {
      tables.add(stopTable());
    }
    if (!corridor.centreline().isEmpty()) {
      tables.add(routeTable());
    }
    if (!corridor.pinchPoints().isEmpty()) {
      tables.add(pinchTable());
    }
    if (!corridor.alternatives().isEmpty()) {
      tables.add(alternativeTable());
    }
    if (!corridor.tradeOffs().isEmpty()) {
      tables.add(tradeOffTable());
    }
    return new Section(
        "corridor-question-" + number,
        title(),
        answer(LayerFactory.count(within())),
        "",
        "",
        maps,
        List.of(
            new Section.Chart("Profile of the centreline", ProfileChart.svg(corridor)),
            new Section.Chart(
                "Ways that trade time, energy and hazard",
                TradeOffChart.svg(corridor.tradeOffs()))),
        tables);
  }

  private String stops() {
    return String.join(" → ", corridor.visits().stream().map(CorridorResult.Visit::name).toList());
  }

  private String costWord() {
    return switch (request.cost()) {
      case TIME -> "time";
      case ENERGY -> "energy";
      case DISTANCE -> "distance";
    };
  }

  private Answer answer(long[] cells) {
    List<String> text = new ArrayList<>();
    List<KeyNumber> keys = new ArrayList<>();
    List<ProfilePoint> line = corridor.centreline();
    if (!line.isEmpty()) {
      ProfilePoint end = line.get(line.size() - 1);
      text.add(
          "The way of least "
              + costWord()
              + " for "
              + corridor.vehicle()
              + " along "
              + stops()
              + " takes "
              + Figures.duration(end.timeS())
              + ", "
              + Figures.distance(end.distanceM())
              + " along the ground and "
              + Figures.energy(end.energyJ())
              + (corridor.curvesS() > 0
                  ? ", of it " + Figures.duration(corridor.curvesS()) + " lost in curves"
                  : "")
              + (corridor.stayS() > 0
                  ? "; with stays of "
                      + Figures.duration(corridor.stayS())
                      + " at the stops "
                      + Figures.duration(corridor.wholeTimeS())
                      + " and "
                      + Figures.energy(corridor.wholeEnergyJ())
                  : "")
              + ".");
      keys.add(new KeyNumber(Figures.duration(end.timeS()), "", "driving"));
      keys.add(new KeyNumber(Figures.sig(end.distanceM() / 1000), "km", "along the ground"));
      text.add(extremes(line));
    }
    for (String lacking : corridor.beyond()) {
      text.add("Not within supplies: " + lacking + ".");
    }
    if (corridor.turning() != null) {
      text.add(turningText(corridor.turning()));
    }
    if (corridor.order() != null) {
      text.add(orderText(corridor.order()));
    }
    StringBuilder s = new StringBuilder();
    double m2 = 0;
    for (int k = 1; k <= withinPct.size(); k++) {
      m2 += cells[k] * ground.spec.cellAreaM2();
      s.append(k == 1 ? "Ground for the route: " : "; ").append(Figures.area(m2));
      s.append(" costs at most ").append(Figures.plain(withinPct.get(k - 1)));
      s.append(" % more ").append(costWord());
    }
    text.add(s.append('.').toString());
    if (!corridor.pinchPoints().isEmpty()) {
      PinchPoint p = corridor.pinchPoints().get(0);
      text.add(
          "Narrowest passage: "
              + Figures.distance(p.widthM())
              + " wide at "
              + Figures.eastNorth(p.xM(), p.yM())
              + ", "
              + Figures.distance(p.distanceM())
              + " from the start.");
    }
    for (Alternative a : corridor.alternatives()) {
      if (a.excessPct() > HARDLY_WORTH_PCT) {
        text.add(
            "Alternative "
                + a.rank()
                + " takes "
                + Figures.sig(a.excessPct())
                + " % more "
                + costWord()
                + ": not worth it while the best way is open.");
      }
    }
    return new Answer(keys, text);
  }

  private String turningText(CorridorResult.Turning turning) {
    StringBuilder s = new StringBuilder("The centreline keeps to a turning radius of ");
    s.append(Figures.distance(turning.radiusM())).append(" between stops, for ");
    s.append(Figures.percent(Math.max(0, turning.extraPct()), 100))
        .append(" % more ")
        .append(costWord());
    s.append(" than turning on the spot; at stops the vehicle is taken to turn round.");
    for (CorridorResult.Place p : turning.tooTight()) {
      s.append(" No such way was found past ").append(Figures.eastNorth(p.xM(), p.yM()));
      s.append(": there the line turns more tightly.");
    }
    return s.toString();
  }

  private static String orderText(CorridorResult.Order order) {
    return order.proven()
        ? "The order of the stops is proven best: every order was weighed."
        : "The order of the stops is at most "
            + Figures.sig(order.gapPct())
            + " % above the best possible (proven bound).";
  }

  private static String extremes(List<ProfilePoint> line) {
    double up = 0;
    double down = 0;
    double roll = 0;
    ProfilePoint least = null;
    for (ProfilePoint p : line) {
      up = Math.max(up, finite(p.pitchDeg()));
      down = Math.min(down, finite(p.pitchDeg()));
      roll = Math.max(roll, Math.abs(finite(p.rollDeg())));
      boolean known = !Double.isNaN(p.margin01());
      least = known && (least == null || p.margin01() < least.margin01()) ? p : least;
    }
    String s =
        "On the centreline the pitch stays between "
            + Figures.fixed(down, 1)
            + " and +"
            + Figures.fixed(up, 1)
            + " deg and the roll within "
            + Figures.fixed(roll, 1)
            + " deg";
    return least == null ? s + "." : s + marginText(least);
  }

  /** Below half a percent nothing is left that a driver could use. */
  static String marginText(ProfilePoint least) {
    String where =
        "at "
            + Figures.eastNorth(least.xM(), least.yM())
            + ", "
            + Figures.distance(least.distanceM())
            + " from the start";
    return least.margin01() < 0.005
        ? ". The ground "
            + where
            + ", is right at a limit of the vehicle: nothing is to spare there."
        : "; the least margin to a limit of the vehicle is "
            + Figures.fixed(100 * least.margin01(), 0)
            + " %, "
            + where
            + ".";
  }

  private static double finite(double v) {
    return Double.isFinite(v) ? v : 0;
  }

  private TableView stopTable() {
    TableView table =
        new TableView(
            "Stops in the order of travel, on arrival",
            "stop",
            "time",
            "distance (km)",
            "energy (kWh)",
            "stay");
    for (CorridorResult.Visit v : corridor.visits()) {
      table.row(
          v.name(),
          Figures.duration(v.timeS()),
          Figures.fixed(v.distanceM() / 1000, 2),
          Figures.sig(v.energyJ() / 3.6e6),
          v.stayS() > 0 ? Figures.duration(v.stayS()) : Figures.NONE);
    }
    return table;
  }

  /**
   * Returns grades and curves leg by leg, by the rules of route reconnaissance where its classes
   * are asked for.
   */
  private TableView routeTable() {
    boolean named = ground.data.facts().reconnaissance();
    TableView table =
        new TableView(
            "Grades and curves of the route: percent rounded up"
                + (named ? ", from 5 % to be recorded, from 7 % an obstruction" : ""),
            "leg",
            "length (km)",
            "climb up to (%)",
            "descent up to (%)",
            "from 5 % (km)",
            "from 7 % (km)",
            "tightest curve (m)",
            "curve",
            "slowest curve (m/s)",
            "time lost in curves");
    for (RouteLeg leg : RouteSurvey.legs(corridor)) {
      table.row(
          leg.from() + " → " + leg.to(),
          Figures.fixed(leg.lengthM() / 1000, 2),
          Integer.toString(leg.steepestUpPct()),
          Integer.toString(leg.steepestDownPct()),
          Figures.fixed(leg.recordedM() / 1000, 2),
          Figures.fixed(leg.obstructedM() / 1000, 2),
          Double.isInfinite(leg.tightestM()) ? Figures.NONE : Figures.sig(leg.tightestM()),
          leg.tightestM() == 0 ? "on the spot" : named ? leg.curve().label() : Figures.NONE,
          Double.isNaN(leg.slowestCurveMs()) ? Figures.NONE : Figures.sig(leg.slowestCurveMs()),
          leg.curvesS() > 0 ? Figures.duration(leg.curvesS()) : Figures.NONE);
    }
    return table;
  }

  private TableView pinchTable() {
    TableView table =
        new TableView(
            "Pinch points on the centreline, narrowest first",
            "point",
            "width (m)",
            "from start (km)",
            "ground behind it (km²)",
            "E (m)",
            "N (m)",
            "latitude, longitude");
    for (int i = 0; i < corridor.pinchPoints().size(); i++) {
      PinchPoint p = corridor.pinchPoints().get(i);
      table.row(
          "P" + (i + 1),
          Figures.sig(p.widthM()),
          Figures.fixed(p.distanceM() / 1000, 2),
          p.behindM2() == 0 ? "another way" : Figures.km2(p.behindM2()),
          Figures.fixed(p.xM(), 0),
          Figures.fixed(p.yM(), 0),
          ground.lonLat(p.xM(), p.yM()));
    }
    return table;
  }

  private TableView tradeOffTable() {
    TableView table =
        new TableView(
            "Trade-offs: none is better than another in time, energy and hazard at once",
            "way",
            "time (min)",
            "energy (kWh)",
            "hazard (m)",
            "distance (km)",
            "weights of time, energy, hazard (%)");
    for (CorridorResult.TradeOff t : corridor.tradeOffs()) {
      table.row(
          "T" + (table.rows().size() + 1),
          Figures.fixed(t.timeS() / 60, 2),
          Figures.fixed(t.energyJ() / 3.6e6, 4),
          Figures.fixed(t.hazardM(), 2),
          Figures.fixed(t.distanceM() / 1000, 2),
          String.join(" / ", t.weights().stream().map(w -> Figures.fixed(100 * w, 0)).toList()));
    }
    return table;
  }

  private TableView alternativeTable() {
    TableView table =
        new TableView(
            "Alternatives that run over other ground (within "
                + Figures.distance(corridor.besideM())
                + " of a way is its ground)",
            "way",
            "excess (%)",
            "time",
            "distance (km)",
            "energy (kWh)",
            "shared ground (%)");
    for (Alternative a : corridor.alternatives()) {
      table.row(
          "alternative " + a.rank(),
          Figures.sig(a.excessPct()),
          Figures.duration(a.timeS()),
          Figures.fixed(a.distanceM() / 1000, 2),
          Figures.sig(a.energyJ() / 3.6e6),
          Figures.fixed(a.sharedPct(), 0));
    }
    return table;
  }
}
