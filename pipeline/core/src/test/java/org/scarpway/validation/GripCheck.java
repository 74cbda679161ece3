package org.scarpway.validation;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStage;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityStage;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/** What wheels hold along and across a slope together, on planes. */
class GripCheck {
  private static final int SIDE = 15;
  private static final int MIDDLE = SIDE / 2 * SIDE + SIDE / 2;
  private static final GridSpec SPEC = new GridSpec(SIDE, SIDE, 5, 5, 0, 5 * SIDE, "");

  /** A buggy on four rigid wheels without limits of its own. */
  private static Vehicle buggy(Soil soil) {
    return new Vehicle(
        "buggy",
        "",
        720.0,
        new Vehicle.Chassis(3.2, 2.1, 3.0, null, null, null),
        VehicleParts.wheels(List.of(1.15, -1.15), 1.85, 0.41, 0.24),
        null,
        null,
        VehicleParts.drive(3.3, null, null, null, null, null, null),
        soil,
        null,
        null);
  }

  private static Mobility onPlane(double t, Vehicle v, Workers workers) {
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (5 * t * (i % SIDE));
    }
    Terrain terrain =
        TerrainStage.compute(
            new Dem(new FloatGrid(SPEC, z), 0, Body.MOON, List.of()),
            new TerrainParams(SlopeMethod.HORN, 15, 2.6, 3, null, null, null),
            workers,
            Progress.NONE);
    FloatGrid detour = FloatGrid.empty(SPEC);
    Arrays.fill(detour.values(), 1f);
    Hazard none =
        new Hazard(
            FloatGrid.empty(SPEC),
            ByteGrid.empty(SPEC),
            new GeometryFactory().createGeometryCollection(),
            detour);
    return MobilityStage.compute(terrain, none, v, Body.MOON, workers, Progress.NONE);
  }

  /** Steepest plane (deg) whose contour is open, found by trying: heading 0 is north. */
  private static double contourDeg(Soil soil, Workers workers) {
    double low = 0;
    double high = 60;
    while (high - low > 1e-4) {
      double deg = (low + high) / 2;
      Mobility m = onPlane(Math.tan(Math.toRadians(deg)), buggy(soil), workers);
      boolean open = m.field().allows(MIDDLE, 0);
      low = open ? deg : low;
      high = open ? high : deg;
    }
    return low;
  }

  @Test
  void alongAndAcross() {
    Soil lunar =
        VehicleParts.soil(
            "lunar", new Soil.Bekker(1, 1400, 820_000), new Soil.Shear(170, 35, 0.0178), null);
    Soil firm =
        VehicleParts.soil("firm", new Soil.Bekker(1, 0, 1e17), new Soil.Shear(0, 30, 1e-9), null);
    try (Workers workers = new Workers(1)) {
      Validation.near(
          "5.3-grip-friction-alone-deg",
          "steepest contour on soil of friction angle 30 deg that nothing sinks into (deg)",
          "block on an inclined plane",
          "C",
          30,
          contourDeg(firm, workers),
          0.01);
      Validation.near(
          "5.3-grip-contour-deg",
          "steepest contour of 720 kg on four wheels 0.24 x 0.82 m, phi 35 deg (deg)",
          "friction circle (common practice): resistance and load across within the thrust at a slip"
              + " of 0.6 or less; by SciPy's root finder",
          "P",
          26.9939,
          contourDeg(lunar, workers),
          0.01);
      Mobility steep = onPlane(Math.tan(Math.toRadians(38)), buggy(lunar), workers);
      Validation.holds(
          "5.3-grip-38-deg",
          "no heading open at 38 deg, where 718 N pull and the soil gives 663 N at full shear",
          "W sin S against A c + W cos S tan phi, by hand",
          "C",
          steep.field().allowed(MIDDLE) == 0 && steep.cls().values()[MIDDLE] == Mobility.NO_GO);
    }
  }
}
