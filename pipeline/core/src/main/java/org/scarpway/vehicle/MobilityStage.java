package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.LongAdder;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Where a vehicle can go, on which headings, how fast and at what energy. Cells are judged one by
 * one, so the result does not depend on the number of threads.
 */
public final class MobilityStage {
  private MobilityStage() {}

  /**
   * @throws org.scarpway.stage.UserError where the vehicle's file lacks what its own blocks need
   */
  public static Mobility compute(
      Terrain terrain,
      Hazard hazard,
      Vehicle vehicle,
      Body body,
      Workers workers,
      Progress progress) {
    MoveLimits limits = new MoveLimits(vehicle, body);
    GridSpec spec = terrain.gradEast().spec();
    int cells = spec.cells();
    int[] allowed = new int[cells];
    float[] capMs = new float[cells];
    float[] narrowGrade = new float[cells];
    ByteGrid cls = ByteGrid.empty(spec);
    ByteGrid limit = ByteGrid.empty(spec);
    FloatGrid headingsPct = FloatGrid.empty(spec);
    FloatGrid margin01 = FloatGrid.empty(spec);
    LongAdder narrow = new LongAdder();

    progress.begin("mobility of " + vehicle.name(), 2L * cells);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          CellJudge judge = new CellJudge(limits, terrain, hazard);
          int narrowHere = 0;
          for (int row = from; row < to; row++) {
            for (int col = 0, cell = row * spec.cols(); col < spec.cols(); col++, cell++) {
              judge.judge(row, col);
              allowed[cell] = judge.bits;
              capMs[cell] = (float) judge.capMs;
              cls.values()[cell] = judge.cls;
              limit.values()[cell] = judge.code;
              headingsPct.values()[cell] =
                  judge.cls == 0 ? Float.NaN : (float) (100 * judge.openShare);
              margin01.values()[cell] = (float) judge.margin01;
              narrowGrade[cell] = (float) judge.narrowGrade;
              narrowHere += Double.isNaN(judge.narrowGrade) ? 0 : 1;
            }
          }
          narrow.add(narrowHere);
          progress.advance((long) (to - from) * spec.cols());
        });

    float[] detour = hazard.detourFactor().values();
    MoveField field =
        new MoveField(
            spec,
            allowed,
            terrain.gradEast().values(),
            terrain.gradNorth().values(),
            capMs,
            detours(detour) ? detour : null,
            new byte[cells],
            limits.table);
    FloatGrid speedMs = FloatGrid.empty(spec);
    FloatGrid energyJm = FloatGrid.empty(spec);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
            if (Float.isNaN(narrowGrade[cell])) {
              field.fillMeans(cell, speedMs.values(), energyJm.values());
            } else {
              double v = Math.min(capMs[cell], limits.table.speedMs(narrowGrade[cell]));
              double d = Math.max(1, detour[cell]);
              speedMs.values()[cell] = (float) (v / d);
              energyJm.values()[cell] =
                  (float)
                      (limits.table.tractionJPerM(narrowGrade[cell])
                          + (d - 1) * limits.table.tractionJPerM(0)
                          + d * limits.table.hotelW() / v);
            }
          }
          progress.advance((long) (to - from) * spec.cols());
        });
    progress.end();
    return new Mobility(
        vehicle,
        cls,
        limit,
        headingsPct,
        speedMs,
        energyJm,
        margin01,
        field,
        notes(limits, spec, narrow.sum()));
  }

  private static boolean detours(float[] detour) {
    for (float d : detour) {
      if (d > 1) {
        return true;
      }
    }
    return false;
  }

  private static List<String> notes(MoveLimits limits, GridSpec spec, long narrow) {
    List<String> notes = new ArrayList<>();
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    if (WheelPose.resolves(limits.vehicle(), spec)) {
      notes.add(
          String.format(
              Locale.ROOT,
              "Wheels set on the ground on 32 headings: cells of %.3g m resolve a track of %.3g m."
                  + " Obstacles smaller than about %.3g m are not in the elevation model.",
              cellM,
              limits.vehicle().wheels().trackM(),
              2 * cellM));
    } else {
      notes.add(
          String.format(
              Locale.ROOT,
              "Closed forms: cells of %.3g m do not resolve the wheels; contact of belly and"
                  + " overhangs follows from convexity and breaks in slope. Obstacles smaller than"
                  + " about %.3g m are not in the elevation model.",
              cellM,
              2 * cellM));
    }
    if (narrow > 0) {
      notes.add(
          narrow
              + " cells are open only on a window of headings narrower than the spacing of the 32"
              + " headings: shown as slow, not used by reach and corridors.");
    }
    if (limits.sinkageM > 0 && limits.sinkageM > limits.vehicle().wheels().radiusM() / 3) {
      notes.add(
          String.format(
              Locale.ROOT,
              "Wheels sink %.2g m on the level, more than a sixth of their diameter: beyond what"
                  + " the pressure-sinkage law is meant for.",
              limits.sinkageM));
    }
    if (limits.tractionUp < 0) {
      notes.add("The soil does not carry the vehicle on level ground.");
    }
    return notes;
  }
}
