package org.scarpway.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.Reserves;
import org.scarpway.report.MapLayer.Rounded;
import org.scarpway.report.ReportData.ReachCells;
import org.scarpway.report.TilePack.Halving;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.Vehicle;

/** What the map shows and tells of the answers to the questions of reach and corridors. */
final class MapQuestions {
  private final Ground ground;
  private final GridSpec spec;
  private final MapLines lines;
  private final MapParts parts;

  /**
   * @param parts of the map, to which one for each question is added
   */
  MapQuestions(Ground ground, MapParts parts) {
    this.ground = ground;
    this.spec = ground.spec;
    this.lines = new MapLines(ground.spec);
    this.parts = parts;
  }

  void reaches(ArrayNode reaches) {
    for (int k = 0; k < ground.data.reaches().size(); k++) {
      int i = k;
      ReachResult r = ground.data.reaches().get(i);
      ObjectNode n = reaches.addObject().put("name", r.request().name());
      String stage = ground.data.keys().get("reach/" + r.request().name());
      parts.add("reach-" + i, stage, n, part -> reach(n, i, r, part));
    }
  }

  private void reach(ObjectNode n, int i, ReachResult r, MapParts.Part part) {
    ReachRequest q = r.request();
    String group = "reach " + i;
    n.put("vehicle", r.vehicle());
    n.put("base", q.baseName()).put("x", q.baseXM()).put("y", q.baseYM());
    n.put("home", q.home().name()).put("stayS", q.stayS());
    n.put("beyond", q.beyondBudget());
    ReachRequest.Budget b = q.budget();
    put(n, "timeS", b.timeS(), q.reserves().timePct());
    Optional<Vehicle> vehicle = vehicle(r.vehicle());
    put(n, "energyJ", energyJ(b.energyJ(), batteryKwh(vehicle)), q.reserves().energyPct());
    n.put("hotelW", vehicle.map(MapQuestions::hotelW).orElse(0.0));
    put(n, "distanceM", b.distanceM(), q.reserves().distancePct());
    ReachBands bands = new ReachBands(ground.pixels, r);
    n.put(
        "bands",
        part.add(
                MapLayer.classes(
                    "bands-" + i,
                    "reach by bands of the whole trip",
                    bands.merged,
                    bands.styles,
                    Halving.WORST_BAND,
                    8,
                    MapLayer.group(group)))
            .id);
    n.put(
        "ends",
        part.add(
                MapLayer.classes(
                    "ends-" + i,
                    "what ends the reach",
                    r.binding(),
                    ClassStyle.ends(),
                    Halving.ANY_CAUSE,
                    8,
                    MapLayer.group(group)))
            .id);
    ReachCells cells = ground.data.reachCells();
    minutes(part, n, "out", "least time out", cells.floats(q.name(), ReachCells.OUT_TIME), i);
    if (q.home() != HomeRule.NONE) {
      minutes(part, n, "back", "least time home", cells.floats(q.name(), ReachCells.HOME_TIME), i);
    }
    minutes(
        part,
        n,
        "stop",
        "time from a stop until all are home",
        cells.floats(q.name(), ReachCells.STOP_HOME),
        i);
    kwh(part, n, "energy", "least energy out", cells.floats(q.name(), ReachCells.OUT_ENERGY), i);
    kwh(
        part,
        n,
        "wayOut",
        "energy of the quickest way out",
        cells.floats(q.name(), ReachCells.WAY_ENERGY),
        i);
    kwh(
        part,
        n,
        "wayBack",
        "energy of the quickest way home",
        cells.floats(q.name(), ReachCells.WAY_HOME_ENERGY),
        i);
    n.put(
        "gap",
        part.add(
                MapLayer.quantity(
                    "gap-" + i,
                    "narrowest passage on the widest way home",
                    "m",
                    r.gapWidthM(),
                    1,
                    1,
                    Rounded.DOWN,
                    0,
                    Double.NaN,
                    1,
                    MapLayer.group(group)))
            .id);
    steps(part, n, "outStep", cells.steps(q.name(), ReachCells.OUT_STEP), i);
    steps(part, n, "homeStep", cells.steps(q.name(), ReachCells.HOME_STEP), i);
    steps(part, n, "walkStep", cells.steps(q.name(), ReachCells.WALK_STEP), i);
    steps(part, n, "fetchStep", cells.steps(q.name(), ReachCells.FETCH_STEP), i);
    steps(part, n, "rideStep", cells.steps(q.name(), ReachCells.RIDE_STEP), i);
    ReachLines edges = new ReachLines(r);
    n.put("unitX", spec.cellXM() * edges.shrink / 2).put("unitY", spec.cellYM() * edges.shrink / 2);
    named(n.putArray("lines"), edges.bands);
    named(n.putArray("edges"), edges.edges);
    targets(n.putArray("targets"), r);
  }

