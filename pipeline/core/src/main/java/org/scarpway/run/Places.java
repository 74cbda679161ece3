package org.scarpway.run;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.geodata.MapCrs;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.ReachRequest.Target;
import org.scarpway.stage.UserError;

/** Bases and targets of a job in the coordinates of the analysed grid. */
final class Places {
  /**
   * A named point of the job.
   *
   * @param stayS time that the job wants there, 0 where it says none
   */
  record Spot(String name, double xM, double yM, double stayS, String where) {}

  private final Map<String, Spot> bases = new LinkedHashMap<>();
  private final Map<String, Spot> stops = new LinkedHashMap<>();
  private final List<Target> targets = new ArrayList<>();
  private final List<String> outside = new ArrayList<>();

  /** Places outside the grid are left out; {@link #requireInside} tells them. */
  Places(Job job, GridSpec spec) {
    this(job.bases(), job.targets(), spec);
  }

  Places(List<Job.Place> given, Job.TargetsFile wanted, GridSpec spec) {
    MapCrs crs = MapCrs.of(spec.crsWkt());
    for (Job.Place p : given) {
      Spot s = spot(p, 0, crs, spec);
      if (s != null) {
        bases.put(p.name(), s);
        stops.put(p.name(), s);
      }
    }
    if (wanted != null) {
      for (Job.TargetRow t : wanted.rows()) {
        Spot s = spot(t.place(), t.stayS(), crs, spec);
        if (s != null) {
          stops.putIfAbsent(s.name, s);
          targets.add(new Target(s.name, s.xM, s.yM, t.weight(), t.stayS(), t.walkCount()));
        }
      }
    }
  }

  /** What is wrong with places outside the grid, a line each. */
  List<String> outside() {
    return outside;
  }

  /**
   * @throws UserError with a line for every place outside the grid
   */
  void requireInside() {
    UserError.throwAll(outside);
  }

  Map<String, Spot> bases() {
    return bases;
  }

  List<Target> targets() {
    return targets;
  }

  /** A base or target by name; {@code where} is the place that names it. */
  Spot stop(String name, String where) {
    Spot s = stops.get(name);
    if (s == null) {
      throw UserError.of(
          where,
          "no base or target is called '" + name + "'",
          "one of " + String.join(", ", stops.keySet()),
          "add it under bases or to the targets file");
    }
    return s;
  }

  /** A base or target that lies on the grid, by name; null where it lies outside. */
  Spot known(String name, String where) {
    return outside.isEmpty() ? stop(name, where) : find(name);
  }

  /** Null where no base or target on the grid has the name. */
  Spot find(String name) {
    return stops.get(name);
  }

  private Spot spot(Job.Place p, double stayS, MapCrs crs, GridSpec spec) {
    double[] xy = p.lonLat() ? crs.fromLonLat(p.x(), p.y()) : new double[] {p.x(), p.y()};
    double xM = xy[0];
    double yM = xy[1];
    if (spec.cellOf(xM, yM) < 0) {
      UserError e =
          UserError.of(
              p.where(),
              String.format(
                  Locale.ROOT,
                  "'%s' at (%.1f, %.1f) lies outside the elevation model",
                  p.name(),
                  xM,
                  yM),
              String.format(
                  Locale.ROOT,
                  "x in [%.1f, %.1f] and y in [%.1f, %.1f] m",
                  spec.westM(),
                  spec.eastM(),
                  spec.southM(),
                  spec.northM()),
              "move it, or widen dem.window");
      outside.add(e.getMessage());
      return null;
    }
    return new Spot(p.name(), xM, yM, stayS, p.where());
  }
}
