package org.scarpway.run.begin;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.unit.PlaceGround;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.Vehicle;

/**
 * Proposes a base: the place nearest to a wish that the job's vehicle can leave and its walker
 * reach, with open ground about it. The ground is judged as a run judges it.
 *
 * @param xM east coordinate on the grid (m)
 * @param yM north coordinate on the grid (m)
 * @param openShare share of the places about it that are open, 0 to 1
 */
record FirstBase(double xM, double yM, double openShare) {
  /** Places of the lattice along each side, besides the wish itself. Own choice. */
  private static final int ALONG_SIDE = 14;

  /** Places about a candidate in each direction, and the cells between them. Own choice. */
  private static final int ABOUT = 2;

  private static final int APART_CELLS = 3;

  /** Cells along a side below which none is judged. */
  private static final int LEAST_SIDE = 5;

  /**
   * @param wishXM where a base is wished (m), on the grid
   * @throws UserError if no place that was looked at is open
   */
  static FirstBase near(double wishXM, double wishYM, OpenJob open) {
    GridSpec spec = open.spec();
    PlaceGround ground = new PlaceGround(open);
    Vehicle vehicle = open.job().vehicles().get(0);
    FirstBase best = new FirstBase(wishXM, wishYM, 0);
    List<double[]> places = lattice(wishXM, wishYM, spec);
    for (double[] at : places) {
      double share = openShare(at[0], at[1], ground, spec, vehicle);
      if (share > best.openShare) {
        best = new FirstBase(at[0], at[1], share);
      }
      if (share == 1) {
        break;
      }
    }
    if (best.openShare == 0) {
      int side = leastSide(spec, vehicle);
      if (Math.min(spec.rows(), spec.cols()) < side) {
        throw tooSmall(open, side);
      }
      throw UserError.of(
          open.job().dem().sources().get(0).toString(),
          "none of "
              + places.size()
              + " places is open to the stand-in vehicle and a walker (cells of "
              + Digits.of(spec.cellM())
              + " m)",
          "ground with heights that is not too steep or broken",
          "name a place that you know to be open with --at, or write a job by hand from"
              + " configs/jobs/demo.yaml");
    }
    return best;
  }

  /** Cells along a side that leave some with heights all around. */
  private static int leastSide(GridSpec spec, Vehicle vehicle) {
    int cells = 2 * (int) Math.ceil(vehicle.body().lengthM() / spec.cellM()) + 1;
    return Math.max(LEAST_SIDE, cells);
  }

  private static UserError tooSmall(OpenJob open, int side) {
    GridSpec spec = open.spec();
    return UserError.of(
        open.job().dem().sources().get(0).toString(),
        "of "
            + spec.rows()
            + " x "
            + spec.cols()
            + " cells of "
            + Digits.of(spec.cellM())
            + " m none has as much ground around it as a verdict needs",
        "at least " + side + " x " + side + " cells without voids",
        "take a larger part of the elevation model");
  }

  /** Centres of cells, those nearest to the wish first. */
  private static List<double[]> lattice(double wishXM, double wishYM, GridSpec spec) {
    List<double[]> places = new ArrayList<>();
    for (int i = 0; i < ALONG_SIDE; i++) {
      for (int j = 0; j < ALONG_SIDE; j++) {
        int row = (int) ((i + 0.5) / ALONG_SIDE * spec.rows());
        int col = (int) ((j + 0.5) / ALONG_SIDE * spec.cols());
        places.add(new double[] {spec.xM(col), spec.yM(row)});
      }
    }
    places.sort(Comparator.comparingDouble(p -> Math.hypot(p[0] - wishXM, p[1] - wishYM)));
    places.add(0, new double[] {spec.xM(spec.colOf(wishXM)), spec.yM(spec.rowOf(wishYM))});
    return places;
  }

  /** Returns 0 if the place itself is closed. */
  private static double openShare(
      double xM, double yM, PlaceGround ground, GridSpec spec, Vehicle vehicle) {
    if (!open(xM, yM, ground, vehicle, false)) {
      return 0;
    }
    int n = 0;
    int all = 0;
    for (int i = -ABOUT; i <= ABOUT; i++) {
      for (int j = -ABOUT; j <= ABOUT; j++) {
        double x = xM + j * APART_CELLS * spec.cellXM();
        double y = yM + i * APART_CELLS * spec.cellYM();
        all++;
        n += spec.cellOf(x, y) >= 0 && open(x, y, ground, vehicle, true) ? 1 : 0;
      }
    }
    return (double) n / all;
  }

  /**
   * @param go true if slow ground does not count
   */
  private static boolean open(
      double xM, double yM, PlaceGround ground, Vehicle vehicle, boolean go) {
    PlaceGround.Here here = ground.at(xM, yM);
    byte cls = ground.explain(here, vehicle).cls();
    return (cls == Mobility.GO || (cls == Mobility.SLOW && !go)) && ground.onFoot(here).walkable();
  }
}
