package org.scarpway.vehicle;

import java.util.List;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Where a walker can go and how fast. A cell is open on every heading where its steepest slope is
 * within the walker's limit, so the slope along any heading is too; keep-out areas and unknown
 * ground are shut to walkers as to vehicles. Rocks and steps are walked around at no cost: the
 * walking functions are means over such ground.
 */
public final class WalkStage {
  private WalkStage() {}

  /** Energies of the field are metabolic. */
  public static MoveField compute(
      Terrain terrain,
      Hazard hazard,
      Walker walker,
      Body body,
      Workers workers,
      Progress progress) {
    GradeTable table = new WalkSpeeds(walker, body).table();
    GridSpec spec = terrain.gradEast().spec();
    int cells = spec.cells();
    int[] allowed = new int[cells];
    float[] east = terrain.gradEast().values();
    float[] north = terrain.gradNorth().values();
    byte[] causes = hazard.causes().values();
    double steepest = SlopeGeometry.tan(walker.maxSlopeDeg()) * (1 + MoveLimits.ROUNDING);
    progress.begin("walking of " + walker.name(), cells);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
            double ge = east[cell];
            double gn = north[cell];
            // NaN fails the comparison: unknown ground stays shut.
            boolean open =
                Math.sqrt(ge * ge + gn * gn) <= steepest
                    && (causes[cell] & Hazard.Cause.KEEP_OUT.bit()) == 0;
            allowed[cell] = open ? -1 : 0;
          }
          progress.advance((long) (to - from) * spec.cols());
        });
    progress.end();
    return new MoveField(spec, allowed, east, north, null, null, table);
  }

  /** What a reader of the products must know about the walker. */
  public static List<String> notes(Walker walker, Body body) {
    return new WalkSpeeds(walker, body).notes();
  }
}
