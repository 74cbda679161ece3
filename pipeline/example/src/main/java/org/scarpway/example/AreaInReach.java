package org.scarpway.example;

import java.nio.file.Path;
import java.util.List;
import org.scarpway.config.VehicleReader;
import org.scarpway.dem.Dem;
import org.scarpway.dem.DemRequest;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.dem.DemRows;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.Body;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.HazardParams;
import org.scarpway.hazard.HazardStrips;
import org.scarpway.hazard.RockParams;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.trip.ReachSolver;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStage;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityStage;
import org.scarpway.vehicle.Vehicle;

/**
 * How far a vehicle gets from the middle of an elevation model and still drives home: from heights
 * to terrain, hazard, mobility and reach, each by one call. A {@link Workers} holds the threads and
 * the memory of one engine; several may work side by side.
 */
public final class AreaInReach {
  private AreaInReach() {}

  /**
   * Arguments: elevation model, vehicle file, hours. The elevation model is of the Moon. Ends with
   * one line and exit code 2 for arguments and files that cannot be used.
   */
  public static void main(String[] args) {
    if (args.length != 3 || !args[2].matches("[0-9]{1,4}([.][0-9]{1,6})?")) {
      System.err.println(
          "expected: ELEVATION_MODEL VEHICLE.yaml HOURS, such as ground.tif rover.yaml 1.5");
      System.exit(2);
    }
    try (Workers workers = new Workers(Runtime.getRuntime().availableProcessors())) {
      Vehicle vehicle = VehicleReader.read(Path.of(args[1]));
      ReachResult answer =
          solve(Path.of(args[0]), Body.MOON, vehicle, Double.parseDouble(args[2]), workers);
      System.out.printf("%.2f km2 are surely in reach%n", answer.surelyM2() / 1e6);
    } catch (UserError e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /**
   * Asks from the middle of the elevation model, without rocks and keep-out ground. A file that
   * names no coordinate reference system is taken as plain metres.
   *
   * @param hours of the trip out and home, of which a tenth is kept
   */
  public static ReachResult solve(
      Path heights, Body body, Vehicle vehicle, double hours, Workers workers) {
    DemRequest request =
        new DemRequest(
            List.of(heights), body, null, null, VoidRule.NO_GO, 0, null, null, 25_000_000, true);
    Dem dem = DemRows.open(request, RasterIos.best(), workers).whole(Progress.NONE);
    double cellM = dem.heightM().spec().cellM();

    double baseM = vehicle.wheels().wheelbaseM();
    double trackM = vehicle.wheels().widestTrackM();
    double footprintM = Math.max(Math.hypot(baseM, trackM), 3 * cellM);
    TerrainParams measure =
        new TerrainParams(SlopeMethod.HORN, footprintM, Math.min(baseM, trackM), baseM);
    Terrain terrain = TerrainStage.compute(dem, measure, workers, Progress.NONE);

    RockParams noRocks =
        new RockParams(0.0, null, vehicle.body().clearanceM(), vehicle.body().widthM());
    HazardParams what =
        new HazardParams(
            noRocks,
            List.of(),
            0,
            vehicle.limits().climbDeg(),
            vehicle.limits().stepM(),
            vehicle.body().clearanceM(),
            footprintM,
            null);
    Hazard hazard =
        new HazardStrips(dem.heightM().spec(), what)
            .strip(terrain, 0, null, workers, Progress.NONE);

    Mobility mobility =
        MobilityStage.compute(terrain, hazard, vehicle, body, workers, Progress.NONE);

    double tenth = Reserves.USUAL_PCT;
    ReachRequest question =
        new ReachRequest(
            "an example",
            "the middle",
            dem.heightM().spec().xM(dem.heightM().spec().cols() / 2),
            dem.heightM().spec().yM(dem.heightM().spec().rows() / 2),
            new Budget(hours * 3600, null, null),
            HomeRule.DRIVE_BACK,
            List.of(),
            0,
            new Rescue(0, 0, 0, 0),
            new Reserves(tenth, tenth, tenth, tenth),
            false);
    TraversalInput ground = new TraversalInput(mobility, dem.heightM());
    return ReachSolver.solve(question, ground, null, List.of(), workers, Progress.NONE);
  }
}