  private Optional<Vehicle> vehicle(String name) {
    return ground.data.mobility().stream()
        .map(ShownMobility::vehicle)
        .filter(v -> v.name().equals(name))
        .findFirst();
  }

  /** The budget (J), or the battery where that is less; null without either. */
  static Double energyJ(Double budgetJ, Double batteryKwh) {
    if (batteryKwh == null) {
      return budgetJ;
    }
    double batteryJ = batteryKwh * 3.6e6;
    return budgetJ == null ? batteryJ : Math.min(budgetJ, batteryJ);
  }

  private static Double batteryKwh(Optional<Vehicle> vehicle) {
    return vehicle.map(Vehicle::batteryKwh).orElse(null);
  }

  private static double hotelW(Vehicle v) {
    return v.drive() == null || v.drive().hotelW() == null ? 0 : v.drive().hotelW();
  }

  private static void kwh(
      MapParts.Part part, ObjectNode reach, String name, String title, FloatGrid joules, int i) {
    if (joules != null) {
      reach.put(
          name,
          part.add(
                  MapLayer.quantity(
                      name.toLowerCase(Locale.ROOT) + "-" + i,
                      title,
                      "kWh",
                      joules,
                      1 / 3.6e6,
                      0.01,
                      Rounded.UP,
                      0,
                      Double.NaN,
                      1,
                      MapLayer.group("reach " + i)))
              .id);
    }
  }

  private static void minutes(
      MapParts.Part part, ObjectNode reach, String name, String title, FloatGrid seconds, int i) {
    if (seconds != null) {
      reach.put(
          name,
          part.add(
                  MapLayer.quantity(
                      name + "-" + i,
                      title,
                      "min",
                      seconds,
                      1 / 60.0,
                      0.1,
                      Rounded.UP,
                      0,
                      Double.NaN,
                      2,
                      MapLayer.group("reach " + i)))
              .id);
    }
  }

  private static void steps(
      MapParts.Part part, ObjectNode reach, String name, ByteGrid codes, int i) {
    if (codes != null) {
      reach.put(name, part.add(MapLayer.steps(name.toLowerCase(Locale.ROOT) + "-" + i, codes)).id);
    }
  }

  private static void put(ObjectNode n, String name, Double limit, double reservePct) {
    if (limit != null) {
      n.put(name, limit).put(name + "Kept", limit * reservePct / 100);
    }
  }

  private static void named(ArrayNode list, List<ReachLines.Named> lines) {
    for (ReachLines.Named line : lines) {
      ArrayNode parts = list.addObject().put("name", line.name()).putArray("parts");
      for (int[] p : line.lines()) {
        MapLines.steps(parts.addArray(), p);
      }
    }
  }

  private static void targets(ArrayNode list, ReachResult r) {
    for (ReachResult.TargetReach t : r.targets()) {
      ObjectNode n = list.addObject().put("name", t.target().name()).put("reached", t.reached());
      n.put("end", t.end() == null ? "" : t.end());
      if (t.reached()) {
        n.put(
            "told",
            Figures.duration(t.totalTimeS())
                + " in all"
                + left(", time spare ", Figures.duration(t.timeSpareS()))
                + left(", energy spare ", Figures.energy(t.energySpareJ()))
                + left(", life support spare ", Figures.duration(t.lifeSpareS())));
      }
    }
  }

