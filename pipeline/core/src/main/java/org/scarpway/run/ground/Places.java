package org.scarpway.run.ground;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.stage.UserError;

/** Bases and targets of a job in the coordinates of the analysed grid. */
public final class Places {
  /**
   * A named point of the job.
   *
   * @param stayS time (s) that the job requires there, 0 if it states none
   * @param written its coordinates as written in the job, for messages
   */
  public record Spot(
      String name, double xM, double yM, double stayS, String written, String where) {}

  private final Map<String, Spot> bases = new LinkedHashMap<>();
  private final Map<String, Spot> stops = new LinkedHashMap<>();
  private final List<Target> targets = new ArrayList<>();
  private final List<String> outside = new ArrayList<>();

  /** Leaves out places outside the grid; {@link #requireInside} reports them. */
  public Places(Job job, PlaceFrame frame) {
    this(job.bases(), job.targets(), frame);
  }

  public Places(List<Job.Place> given, Job.TargetsFile wanted, PlaceFrame frame) {
    for (Job.Place p : given) {
      Spot s = spot(p, 0, frame);
      if (s != null) {
        bases.put(p.name(), s);
        stops.put(p.name(), s);
      }
    }
    if (wanted != null) {
      for (Job.TargetRow t : wanted.rows()) {
        Spot s = spot(t.place(), t.stayS(), frame);
        if (s != null) {
          stops.putIfAbsent(s.name, s);
          targets.add(new Target(s.name, s.xM, s.yM, t.weight(), t.stayS(), t.walkCount()));
        }
      }
    }
  }

  /** Returns one line for each place outside the grid. */
  public List<String> outside() {
    return outside;
  }

  /**
   * @throws UserError with one line for each place outside the grid
   */
  void requireInside() {
    UserError.throwAll(outside);
  }

  public Map<String, Spot> bases() {
    return bases;
  }

  public List<Target> targets() {
    return targets;
  }

  /**
   * Returns a base or target by name; {@code where} is the position in the job file that names it.
   */
  public Spot stop(String name, String where) {
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

  /** Returns a base or target that lies on the grid, by name; null if it lies outside. */
  public Spot known(String name, String where) {
    return outside.isEmpty() ? stop(name, where) : find(name);
  }

  /** Returns null if no base or target on the grid has the name. */
  public Spot find(String name) {
    return stops.get(name);
  }

  private Spot spot(Job.Place p, double stayS, PlaceFrame frame) {
    String written = PlaceFrame.text(p.x(), p.y(), p.lonLat());
    try {
      double[] xy = frame.toGrid(p.x(), p.y(), p.lonLat(), p.where());
      if (frame.holds(xy)) {
        return new Spot(p.name(), xy[0], xy[1], stayS, written, p.where());
      }
    } catch (UserError e) {
      outside.add(e.getMessage());
      return null;
    }
    UserError e =
        UserError.of(
            p.where(),
            "'" + p.name() + "' at " + written + " lies outside the elevation model",
            frame.range(p.lonLat()),
            "move it, or widen dem.window");
    outside.add(e.getMessage());
    return null;
  }
}
