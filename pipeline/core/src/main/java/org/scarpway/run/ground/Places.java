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
   * @param stayS time that the job wants there, 0 where it says none
   * @param written its coordinates as the job gives them, for messages
   */
  public record Spot(
      String name, double xM, double yM, double stayS, String written, String where) {}

  private final Map<String, Spot> bases = new LinkedHashMap<>();
  private final Map<String, Spot> stops = new LinkedHashMap<>();
  private final List<Target> targets = new ArrayList<>();
  private final List<String> outside = new ArrayList<>();

  /** Places outside the grid are left out; {@link #requireInside} tells them. */
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

  /** What is wrong with places outside the grid, a line each. */
  public List<String> outside() {
    return outside;
  }

  /**
   * @throws UserError with a line for every place outside the grid
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

  /** A base or target by name; {@code where} is the place that names it. */
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

  /** A base or target that lies on the grid, by name; null where it lies outside. */
  public Spot known(String name, String where) {
    return outside.isEmpty() ? stop(name, where) : find(name);
  }

  /** Null where no base or target on the grid has the name. */
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