  private static String left(String what, String amount) {
    return amount.equals(Figures.NONE) ? "" : what + amount;
  }

  void corridors(ArrayNode corridors) {
    for (int k = 0; k < ground.data.corridors().size(); k++) {
      int i = k;
      CorridorResult c = ground.data.corridors().get(i);
      ObjectNode n = corridors.addObject().put("name", c.request().name());
      String stage = ground.data.keys().get("corridor/" + c.request().name());
      parts.add("corridor-" + i, stage, n, part -> corridor(n, i, c, part));
    }
  }

  private void corridor(ObjectNode n, int i, CorridorResult c, MapParts.Part part) {
    n.put("vehicle", c.vehicle());
    double most = c.request().withinPct().stream().mapToDouble(v -> v).max().orElse(10);
    FloatGrid shown = FloatGrid.empty(spec);
    for (int k = 0; k < shown.values().length; k++) {
      float e = c.excessPct().values()[k];
      shown.values()[k] = e <= most ? e : Float.NaN;
    }
    n.put("most", most);
    n.put(
        "excess",
        part.add(
                MapLayer.quantity(
                    "excess-" + i,
                    "more than the best way",
                    "%",
                    shown,
                    1,
                    0.1,
                    Rounded.UP,
                    0,
                    most,
                    2,
                    MapLayer.group("corridor " + i)))
            .id);
    lines.line(n.putArray("line"), c.centreline());
    ArrayNode others = n.putArray("others");
    for (Alternative a : c.alternatives()) {
      ObjectNode o = others.addObject().put("name", "alternative " + a.rank());
      lines.line(o.putArray("line"), a.line());
    }
    limits(n, c);
    profile(n.putArray("profile"), c);
    ArrayNode pinches = n.putArray("pinches");
    for (CorridorResult.PinchPoint p : c.pinchPoints()) {
      pinches.addObject().put("x", p.xM()).put("y", p.yM()).put("widthM", p.widthM());
    }
  }

  /** Distance, height, and time and energy since the start with the stays so far. */
  static void profile(ArrayNode rows, CorridorResult c) {
    int next = 0;
    double stayS = 0;
    double stayJ = 0;
    for (ProfilePoint p : c.centreline()) {
      while (next < c.visits().size() && c.visits().get(next).distanceM() < p.distanceM() - 1e-6) {
        stayS += c.visits().get(next).stayS();
        stayJ += c.visits().get(next).stayJ();
        next++;
      }
      ArrayNode row = rows.addArray();
      row.add(MapLines.number(p.distanceM(), 0)).add(MapLines.number(p.heightM(), 1));
      row.add(MapLines.number(p.timeS() + stayS, 0));
      double kwh = (p.energyJ() + stayJ) / 3.6e6;
      if (Double.isFinite(kwh)) {
        row.add(MapLines.number(kwh, 3));
      } else {
        row.addNull();
      }
    }
  }

  /** Battery and life support of a corridor's vehicle, and what is kept of them. */
  private void limits(ObjectNode n, CorridorResult c) {
    Optional<Vehicle> vehicle = vehicle(c.vehicle());
    put(n, "batteryJ", energyJ(null, batteryKwh(vehicle)), c.request().reserves().energyPct());
    double lifePct = c.request().reserves().lifeSupportPct();
    Double lifeH = vehicle.map(Vehicle::crew).map(Vehicle.Crew::lifeSupportH).orElse(null);
    ReachRequest.Suits suits = c.request().suits();
    double cabinS = lifeH == null ? Double.POSITIVE_INFINITY : lifeH * 3600;
    if (suits != null && suits.plannedS(lifePct) < Reserves.less(cabinS, lifePct)) {
      put(n, "lifeS", suits.enduranceS(), suits.keptPct(lifePct));
    } else if (lifeH != null) {
      put(n, "lifeS", cabinS, lifePct);
    }
  }
}
