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
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Weighs hazard strip by strip, see {@link HazardStage}. Cells are weighed one by one and keep-out
 * ground is laid out on the whole grid, so strips of any height give the same values, except that
 * pockets without room to turn are only closed on all ground at once.
 */
public final class HazardStrips {
  private final HazardParams params;
  private final Geometry keepOut;
  private final KeepOutCells keepOutCells;
  private final GridSpec whole;

  /** The areas themselves: their margin already keeps the middle of the vehicle away. */
  private final KeepOutCells areaCells;

  /**
   * @param whole the grid that strips are cut from
   * @throws org.scarpway.stage.UserError where a keep-out margin is negative
   */
  public HazardStrips(GridSpec whole, HazardParams params) {
    this.params = params;
    this.keepOut = KeepOut.area(params.keepOut(), params.marginM());
    this.keepOutCells = new KeepOutCells(keepOut, whole);
    this.whole = whole;
    HazardParams.Room room = params.room();
    boolean anyRoom = room != null && (room.gapM() > 0 || room.turnM() > 0);
    this.areaCells = anyRoom ? new KeepOutCells(KeepOut.area(params.keepOut(), 0), whole) : null;
  }

  /** Rows beyond a strip that its hazard may depend on. */
  public int haloRows() {
    return areaCells == null ? 0 : NarrowGround.haloRows(whole, params.room().gapM(), 0);
  }

  /** All ground at once: pockets without room to turn can be seen then. */
  public Hazard whole(Terrain terrain, FloatGrid coverage, Workers workers, Progress progress) {
    return weigh(terrain, 0, true, coverage, workers, progress);
  }

  /**
   * @param terrain slope, step and roughness of some rows; other layers are not looked at. Hazard
   *     within {@link #haloRows} of their ends is only right where that is the edge of the ground
   * @param firstRow row of the whole grid under their first one
   * @param coverage rock coverage of these rows, null for what the parameters say of all ground
   * @throws org.scarpway.stage.UserError where a rock coverage is outside [0, 1)
   */
  public Hazard strip(
      Terrain terrain, int firstRow, FloatGrid coverage, Workers workers, Progress progress) {
    return weigh(terrain, firstRow, false, coverage, workers, progress);
  }

  private Hazard weigh(
      Terrain terrain,
      int firstRow,
      boolean pockets,
      FloatGrid coverage,
      Workers workers,
      Progress progress) {
    GridSpec spec = terrain.slopeDeg().spec();
    byte[] causes = new byte[spec.cells()];
    keepOutCells.mark(firstRow, spec.rows(), causes, Cause.KEEP_OUT.bit());
    Rocks rocks = new Rocks(params, coverage, spec, firstRow);
    byte[] narrow = narrow(terrain, firstRow, pockets, rocks, workers);
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
    return new Hazard(
        new FloatGrid(spec, hazard01),
        new ByteGrid(spec, causes),
        keepOut,
        new FloatGrid(spec, detour),
        new ByteGrid(spec, dominant),
        notes(params, coverage != null));
  }

  /** Codes of {@link NarrowGround}, null where no room is asked for. */
  private byte[] narrow(
      Terrain terrain, int firstRow, boolean pockets, Rocks rocks, Workers workers) {
    if (areaCells == null) {
      return null;
    }
    HazardParams.Room room = params.room();
    GridSpec spec = terrain.slopeDeg().spec();
    byte[] keptOut = new byte[spec.cells()];
    areaCells.mark(firstRow, spec.rows(), keptOut, 1);
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
    return NarrowGround.find(blocked, spec, room.gapM(), pockets ? room.turnM() : 0, workers);
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

  private static List<String> notes(HazardParams params, boolean fromRaster) {
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
    if (fromRaster) {
      notes.add("Rocks come from a coverage raster; the model was fitted for 0.05 to 0.40.");
    }
    return notes;
  }
}
