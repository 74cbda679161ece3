package org.scarpway.hazard;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard.Cause;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Computes the hazard of the terrain for a vehicle. Each cause has its own hazard from 0 to 1:
 * slope, step and roughness as shares of the value at which they are treated as certain; rocks as
 * the probability that a random place is blocked, 1 where rocks leave no path; 1 for keep-out
 * ground, for ground whose slope, step, roughness or rock coverage is unknown, for gaps that are
 * too narrow and for pockets without room to turn. The hazard of a cell is the maximum over the
 * causes.
 *
 * <p>The computation runs strip by strip. Cells are evaluated independently, keep-out ground is
 * rasterised on the whole grid, and gaps and pockets depend only on {@link #haloRows} rows around,
 * so strips of any height give the same values.
 */
public final class HazardStrips {
  private final HazardParams params;
  private final KeepOut keepOut;
  private final KeepOutCells keepOutCells;
  private final NarrowStrips narrow;

  /**
   * Prepares the computation of hazards on a grid.
   *
   * @param whole the grid that strips are cut from
   * @throws org.scarpway.stage.UserError if a keep-out margin is negative
   */
  public HazardStrips(GridSpec whole, HazardParams params) {
    this.params = params;
    this.keepOutCells =
        new KeepOutCells(params.keepOut(), params.marginM(), whole, KeepOutCells.KEY);
    this.keepOut = new KeepOut(params.keepOut(), params.marginM(), keepOutCells, whole);
    this.narrow = NarrowStrips.of(params, whole);
  }

  /** Keep-out areas including their margin. */
  public KeepOut keepOut() {
    return keepOut;
  }

  /**
   * Number of halo rows north and south of a strip without which its outermost rows may be wrong.
   */
  public int haloRows() {
    return narrow == null ? 0 : narrow.haloRows();
  }

  /**
   * Computes the hazards of some rows.
   *
   * @param terrain slope, step and roughness of some rows; other layers are ignored
   * @param firstRow index in the whole grid of their first row
   * @param coverage rock coverage of these rows, null to use the uniform one of the parameters
   * @throws org.scarpway.stage.UserError if a rock coverage is outside [0, 1)
   */
  public Hazard strip(
      Terrain terrain, int firstRow, FloatGrid coverage, Workers workers, Progress progress) {
    return window(terrain, firstRow, 0, coverage, workers, progress);
  }

  /**
   * Like {@link #strip}, for a window of the grid. Its outermost {@link #haloRows} rows, and the
   * same distance east and west, may be wrong.
   *
   * @param firstCol index in the whole grid of the terrain's first column
   */
  public Hazard window(
      Terrain terrain,
      int firstRow,
      int firstCol,
      FloatGrid coverage,
      Workers workers,
      Progress progress) {
    GridSpec spec = terrain.slopeDeg().spec();
    byte[] causes = new byte[spec.cells()];
    int keptOut = Cause.KEEP_OUT.bit();
    keepOutCells.mark(firstRow, firstCol, spec.rows(), spec.cols(), causes, keptOut);
    Rocks rocks = new Rocks(params, coverage, spec, firstRow, firstCol);
    byte[] tight = narrow == null ? null : narrow.find(terrain, firstRow, firstCol, rocks, workers);
    float[] hitsPerKm = rocks.present() ? new float[spec.cells()] : null;
    float[] sidestepM = rocks.present() ? new float[spec.cells()] : null;
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
              tight,
              spec.cols(),
              from,
              to,
              causes,
              hazard01,
              detour,
              hitsPerKm,
              sidestepM,
              dominant);
          progress.advance((long) (to - from) * spec.cols());
        });
    return new Hazard(
        new FloatGrid(spec, hazard01),
        new ByteGrid(spec, causes),
        keepOut::outline,
        new FloatGrid(spec, detour),
        new ByteGrid(spec, dominant),
        hitsPerKm == null
            ? Optional.empty()
            : Optional.of(rocks.boulders(hitsPerKm, sidestepM, spec)),
        rocks.assumed(),
        notes(params, coverage != null));
  }

  private static void weigh(
      Terrain terrain,
      HazardParams params,
      Rocks rocks,
      byte[] tight,
      int cols,
      int fromRow,
      int toRow,
      byte[] causes,
      float[] hazard01,
      float[] detour,
      float[] hitsPerKm,
      float[] sidestepM,
      byte[] dominant) {
    float[] slopeDeg = terrain.slopeDeg().values();
    float[] stepM = terrain.stepM().values();
    float[] roughnessM = terrain.roughnessM().values();
    double slopeShare = 1 / params.slopeDeg();
    double stepShare = 1 / params.stepM();
    // Roughness over a much longer baseline is no evidence about the ground under a vehicle.
    boolean meant =
        terrain.lengths() == null || terrain.lengths().roughness().decides(params.footprintM());
    double roughnessShare = meant ? 1 / params.roughnessM() : 0;
    Rocks.Figures figures = new Rocks.Figures();
    double[] share = new double[Cause.values().length];
    for (int i = fromRow * cols; i < toRow * cols; i++) {
      rocks.at(i, figures);
      share[0] = slopeDeg[i] * slopeShare;
      share[1] = stepM[i] * stepShare;
      share[2] = roughnessM[i] * roughnessShare;
      share[3] = figures.hazard;
      share[4] = (causes[i] & Cause.KEEP_OUT.bit()) != 0 ? 1 : 0;
      boolean unknown = Double.isNaN(share[0] + share[1] + share[2] + share[3]);
      share[5] = unknown ? 1 : 0;
      share[6] = tight != null && tight[i] == MinimumGap.NARROW ? 1 : 0;
      share[7] = tight != null && tight[i] == MinimumGap.POCKET ? 1 : 0;
      detour[i] = (float) figures.detour;
      if (hitsPerKm != null) {
        hitsPerKm[i] = (float) (1000 * figures.hitsPerM);
        sidestepM[i] = (float) figures.sidestepM;
      }
      double largest = 0;
      int bits = 0;
      int code = 0;
      for (int k = 0; k < share.length; k++) {
        double h = Math.min(1, share[k]);
        // Both comparisons are false for NaN.
        if (h >= Hazard.CONTRIBUTES) {
          bits |= 1 << k;
        }
        if (h > largest) {
          largest = h;
          code = k + 1;
        }
      }
      // Unknown ground takes precedence: a void that is also steep is a void.
      dominant[i] = (byte) (unknown ? Cause.VOID.code() : code);
      causes[i] = (byte) bits;
      hazard01[i] = (float) largest;
    }
  }

  private static List<String> notes(HazardParams params, boolean fromRaster) {
    List<String> notes = new ArrayList<>();
    RockParams rocks = params.rocks();
    if (rocks.coverage() != null && rocks.coverage() > 0) {
      RockModel model = RockModel.of(rocks.count(), rocks.coverage());
      RockBody body = rocks.body();
      double hitsPerM = model.hitsPerM(body);
      double density = model.density(body);
      boolean closed = density >= RockModel.CLOSED_DENSITY || hitsPerM * rocks.noGoM() > 1;
      notes.add(
          Digits.text(
              "Rocks cover %s of the ground: a swath of %s m meets %s rocks per km wider than"
                  + " %s m%s (mean free path %s m), %s.",
              rocks.coverage(),
              body.swathM(),
              1000 * hitsPerM,
              body.bellyDiameterM(),
              body.wheelM() < body.bellyM()
                  ? Digits.text(", or than %s m under a wheel", body.wheelDiameterM())
                  : "",
              1 / hitsPerM,
              closed
                  ? "too many to find a way through"
                  : Digits.text("detour factor %s", RockModel.detourFactor(density))));
    }
    if (fromRaster || (rocks.coverage() != null && rocks.coverage() > 0)) {
      notes.add(law(rocks.count()));
    }
    return notes;
  }

  private static String law(RockCount count) {
    String counts =
        count.aboveM() == 0
            ? "Coverage counts all rocks"
            : Digits.text("Coverage counts rocks of %s m or more", count.aboveM());
    if (count.exponent() != null) {
      return Digits.text("%s; their number goes with diameter to -%s.", counts, count.exponent());
    }
    return counts
        + "; the law of sizes was fitted for 0.05 to 0.40 by all rocks. Below, its shape at 0.05 is"
        + " kept, which has more large rocks.";
  }
}
