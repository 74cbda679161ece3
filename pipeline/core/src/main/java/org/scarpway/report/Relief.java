package org.scarpway.report;

import org.scarpway.dem.Dem;
import org.scarpway.grid.FloatGrid;
import org.scarpway.terrain.ShownTerrain;

/**
 * Shaded relief: the reflectance of a Lambertian surface, Horn 1981, <i>Hill shading and the
 * reflectance map</i>, Proc. IEEE 69(1):14-47, under a light from the north-west, 45 degrees high.
 * It shows shape only and does not represent the light at any time.
 */
final class Relief {
  private static final double LIGHT_UP = Math.sqrt(0.5);
  private static final double LIGHT_EAST = -0.5;
  private static final double LIGHT_NORTH = 0.5;
  private static final double[] EXAGGERATIONS = {1, 2, 3, 5, 8, 12};
  private static final double TARGET_GRADE = 0.25;

  final float[] shade01;
  final double exaggeration;

  Relief(PixelGrid grid, FloatGrid heightM, FloatGrid gradEast, FloatGrid gradNorth) {
    float[] east = grid.mean(gradEast);
    float[] north = grid.mean(gradNorth);
    float[] height = grid.mean(heightM);
    exaggeration = exaggeration(east, north);
    shade01 = new float[height.length];
    for (int i = 0; i < height.length; i++) {
      if (Float.isNaN(height[i])) {
        shade01[i] = -1;
        continue;
      }
      // At the rim of the data a gradient may be missing; it is shaded as level ground.
      double p = Float.isNaN(east[i]) ? 0 : exaggeration * east[i];
      double q = Float.isNaN(north[i]) ? 0 : exaggeration * north[i];
      shade01[i] = (float) shade(p, q);
    }
  }

  /** Returns the shade of every cell, 0 to 1, with the same exaggeration; -1 without elevation. */
  FloatGrid full(Dem dem, ShownTerrain terrain) {
    FloatGrid shade = FloatGrid.empty(dem.heightM().spec());
    float[] east = terrain.gradEast().values();
    float[] north = terrain.gradNorth().values();
    for (int i = 0; i < east.length; i++) {
      double p = Float.isNaN(east[i]) ? 0 : exaggeration * east[i];
      double q = Float.isNaN(north[i]) ? 0 : exaggeration * north[i];
      shade.values()[i] = Float.isNaN(dem.heightM().values()[i]) ? -1 : (float) shade(p, q);
    }
    return shade;
  }

  /** Reflectance of a facet, 0 to 1, with gradients towards east and north. */
  static double shade(double gradEast, double gradNorth) {
    double lit = LIGHT_UP - gradEast * LIGHT_EAST - gradNorth * LIGHT_NORTH;
    return Math.max(0, lit / Math.sqrt(1 + gradEast * gradEast + gradNorth * gradNorth));
  }

  // Returns the vertical exaggeration: gentle ground would look blank, so it is exaggerated until
  // the RMS gradient is clearly visible.
  private static double exaggeration(float[] east, float[] north) {
    double sum = 0;
    long n = 0;
    for (int i = 0; i < east.length; i++) {
      double g2 = (double) east[i] * east[i] + (double) north[i] * north[i];
      if (!Double.isNaN(g2)) {
        sum += g2;
        n++;
      }
    }
    double rms = n == 0 ? 0 : Math.sqrt(sum / n);
    for (double z : EXAGGERATIONS) {
      if (rms * z >= TARGET_GRADE) {
        return z;
      }
    }
    return rms == 0 ? 1 : EXAGGERATIONS[EXAGGERATIONS.length - 1];
  }

  String note() {
    return "Relief shaded by Horn 1981 for reading form only (light from the north-west, 45 deg"
        + " high"
        + (exaggeration == 1 ? "" : ", heights x" + Figures.plain(exaggeration))
        + "); it is not the light of any day.";
  }
}
