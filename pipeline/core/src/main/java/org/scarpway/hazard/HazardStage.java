package org.scarpway.hazard;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard.Cause;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Weighs what the ground may do to a vehicle. Each cause has its own hazard from 0 to 1: slope,
 * step and roughness as shares of the value at which they count as certain; rocks as the
 * probability that a place picked at random is blocked, 1 where rocks leave no way; keep-out ground
 * 1; ground whose slope, step, roughness or rock coverage is not known 1; gaps too narrow and
 * pockets without room to turn 1. The hazard of a cell is the largest.
 */
public final class HazardStage {
  private HazardStage() {}

  /**
   * @throws UserError where a rock coverage is outside [0, 1) or a keep-out margin is negative
   */
  public static Hazard compute(
      Terrain terrain, HazardParams params, Workers workers, Progress progress) {
    GridSpec spec = terrain.heightM().spec();
    progress.begin("hazard", spec.cells());
    Geometry keepOut = KeepOut.area(params.keepOut(), params.marginM());
    byte[] causes = new byte[spec.cells()];
    KeepOut.mark(keepOut, spec, causes, Cause.KEEP_OUT.bit());
    Rocks rocks = new Rocks(params, spec);
    byte[] narrow = narrow(terrain, params, rocks, workers);
    float[] hazard01 = new float[spec.cells()];
    float[] detour = new float[spec.cells()];
    byte[] dominant = new byte[spec.cells()];
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          weigh(
              terrain,
              params,
              rocks,
              narrow,
              spec.cols(),
              from,
              to,
              causes,
              hazard01,
              detour,
              dominant);
          progress.advance((long) (to - from) * spec.cols());
        });
    progress.end();
    return new Hazard(
        new FloatGrid(spec, hazard01),
        new ByteGrid(spec, causes),
        keepOut,
        new FloatGrid(spec, detour),
        new ByteGrid(spec, dominant),
        notes(params));
  }

  /** Codes of {@link NarrowGround}, null where no room is asked for. */
  private static byte[] narrow(Terrain terrain, HazardParams params, Rocks rocks, Workers workers) {
    HazardParams.Room room = params.room();
    if (room == null || (room.gapM() <= 0 && room.turnM() <= 0)) {
      return null;
    }
    GridSpec spec = terrain.heightM().spec();
    // The areas themselves: their margin already keeps the middle of the vehicle away.
    byte[] keptOut = new byte[spec.cells()];
    KeepOut.mark(KeepOut.area(params.keepOut(), 0), spec, keptOut, 1);
    float[] slopeDeg = terrain.slopeDeg().values();
    float[] stepM = terrain.stepM().values();
    // A step that was only estimated slows a vehicle, but does not wall it in.
    boolean measured = terrain.extrapolation() == null || terrain.extrapolation().step() == null;
    double stepLimitM = measured ? params.stepM() : Double.POSITIVE_INFINITY;
    boolean[] blocked = new boolean[spec.cells()];
    for (int i = 0; i < blocked.length; i++) {
      double coverage = rocks.coverageAt(i);
      // An unknown slope, step or coverage fails its comparison and blocks.
      blocked[i] =
          keptOut[i] != 0
              || !(slopeDeg[i] <= room.blockedDeg())
              || !(stepM[i] <= stepLimitM)
              || !(rocks.hazardAt(coverage) < 1);
    }
    return NarrowGround.find(blocked, spec, room.gapM(), room.turnM(), workers);
  }

  private static void weigh(
      Terrain terrain,
      HazardParams params,
      Rocks rocks,
      byte[] narrow,
      int cols,
      int fromRow,
      int toRow,
      byte[] causes,
      float[] hazard01,
      float[] detour,
      byte[] dominant) {
    float[] slopeDeg = terrain.slopeDeg().values();
    float[] stepM = terrain.stepM().values();
    float[] roughnessM = terrain.roughnessM().values();
    double slopeShare = 1 / params.slopeDeg();
    double stepShare = 1 / params.stepM();
    double roughnessShare = 1 / params.roughnessM();
    double[] share = new double[Cause.values().length];
    for (int i = fromRow * cols; i < toRow * cols; i++) {
      double coverage = rocks.coverageAt(i);
      share[0] = slopeDeg[i] * slopeShare;
      share[1] = stepM[i] * stepShare;
      share[2] = roughnessM[i] * roughnessShare;
      share[3] = rocks.hazardAt(coverage);
      share[4] = (causes[i] & Cause.KEEP_OUT.bit()) != 0 ? 1 : 0;
      boolean unknown = Double.isNaN(share[0] + share[1] + share[2] + coverage);
      share[5] = unknown ? 1 : 0;
      share[6] = narrow != null && narrow[i] == NarrowGround.NARROW ? 1 : 0;
      share[7] = narrow != null && narrow[i] == NarrowGround.POCKET ? 1 : 0;
      detour[i] = (float) rocks.detourAt(coverage);
      double largest = 0;
      int bits = 0;
      int code = 0;
      for (int k = 0; k < share.length; k++) {
        double h = Math.min(1, share[k]);
        // Both comparisons are false for a share that is not known.
        if (h >= Hazard.CONTRIBUTES) {
          bits |= 1 << k;
        }
        if (h > largest) {
          largest = h;
          code = k + 1;
        }
      }
      // What is not known outweighs what is: a void that is also steep is a void.
      dominant[i] = (byte) (unknown ? Cause.VOID.code() : code);
      causes[i] = (byte) bits;
      hazard01[i] = (float) largest;
    }
  }

  /** Rock figures per cell; one fraction for all cells is worked out once. */
  private static final class Rocks {
    private final double swathM;
    private final double diameterM;
    private final float[] coverage;
    private final double uniform;
    private final double uniformHazard;
    private final double uniformDetour;

    Rocks(HazardParams params, GridSpec spec) {
      swathM = params.swathM();
      diameterM = RockModel.blockingDiameterM(params.clearanceM());
      coverage = coverage(params, spec);
      uniform = params.rockCoverage() == null ? 0 : params.rockCoverage();
      RockModel model = RockModel.of(uniform);
      uniformHazard = uniform > 0 ? hazard(model) : 0;
      uniformDetour = uniform > 0 ? model.detourFactor(swathM, diameterM) : 1;
    }

    double coverageAt(int cell) {
      return coverage == null ? uniform : coverage[cell];
    }

    double hazardAt(double k) {
      return coverage == null ? uniformHazard : k > 0 ? hazard(RockModel.of(k)) : 0;
    }

    /** 1 where the coverage is not known: the void shows in the hazard instead. */
    double detourAt(double k) {
      return coverage == null
          ? uniformDetour
          : k > 0 ? RockModel.of(k).detourFactor(swathM, diameterM) : 1;
    }

    private double hazard(RockModel model) {
      return model.blockingDensity(swathM, diameterM) >= RockModel.BARRIER_DENSITY
          ? 1
          : model.blockedProbability(swathM, diameterM);
    }

    private static float[] coverage(HazardParams params, GridSpec spec) {
      if (params.rockCoverageGrid() == null) {
        return null;
      }
      float[] values = params.rockCoverageGrid().values();
      if (values.length != spec.cells()) {
        throw new IllegalArgumentException(
            "rock coverage has " + values.length + " cells, the ground " + spec.cells());
      }
      for (int i = 0; i < values.length; i++) {
        if (values[i] < 0 || values[i] >= 1) {
          throw UserError.of(
              "hazard.rock_coverage",
              String.format(
                  Locale.ROOT,
                  "coverage is %.4g at row %d, column %d",
                  values[i],
                  i / spec.cols(),
                  i % spec.cols()),
              "a fraction in [0, 1)",
              "divide percentages by 100");
        }
      }
      return values;
    }
  }

  private static List<String> notes(HazardParams params) {
    List<String> notes = new ArrayList<>();
    if (params.rockCoverage() != null && params.rockCoverage() > 0) {
      RockModel model = RockModel.of(params.rockCoverage());
      double diameterM = RockModel.blockingDiameterM(params.clearanceM());
      notes.add(
          String.format(
              Locale.ROOT,
              "Rocks cover %.3g of the ground: a swath of %.3g m meets %.3g rocks per km wider than"
                  + " %.3g m (mean free path %.3g m), detour factor %.3g.",
              params.rockCoverage(),
              params.swathM(),
              1000 * model.hitsPerM(params.swathM(), diameterM),
              diameterM,
              model.meanFreePathM(params.swathM(), diameterM),
              model.detourFactor(params.swathM(), diameterM)));
      if (!model.withinFit()) {
        notes.add("The rock model was fitted for coverages of 0.05 to 0.40; this one is outside.");
      }
    }
    if (params.rockCoverageGrid() != null) {
      notes.add("Rocks come from a coverage raster; the model was fitted for 0.05 to 0.40.");
    }
    return notes;
  }
}
