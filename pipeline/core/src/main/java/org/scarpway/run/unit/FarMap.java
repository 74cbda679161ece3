package org.scarpway.run.unit;

import java.nio.file.Path;
import org.scarpway.dem.HeightRows;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.light.FarGround;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/**
 * Draws a wider elevation model on the map of the ground, through longitudes and latitudes: both
 * may be on other maps, and maps that are made true to scale differ with their middle.
 */
final class FarMap {
  /** Side (cells) of the drawn model above which its cells become wider. */
  private static final int MOST_CELLS = 8000;

  /** Least height (m) of far mountains and of eyes for which ground is drawn. */
  private static final double LEAST_RELIEF_M = 100;

  private FarMap() {}

  /**
   * Refuses a far model that does not lie around the ground, or whose place is not known.
   *
   * @throws UserError if it is not of use
   */
  static void require(GridSpec near, GridSpec far, Path file) {
    WorldMap there = WorldMap.of(far);
    boolean around = there.known();
    if (around) {
      double[] xy = image(WorldMap.of(near), there, middleX(near), middleY(near));
      around = far.cellOf(xy[0], xy[1]) >= 0;
    }
    if (!around) {
      throw UserError.of(
          file.toString(),
          "dem_far does not lie around the ground",
          "a wider elevation model with dem.source inside",
          "check its reference system, or remove light.dem_far");
    }
  }

  /**
   * Draws the far model as far as its mountains can stand above a horizon of the ground.
   *
   * @param radiusM radius of the body
   */
  static FloatGrid drawn(
      GridSpec near, HeightRows heights, FloatGrid far, double radiusM, Workers workers) {
    double low = heights.lowestM();
    double high = LEAST_RELIEF_M;
    double mountains = LEAST_RELIEF_M;
    for (float z : far.values()) {
      low = z < low ? z : low;
    }
    for (float z : far.values()) {
      mountains = z - low > mountains ? z - low : mountains;
    }
    high = Math.max(high, heights.highestM() - low);
    double reachM = overHorizonM(radiusM, high) + overHorizonM(radiusM, mountains);
    GridSpec spec = spec(near, far.spec(), reachM);
    FloatGrid out = FloatGrid.empty(spec);
    WorldMap here = WorldMap.of(near);
    WorldMap there = WorldMap.of(far.spec());
    FarGround source = new FarGround(far, 0);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          for (int row = from; row < to; row++) {
            for (int col = 0; col < spec.cols(); col++) {
              double[] xy = image(here, there, spec.xM(col), spec.yM(row));
              double height =
                  Double.isFinite(xy[0] + xy[1]) ? source.heightM(xy[0], xy[1]) : Double.NaN;
              out.values()[row * spec.cols() + col] = (float) height;
            }
          }
        });
    return out;
  }

  /** Arc (m) to the horizon of a height over the smooth body. */
  private static double overHorizonM(double radiusM, double heightM) {
    return radiusM * StrictMath.acos(radiusM / (radiusM + heightM));
  }

  /** Cells as wide as those of the far model, as far as both the model and the reach go. */
  private static GridSpec spec(GridSpec near, GridSpec far, double reachM) {
    double across = Math.hypot(far.eastM() - far.westM(), far.northM() - far.southM());
    double margin = Math.min(reachM, across);
    double width = near.eastM() - near.westM() + 2 * margin;
    double height = near.northM() - near.southM() + 2 * margin;
    double cellM =
        Math.max(Math.max(far.cellM(), near.cellM()), Math.max(width, height) / MOST_CELLS);
    return new GridSpec(
        (int) Math.ceil(height / cellM),
        (int) Math.ceil(width / cellM),
        cellM,
        cellM,
        near.westM() - margin,
        near.northM() + margin,
        near.crsWkt());
  }

  private static double[] image(WorldMap from, WorldMap to, double xM, double yM) {
    double[] at = from.toLonLat(xM, yM);
    return Double.isFinite(at[0] + at[1]) ? to.fromLonLat(at[0], at[1]) : at;
  }

  private static double middleX(GridSpec spec) {
    return (spec.westM() + spec.eastM()) / 2;
  }

  private static double middleY(GridSpec spec) {
    return (spec.northM() + spec.southM()) / 2;
  }
}
